/**
 * What a change of the cell would bring, each by scheduling the changed cell again: a second hand, a place beside a
 * bottleneck station for one part, and what the best order already brings over a plain one.
 */

import type { Cell, Route, Station, Step, TravelRow } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';
import { evaluateOrder } from '../evaluate/evaluate-order.js';
import { plainOrder } from '../plan/plain-order.js';
import type { Plan } from '../plan/plan.js';
import { goalOf } from '../plan/weights.js';
import type { ScheduleFound, ScheduleOutcome, WhatIf } from '../result.js';
import { ratesOf } from './describe.js';

/** Index time assumed for a second hand, seconds: common practice, stated in the result. */
export const ASSUMED_INDEX_S = 2;
/** Bottleneck stations for which a place beside them is tried. */
const STATIONS_TRIED = 2;

/** Gains of less than this share are none, per cent: the search's own rounding. */
const NO_GAIN_PCT = 1e-6;

/**
 * @param solve schedules a changed cell (with a limit of its own)
 * @returns changes with the parts per hour that they give; one that brings nothing says why
 */
export function whatIf(
  cell: Cell,
  plan: Plan,
  found: ScheduleFound,
  solve: (cell: Cell) => ScheduleOutcome,
): WhatIf[] {
  const against = (change: Change, result: ScheduleOutcome): WhatIf[] =>
    result.status === 'proven' || result.status === 'best found'
      ? [compared(cell, found, change, result.partsPerH, result.proven)]
      : [];
  const list = plainWhatIf(cell, plan, found);
  if (cell.robot.hands === 1) {
    const { indexS } = cell.robot;
    const turnS = indexS > 0 ? indexS : ASSUMED_INDEX_S;
    const handed = solve({ ...cell, robot: { ...cell.robot, hands: 2, indexS: turnS } });
    list.push(...against(secondHand(`${turnS} s index time${indexS > 0 ? '' : ' assumed'}`), handed));
  }
  for (const name of found.bottleneck.stations.slice(0, STATIONS_TRIED)) {
    const changed = withBuffer(cell, name);
    if (changed !== null) list.push(...against(placeBeside(name), solve(changed)));
  }
  return list;
}

interface Change {
  readonly text: string;
  /** What is said where it brings nothing. */
  readonly noGain: (proven: boolean) => string | null;
}

function secondHand(turn: string): Change {
  return {
    text: `dual gripper (${turn})`,
    noGain: (proven) =>
      proven
        ? 'no sequence with a dual gripper is better than the one shown'
        : 'the short search found no better sequence with a dual gripper; not proven',
  };
}

function placeBeside(name: string): Change {
  return {
    text: `a buffer at ${name}`,
    noGain: (proven) =>
      proven
        ? 'the extra handling costs as much time as it saves, or more'
        : 'the extra handling costs as much time as it saves in every sequence of the short search; not proven',
  };
}

function compared(
  cell: Cell,
  found: ScheduleFound,
  { text, noGain }: Change,
  rates: ScheduleFound['partsPerH'],
  proven: boolean,
): WhatIf {
  const { weight } = goalOf(cell);
  const worth = (of: ScheduleFound['partsPerH']): number =>
    cell.routes.reduce((sum, route, i) => sum + weight[i]! * (of[route.part] ?? 0), 0);
  const goalGainPct = 100 * (worth(rates) / worth(found.partsPerH) - 1);
  const partsPerH = rates.total!;
  return {
    change: text,
    partsPerH,
    gainPerH: partsPerH - found.partsPerH.total!,
    goalGainPct,
    proven,
    noGain: goalGainPct > NO_GAIN_PCT ? null : noGain(proven),
  };
}

/** What the best order already saves; not a change to make, so it needs no reason. */
function plainWhatIf(cell: Cell, plan: Plan, found: ScheduleFound): WhatIf[] {
  const plain = evaluateOrder(plan, plainOrder(plan));
  if (!plain.feasible) return [];
  const change: Change = {
    text: 'simple sequence: serve the last step first',
    noGain: () => null,
  };
  return [compared(cell, found, change, ratesOf(plan.partsPerPeriod, plain.periodS), true)];
}

/** A one-part place right beside a station: the part that comes next waits there. Null where the route has no place for it. */
function withBuffer(cell: Cell, name: string): Cell | null {
  const station = cell.stations.find((s) => s.name === name);
  if (
    station === undefined ||
    station.kind === 'infeed' ||
    station.kind === 'outfeed' ||
    station.kind === 'held'
  )
    return null;
  if (
    cell.routes.some((route) => route.steps.some((s) => s.stations.includes(name) && s.stations.length > 1))
  )
    return null;
  const buffer = freeName(cell, `beside ${name}`);
  const place: Station = {
    ...station,
    name: buffer,
    kind: 'buffer',
    capacityParts: 1,
    readyS: 0,
    closeS: 0,
    costPerH: 0,
    mtbfH: null,
    mttrMin: null,
  };
  return {
    ...cell,
    stations: [...cell.stations, place],
    travel: [...cell.travel, ...travelBeside(cell, name, buffer)],
    routes: cell.routes.map((route) => routeThrough(route, name, buffer)),
  };
}

function routeThrough(route: Route, name: string, buffer: string): Route {
  return {
    ...route,
    steps: route.steps.flatMap((step, i) => {
      const before = route.steps[i - 1];
      // Counted double, so that there is a whole number between two steps: engines are slower with others.
      const own = { ...step, step: 2 * step.step };
      if (before === undefined || !step.stations.includes(name)) return [own];
      const wait: Step = {
        step: before.step + step.step,
        stations: [buffer],
        cycleS: 0,
        loadS: step.loadS,
        unloadS: step.unloadS,
        maxWaitS: null,
        partsPerCycle: 1,
        everyParts: step.everyParts,
      };
      return [wait, own];
    }),
  };
}

/** The place beside has the travel times of the station; between the two the shortest trip of the cell. */
function travelBeside(cell: Cell, name: string, buffer: string): TravelRow[] {
  const travel = travelLookup(cell);
  const rows: TravelRow[] = [];
  let shortestS = Number.POSITIVE_INFINITY;
  for (const other of cell.stations) {
    if (other.name === name) continue;
    const there = travel(other.name, name);
    const back = travel(name, other.name);
    if (there === null || back === null) continue;
    rows.push({ from: other.name, to: buffer, emptyS: there.emptyS, loadedS: there.loadedS });
    rows.push({ from: buffer, to: other.name, emptyS: back.emptyS, loadedS: back.loadedS });
    shortestS = Math.min(shortestS, there.emptyS, back.emptyS);
  }
  const beside = Number.isFinite(shortestS) ? shortestS : 0;
  rows.push(
    { from: buffer, to: name, emptyS: beside, loadedS: beside },
    { from: name, to: buffer, emptyS: beside, loadedS: beside },
  );
  return rows;
}

function freeName(cell: Cell, wanted: string): string {
  let name = wanted;
  while (cell.stations.some((s) => s.name === name)) name += "'";
  return name;
}
