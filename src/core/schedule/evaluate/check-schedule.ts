/**
 * An independent check of a schedule: from the timed events and the cell alone (nothing of the search is used), it
 * plays several periods and looks for a breach of any rule. Every schedule passes through it before it is shown.
 *
 * Rules: the robot needs its travel between actions and has only so many hands; a part follows its route; a station
 * never holds more than its capacity; processes finish before their pick; longest waits are kept; batches start full.
 *
 * What lies in a station at the start is not part of a schedule: it passes where some content keeps all rules for good.
 *
 *      period   0              1              2
 *      inside   1   place  2   |  place   2   |  place ...       no more than the capacity
 *                     pick 1   |    pick  1   |    pick ...      each pick takes the part placed `inside` picks before
 */
import type { Cell, Route, Station, Step } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';
import type { ScheduleEvent, ScheduleHold } from '../result.js';

export interface CheckedSchedule {
  readonly periodS: number;
  readonly partsPerPeriod: Readonly<Record<string, number>>;
  readonly events: readonly ScheduleEvent[];
  readonly holds: readonly ScheduleHold[];
}

const TOLERANCE_S = 1e-5;
const PERIODS = 3;

type Action = {
  startS: number;
  endS: number;
  action: 'pick' | 'place' | 'hold';
  station: string;
  part: string;
  step: number;
  hand: 1 | 2;
};

/** @returns every breach in words; an empty list means that the schedule can be run for ever. */
export function checkSchedule(cell: Cell, schedule: CheckedSchedule): string[] {
  const actions: Action[] = [
    ...schedule.events,
    ...schedule.holds.map((hold) => ({ ...hold, action: 'hold' as const })),
  ].sort((a, b) => a.startS - b.startS || a.endS - b.endS);
  if (actions.length === 0) return ['the schedule has no events'];
  const strange = checkActions(cell, actions);
  if (strange.length > 0) return strange;
  return [
    ...checkRobot(cell, actions, schedule.periodS),
    ...checkCounts(cell, actions, schedule.partsPerPeriod),
    ...cell.stations.flatMap((station) => checkStation(cell, station, actions, schedule.periodS)),
  ];
}

function checkRobot(cell: Cell, actions: readonly Action[], periodS: number): string[] {
  const carried = carriedAfter(cell, actions);
  if (typeof carried === 'string') return [carried];
  const faults: string[] = [];
  const travel = travelLookup(cell);
  for (const [i, action] of actions.entries()) {
    const next = actions[(i + 1) % actions.length]!;
    const nextStartS = next.startS + (i + 1 === actions.length ? periodS : 0);
    const time = travel(action.station, next.station);
    const sameS = cell.robot.hands === 2 ? cell.robot.indexS : 0;
    const wayS = action.station === next.station ? sameS : carried[i]! > 0 ? time?.loadedS : time?.emptyS;
    if (wayS === undefined) faults.push(`no travel time from ${action.station} to ${next.station}`);
    else if (nextStartS < action.endS + wayS - TOLERANCE_S)
      faults.push(`the robot cannot be at ${next.station} at ${nextStartS} s after ${action.station}`);
  }
  return faults;
}

/** Every action is one of its step: at a station that the step names, and as long as the table says. */
function checkActions(cell: Cell, actions: readonly Action[]): string[] {
  return actions.flatMap((action) => {
    const steps = cell.routes.find((route) => route.part === action.part)?.steps ?? [];
    const index = steps.findIndex((step) => step.step === action.step);
    const step = steps[index];
    const what = `${action.action} of ${action.part} at ${action.station}`;
    if (step === undefined || !step.stations.includes(action.station))
      return [`${what}: its step is not there`];
    if (action.hand > cell.robot.hands) return [`${what}: the robot has no gripper ${action.hand}`];
    const robotS =
      action.action === 'pick'
        ? step.unloadS
        : action.action === 'place'
          ? step.loadS
          : step.loadS + step.cycleS + step.unloadS;
    if (action.endS - action.startS < robotS - TOLERANCE_S) return [`${what}: it needs ${robotS} s`];
    const impossible = action.action === 'pick' ? index === steps.length - 1 : index === 0;
    return impossible ? [`${what}: the route does not ask for it`] : [];
  });
}

/** What a hand holds: a part that was last at this step of its route; null = nothing; undefined = not known yet. */
type Held = { readonly part: string; readonly index: number } | null | undefined;

/**
 * Parts in hand after each action, found by playing the round twice: once from hands of unknown content, then from what
 * that left in them (in the same hands, or in swapped ones). A text where no such play is possible.
 */
function carriedAfter(cell: Cell, actions: readonly Action[]): number[] | string {
  const hands = cell.robot.hands;
  const first = playRound(cell, actions, new Array<Held>(hands).fill(undefined));
  if (typeof first === 'string') return first;
  const left = first.hands.map((held) => held ?? null);
  const swapped = actions.map((a) => ({ ...a, hand: (3 - a.hand) as 1 | 2 }));
  let fault = '';
  for (const round of hands === 2 ? [actions, swapped] : [actions]) {
    const second = playRound(cell, round, left);
    if (typeof second !== 'string') return second.inHand;
    fault = second;
  }
  return fault;
}

function playRound(
  cell: Cell,
  actions: readonly Action[],
  start: readonly Held[],
): { hands: Held[]; inHand: number[] } | string {
  const hands = [...start];
  const inHand: number[] = [];
  for (const action of actions) {
    const slot = action.hand - 1;
    const steps = cell.routes.find((route) => route.part === action.part)!.steps;
    const index = steps.findIndex((step) => step.step === action.step);
    const held = hands[slot];
    const what = `${action.action} of ${action.part} at ${action.station} by gripper ${action.hand}`;
    if (action.action === 'pick') {
      if (held) return `${what}: that gripper holds a part`;
      hands[slot] = { part: action.part, index };
    } else {
      if (held === null) return `${what}: that gripper is empty`;
      if (held !== undefined && (held.part !== action.part || !mayFollow(steps, held.index, index)))
        return `${what}: that gripper holds something else`;
      hands[slot] = action.action === 'hold' ? { part: action.part, index } : null;
    }
    inHand.push(hands.filter((content) => content).length);
  }
  return { hands, inHand };
}

/** A later step, with nothing but steps that not every part makes in between. */
function mayFollow(steps: readonly Step[], from: number, to: number): boolean {
  return to > from && steps.slice(from + 1, to).every((step) => step.everyParts > 1);
}

function checkCounts(
  cell: Cell,
  actions: readonly Action[],
  parts: Readonly<Record<string, number>>,
): string[] {
  const faults: string[] = [];
  for (const route of cell.routes) {
    const asked = parts[route.part] ?? 0;
    for (const [index, step] of route.steps.entries()) {
      const count = (action: Action['action']): number =>
        actions.filter((a) => a.part === route.part && a.step === step.step && a.action === action).length;
      const held = cell.stations.some((s) => step.stations.includes(s.name) && s.kind === 'held');
      const due = asked / step.everyParts;
      const places = index === 0 ? due : count(held ? 'hold' : 'place');
      const picks = index === route.steps.length - 1 || held ? due : count('pick');
      if (Math.abs(places - due) > 1e-9 || Math.abs(picks - due) > 1e-9)
        faults.push(
          `${route.part} step ${step.step}: ${places} in and ${picks} out in a period, ${due} needed`,
        );
    }
  }
  return faults;
}

/** An infeed that needs time to present the next part, an outfeed that needs time to clear: one part after another, also those after which it needs none. */
function checkFeeder(cell: Cell, station: Station, actions: readonly Action[], periodS: number): string[] {
  const served = actions
    .filter((a) => a.station === station.name)
    .map((action) => {
      const route = cell.routes.find((r) => r.part === action.part)!;
      const { cycleS } = route.steps.find((s) => s.step === action.step)!;
      return { ...action, processS: station.closeS + cycleS + station.readyS };
    })
    .sort((a, b) => a.startS - b.startS);
  return served.flatMap(({ endS, processS }, i) => {
    const next = served[(i + 1) % served.length]!;
    const nextStartS = next.startS + (i + 1 === served.length ? periodS : 0);
    const soonest = endS + processS;
    return nextStartS < soonest - TOLERANCE_S
      ? [`${station.name}: it serves again at ${soonest} s only`]
      : [];
  });
}

interface Visit {
  readonly route: Route;
  readonly step: Step;
  readonly placeEndS: readonly number[];
  readonly placeStartS: readonly number[];
  readonly pickStartS: readonly number[];
  readonly pickEndS: readonly number[];
}

function checkStation(cell: Cell, station: Station, actions: readonly Action[], periodS: number): string[] {
  if (station.kind === 'held') return [];
  if (station.kind === 'infeed' || station.kind === 'outfeed')
    return checkFeeder(cell, station, actions, periodS);
  const visits = visitsAt(cell, station, actions, periodS);
  if (visits.length === 0) return [];
  // With more inside a part would stay longer than its process and its longest wait, wherever in the period it is picked.
  const most = visits.map(({ step, placeEndS }) => {
    const stayS = station.closeS + step.cycleS + station.readyS + (step.maxWaitS ?? 0);
    const periods = Math.ceil(stayS / periodS) + 2;
    const enough = (placeEndS.length / PERIODS) * periods + step.partsPerCycle - 1;
    return Math.min(station.capacityParts ?? Number.POSITIVE_INFINITY, enough);
  });
  for (const inside of combinations(most)) {
    if (!fits(station, visits, inside)) continue;
    for (const loaded of combinations(visits.map((v, i) => Math.min(v.step.partsPerCycle - 1, inside[i]!))))
      if (visits.every((visit, i) => processFits(station, visit, inside[i]!, loaded[i]!, periodS))) return [];
  }
  return [`${station.name}: no start content keeps its capacity, process times and maximum waits`];
}

/** Places and picks of each step here, over several periods. */
function visitsAt(cell: Cell, station: Station, actions: readonly Action[], periodS: number): Visit[] {
  return cell.routes.flatMap((route) =>
    route.steps.flatMap((step) => {
      const mine = actions.filter(
        (a) => a.station === station.name && a.part === route.part && a.step === step.step,
      );
      const over = (action: Action['action'], time: (a: Action) => number): number[] =>
        Array.from({ length: PERIODS }, (_, p) =>
          mine.filter((a) => a.action === action).map((a) => time(a) + p * periodS),
        ).flat();
      if (mine.length === 0) return [];
      return [
        {
          route,
          step,
          placeStartS: over('place', (a) => a.startS),
          placeEndS: over('place', (a) => a.endS),
          pickStartS: over('pick', (a) => a.startS),
          pickEndS: over('pick', (a) => a.endS),
        },
      ];
    }),
  );
}

function* combinations(most: readonly number[]): Generator<number[]> {
  if (most.length === 0) {
    yield [];
    return;
  }
  for (let value = 0; value <= most[0]!; value++)
    for (const rest of combinations(most.slice(1))) yield [value, ...rest];
}

/** Capacity: parts inside at every moment, from the start of each place to the end of each pick. */
function fits(station: Station, visits: readonly Visit[], inside: readonly number[]): boolean {
  const capacity = station.capacityParts ?? Number.POSITIVE_INFINITY;
  const changes = visits
    .flatMap((v) => [
      ...v.placeStartS.map((at) => ({ at, by: 1 })),
      ...v.pickEndS.map((at) => ({ at, by: -1 })),
    ])
    .sort((a, b) => a.at - b.at || a.by - b.by);
  let count = inside.reduce((sum, c) => sum + c, 0);
  if (count > capacity) return false;
  for (let i = 0; i < changes.length; i++) {
    count += changes[i]!.by;
    const next = changes[i + 1];
    // Changes within rounding of each other count as one moment.
    if (next !== undefined && next.at - changes[i]!.at < TOLERANCE_S) continue;
    if (count > capacity || count < 0) return false;
  }
  return true;
}

/** First in, first out: part i of the list leaves by pick i + inside, and its batch must have run. */
function processFits(
  station: Station,
  visit: Visit,
  inside: number,
  loaded: number,
  periodS: number,
): boolean {
  const processS = station.closeS + visit.step.cycleS + station.readyS;
  const batch = visit.step.partsPerCycle;
  const perPeriod = visit.placeEndS.length / PERIODS;
  const placeEnd = (part: number): number => {
    const period = Math.floor(part / perPeriod);
    return visit.placeEndS[part - period * perPeriod]! + period * periodS;
  };
  for (let pick = 0; pick < visit.pickStartS.length; pick++) {
    const part = pick - inside;
    // Parts are numbered as they were placed, so the batch is full with its last one.
    const last = (Math.floor((part + loaded) / batch) + 1) * batch - loaded - 1;
    const waitS = visit.pickStartS[pick]! - (placeEnd(last) + processS);
    if (waitS < -TOLERANCE_S) return false;
    if (visit.step.maxWaitS !== null && waitS > visit.step.maxWaitS + TOLERANCE_S) return false;
  }
  return true;
}
