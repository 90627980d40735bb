/**
 * Ways to run a cell that need no search of part sets: every rule on calls, and a robot that looks ahead, each played
 * without chance until repeating sequences can be cut from the run; and such sequences made better by small changes.
 */

import { CALL_RULES } from '../../model/call-rules.js';
import { type ImproveLimits, improveSequence } from '../play/improve-sequence.js';
import { LookingAhead } from '../play/look-ahead.js';
import { ruleChooser } from '../play/play-rules.js';
import { bestStretches, END, type PlayedRun, playRun, type Stretch } from '../play/play-run.js';
import type { PlaySpace } from '../play/play-space.js';
import { canTime } from '../play/sequence-rate.js';
import type { CellPlays } from './cell-plays.js';
import { ratePerS, type SetBest } from './search-set.js';

export interface PlayedLimits {
  /** Most visits to stations in a repeating sequence. */
  readonly maxVisits: number;
  readonly partsPerPeriod: number | null;
  readonly untilMs: number;
}

/** An order with the sequence of events that it came from. */
export interface PlayedSet extends SetBest {
  readonly events: readonly number[];
}

/** Acts of a rule's run for each place of the cell, and at most: enough for the run to settle, or nearly. */
const RULE_ACTS_A_PLACE = 100;
const MOST_RULE_ACTS = 3000;
/** The longest stretches that are kept have up to twice as many events as those before them; so many of each kind at most. */
const EACH_LENGTH = 3;
/** Those that yield less than the best by this share, as far as the run tells, are not looked at. */
const WORTH_A_LOOK = 0.04;
/** The same of stretches that were timed, within the run. */
const NEARLY_AS_GOOD = 0.005;
const SAME_RATE = 1e-9;

/** Visits of a sequence that one rule gives at once. */
const FIRST_VISITS = 40;
/** Acts of its run for each place. */
const FIRST_ACTS_A_PLACE = 20;

/** What the first rule on calls makes, in a few milliseconds; null where its run holds no sequence that is this short. */
export function setByOneRule(plays: CellPlays): PlayedSet | null {
  const { space } = plays;
  const acts = actsFor(space, FIRST_ACTS_A_PLACE, MOST_RULE_ACTS);
  const run = playRun(space, ruleChooser(space, CALL_RULES[0], space.plan.hands === 1), acts);
  const limits = { maxVisits: FIRST_VISITS, partsPerPeriod: null, untilMs: Number.POSITIVE_INFINITY };
  for (const { events } of bestStretches(run, eventsFor(space, FIRST_VISITS), EACH_LENGTH)) {
    const [set] = setOf(plays, limits, events);
    if (set !== undefined) return set;
  }
  return null;
}

/** Every rule on calls, with and without filling an emptied station again at once; one of them however late it is. */
export function setsByRule(plays: CellPlays, limits: PlayedLimits): PlayedSet[] {
  const { space } = plays;
  const acts = actsFor(space, RULE_ACTS_A_PLACE, MOST_RULE_ACTS);
  const sets: PlayedSet[] = [];
  for (const rule of CALL_RULES)
    for (const refills of space.plan.hands === 1 ? [true, false] : [false]) {
      if (sets.length > 0 && Date.now() > limits.untilMs) return sets;
      const run = plays.run(`${rule} ${refills}`, () =>
        playRun(space, ruleChooser(space, rule, refills), acts),
      );
      sets.push(...setsOf(plays, limits, run));
    }
  return sets;
}

/** Sequences that a run of these acts, from the empty cell, holds. */
export function setsByActs(plays: CellPlays, limits: PlayedLimits, acts: readonly number[]): PlayedSet[] {
  const run = plays.run('acts', () => {
    let next = 0;
    return playRun(plays.space, () => acts[next++] ?? END, Math.min(MOST_RULE_ACTS, acts.length));
  });
  return setsOf(plays, limits, run);
}

/** How hard the robot looks ahead. */
export interface LookEffort {
  readonly breadth: number;
  readonly depth: number;
  /** How far ahead, in mean times of a part at its stations. */
  readonly horizon: number;
  /** Acts done for each place of the cell. */
  readonly actsAPlace: number;
}

export function setsByLookingAhead(plays: CellPlays, limits: PlayedLimits, effort: LookEffort): PlayedSet[] {
  const { space } = plays;
  const { breadth, depth, horizon, actsAPlace } = effort;
  const run = plays.run(`ahead ${[breadth, depth, horizon, actsAPlace]}`, () =>
    playAhead(space, effort, limits.untilMs),
  );
  return setsOf(plays, limits, run);
}

function playAhead(space: PlaySpace, effort: LookEffort, untilMs: number): PlayedRun {
  const processes = space.plan.nodes.flatMap((n) =>
    n.kind === 'inside' && n.processS > 0 ? [n.processS] : [],
  );
  const work = space.plan.events.reduce((sum, e) => sum + e.robotS, 0) / space.carries.length;
  const meanS = processes.reduce((sum, s) => sum + s, 0) / Math.max(1, processes.length);
  const look = new LookingAhead(space, { ...effort, horizonS: effort.horizon * Math.max(meanS, 4 * work) });
  return playRun(
    space,
    (state, barred) => (Date.now() > untilMs ? END : look.choose(state, barred)),
    actsFor(space, effort.actsAPlace, Number.POSITIVE_INFINITY),
  );
}

export type ImproveEffort = Pick<ImproveLimits, 'acts' | 'warm' | 'cold'>;

/** Better sequences near the one given. */
export function setsByImproving(
  plays: CellPlays,
  limits: PlayedLimits,
  start: PlayedSet,
  work: ImproveEffort & Pick<ImproveLimits, 'enoughPerS' | 'run'>,
): PlayedSet[] {
  const { space } = plays;
  if (!canTime(space) || Date.now() > limits.untilMs) return [];
  const trips = space.cell.routes.flatMap((_, r) => tripsOf(space, r));
  const mostEvents = Math.max(start.events.length, eventsFor(space, limits.maxVisits));
  const better = improveSequence(space, start.events, trips, { ...work, mostEvents });
  return better.flatMap((events) => setOf(plays, limits, events));
}

/** One way through the cell for each first station of a route: its carries, first to last. */
function tripsOf(space: PlaySpace, route: number): number[][][] {
  const { carries, plan, outOf } = space;
  const trips: number[][][] = [];
  const walk = (carry: number, before: number[][]): void => {
    if (trips.length >= 64) return;
    const trip = [...before, [...carries[carry]!.events]];
    const to = carries[carry]!.to;
    if (plan.nodes[to]!.kind === 'sink') trips.push(trip);
    else for (const next of outOf[to]!) walk(next, trip);
  };
  for (const [c, carry] of carries.entries())
    if (carry.route === route && plan.nodes[carry.from]!.kind === 'source') walk(c, []);
  return trips;
}

function actsFor(space: PlaySpace, aPlace: number, most: number): number {
  const inside = space.plan.nodes.filter((node) => node.kind === 'inside');
  // A batch has to be gathered and emptied before anything repeats.
  const places = Math.max(2, inside.length) * Math.max(1, ...inside.map((node) => node.batch));
  return Math.min(most, aPlace * places * (space.plan.hands === 1 ? 1 : 2));
}

/** A visit is a place and a pick. */
function eventsFor(space: PlaySpace, visits: number): number {
  return Math.ceil(4 * visits * Math.max(1, space.plan.events.length / (2 * space.carries.length)));
}

function setsOf(plays: CellPlays, limits: PlayedLimits, run: PlayedRun): PlayedSet[] {
  const most = eventsFor(plays.space, limits.maxVisits);
  const stretches = bestStretches(run, most, Number.POSITIVE_INFINITY);
  return likely(plays, stretches).flatMap(({ events }) => setOf(plays, limits, events));
}

/** The best of each length class, so that a longer limit adds to what a shorter one finds. */
function byLength(stretches: readonly Stretch[]): Stretch[] {
  const taken = new Map<number, number>();
  const least = stretches.reduce((most, s) => Math.max(most, s.value / s.mostS), 0) * (1 - WORTH_A_LOOK);
  return stretches.filter(({ events, value, mostS }) => {
    if (value / mostS < least) return false;
    const count = taken.get(lengthClass(events)) ?? 0;
    taken.set(lengthClass(events), count + 1);
    return count < EACH_LENGTH;
  });
}

function lengthClass({ length }: readonly number[]): number {
  return 32 - Math.clz32(length * length - 1);
}

/**
 * Where sequences can be timed by themselves: the best of each length class of those that yield nearly the most of the
 * run, and none that repeats a shorter one.
 */
function likely(plays: CellPlays, stretches: readonly Stretch[]): readonly Stretch[] {
  const timed = byLength(stretches).flatMap((stretch) => {
    const perS = plays.perS(stretch.events);
    return perS === null ? [] : [{ stretch, perS }];
  });
  if (timed.length === 0) return byLength(stretches);
  const least = timed.reduce((most, { perS }) => Math.max(most, perS), 0) * (1 - NEARLY_AS_GOOD);
  const kept = new Map<number, (typeof timed)[number]>();
  for (const one of timed.sort((a, b) => a.stretch.events.length - b.stretch.events.length)) {
    if (one.perS < least) continue;
    const { events } = one.stretch;
    const isAgain = [...kept.values()].some(
      ({ stretch, perS }) =>
        events.length % stretch.events.length === 0 && one.perS <= perS * (1 + SAME_RATE),
    );
    const before = kept.get(lengthClass(events));
    if (!isAgain && (before === undefined || one.perS > before.perS * (1 + SAME_RATE)))
      kept.set(lengthClass(events), one);
  }
  return [...kept.values()].map(({ stretch }) => stretch);
}

function setOf(plays: CellPlays, limits: PlayedLimits, events: readonly number[]): PlayedSet[] {
  const known = plays.setOf(events);
  if (known === null || known.set.visits > limits.maxVisits) return [];
  const parts = Object.values(known.set.plan.partsPerPeriod).reduce((sum, n) => sum + n, 0);
  if (limits.partsPerPeriod !== null && parts !== limits.partsPerPeriod) return [];
  return [{ ...known, events }];
}

/** The best first. */
export function byRate(sets: readonly PlayedSet[]): PlayedSet[] {
  return [...sets].sort((a, b) => ratePerS(b) - ratePerS(a) || a.set.visits - b.set.visits);
}
