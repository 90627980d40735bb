/**
 * Service, run and walk of a machine, as the closed forms want them, taken from a cell in which every part visits one
 * machine.
 *
 * One hand: while the robot empties the machine, brings the part to the outfeed, fetches the next from the infeed and
 * fills the machine, the machine stands: l = unload + way out + place + way to the infeed + pick + way back + load;
 * w is the way to the next machine. Two hands: the machine stands for the swap only, l = unload + index + load, and w
 * is the round by outfeed and infeed. m = close + cycle + ready.
 */
import type { SynchronousTimes } from '../interference/synchronous-servicing.js';
import type { Cell, Route, Station, Step } from '../model/cell.js';
import { type TravelLookup, travelLookup } from '../model/travel.js';

/** Mean times, or the reason why a cell has none. */
export type MachineTimes =
  | { readonly times: SynchronousTimes; readonly alike: boolean }
  | { readonly times: null; readonly reason: string };

/** @returns the mean over all machines and the parts that each can make */
export function machineTimes(cell: Cell): MachineTimes {
  const travel = travelLookup(cell);
  const turns: SynchronousTimes[] = [];
  const walk = meanWalk(cell, travel);
  for (const route of cell.routes) {
    const reason = whyNot(cell, route);
    if (reason !== null) return { times: null, reason };
    for (const machine of route.steps[1]!.stations) {
      const turn = turnOf(cell, route, machine, travel, walk);
      if (turn === null) return { times: null, reason: 'a travel time is missing' };
      turns.push(turn);
    }
  }
  if (turns.length === 0) return { times: null, reason: 'no part can be made' };
  const mean = (of: (t: SynchronousTimes) => number): number =>
    turns.reduce((sum, t) => sum + of(t), 0) / turns.length;
  const times = { serviceS: mean((t) => t.serviceS), runS: mean((t) => t.runS), walkS: mean((t) => t.walkS) };
  const alike = turns.every((t) =>
    (['serviceS', 'runS', 'walkS'] as const).every((k) => Math.abs(t[k] - times[k]) <= 1e-9 * (1 + times[k])),
  );
  if (!(times.serviceS + times.walkS > 0)) return { times: null, reason: 'the robot needs no time at all' };
  if (!(times.runS > 0)) return { times: null, reason: 'the machines have no cycle time' };
  return { times, alike };
}

function whyNot(cell: Cell, route: Route): string | null {
  const machine = route.steps[1];
  const kind = cell.stations.find((s) => s.name === machine?.stations[0])?.kind;
  if (route.steps.length !== 3 || kind !== 'machine')
    return `part ${route.part} does not go to exactly one machine`;
  if (machine!.partsPerCycle > 1) return `part ${route.part} is loaded in batches`;
  return machine!.everyParts > 1 ? `not every part ${route.part} goes to the machine` : null;
}

function turnOf(
  cell: Cell,
  route: Route,
  machine: string,
  travel: TravelLookup,
  walk: number,
): SynchronousTimes | null {
  const [first, step, last] = route.steps as [Step, Step, Step];
  const station = cell.stations.find((s) => s.name === machine) as Station;
  const out = travel(machine, last.stations[0]!);
  const over = travel(last.stations[0]!, first.stations[0]!);
  const back = travel(first.stations[0]!, machine);
  if (!out || !over || !back) return null;
  const fetchS = out.loadedS + last.loadS + over.emptyS + first.unloadS + back.loadedS;
  const handS = step.unloadS + step.loadS;
  const runS = station.closeS + step.cycleS + station.readyS;
  if (cell.robot.hands === 2) return { serviceS: handS + cell.robot.indexS, runS, walkS: fetchS };
  return { serviceS: handS + fetchS, runS, walkS: walk };
}

/** Mean empty way between two different machines; 0 where there is one only. */
function meanWalk(cell: Cell, travel: TravelLookup): number {
  const machines = cell.stations.filter((s) => s.kind === 'machine');
  const ways = machines.flatMap((a) =>
    machines.flatMap((b) => (a === b ? [] : [travel(a.name, b.name)?.emptyS ?? 0])),
  );
  return ways.length === 0 ? 0 : ways.reduce((sum, s) => sum + s, 0) / ways.length;
}
