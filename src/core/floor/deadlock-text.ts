/** Tells in words why nothing can happen any more: who waits for whom. */
import { INFEED, OUTFEED, WORK } from './compiled-cell.js';
import type { FloorRobot } from './robot.js';
import { RoutePath } from './route-path.js';
import type { ShopFloor } from './shop-floor.js';
import { DOWN_WAITING, FINISHED, PART_LOADED, STOP_WAITING } from './slot-state.js';

/** One element that waits, and the stations it waits for. */
interface Wait {
  readonly text: string;
  readonly station: number;
  readonly waitsFor: readonly number[];
}

/** @returns sentences; the ring of waits first, where there is one */
export function deadlockText(floor: ShopFloor, robot: FloorRobot): string {
  const waits = listWaits(floor);
  const ring = findRing(waits);
  const told = (ring ?? waits).map((w) => `${w.text}.`);
  return [...(ring === null ? [] : ['A ring of waits:']), ...told, robot.waitText()].join(' ');
}

function listWaits(floor: ShopFloor): Wait[] {
  const { cell } = floor;
  const path = new RoutePath(cell);
  const waits: Wait[] = [];
  for (let slot = 0; slot < cell.slotCount; slot++) {
    const station = cell.slotStation[slot]!;
    const name = cell.stationNames[station]!;
    const state = floor.slotState[slot];
    const op = floor.slotOp[slot]!;
    const part = op < 0 ? '' : cell.routeNames[cell.opRoute[op]!]!;
    if (state === FINISHED) {
      const dest = path.next(op);
      const to = [...cell.opStations.subarray(cell.firstChoice[dest]!, cell.firstChoice[dest + 1]!)];
      const names = to.map((s) => cell.stationNames[s]!).join(' or ');
      waits.push({
        text: `${name} holds a finished ${part} that waits for room at ${names}`,
        station,
        waitsFor: to,
      });
    } else if (state === PART_LOADED) {
      const more = cell.opBatch[op]!;
      waits.push({
        text: `${name} holds a ${part} and waits until ${more} are loaded`,
        station,
        waitsFor: [],
      });
    } else if (state === DOWN_WAITING || state === STOP_WAITING)
      waits.push({ text: `${name} is down and waits for an operator`, station, waitsFor: [] });
  }
  return [...waits, ...rackWaits(floor)];
}

function rackWaits(floor: ShopFloor): Wait[] {
  const { cell } = floor;
  return [...cell.stationNames.entries()]
    .filter(([s]) => cell.stationKind[s] !== WORK && floor.racks.state[s] !== 0)
    .filter(([s]) => cell.stationKind[s] === INFEED || cell.stationKind[s] === OUTFEED)
    .map(([s, name]) => ({
      text: `${name} ${cell.stationKind[s] === INFEED ? 'has no parts left' : 'is full'} and waits for an operator`,
      station: s,
      waitsFor: [],
    }));
}

/** Follows who waits for whom until an element comes up again. */
function findRing(waits: readonly Wait[]): Wait[] | null {
  const byStation = new Map(waits.map((w) => [w.station, w]));
  for (const start of waits) {
    const trail: Wait[] = [];
    let at: Wait | undefined = start;
    while (at !== undefined && !trail.includes(at)) {
      trail.push(at);
      at = at.waitsFor.map((s) => byStation.get(s)).find((w) => w !== undefined);
    }
    if (at !== undefined) return trail.slice(trail.indexOf(at));
  }
  return null;
}
