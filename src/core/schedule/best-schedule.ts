/**
 * The best repeating schedule of a cell: chooses what one period makes, searches its order, and says what sets the
 * pace, what the bound is and what was assumed.
 */
import type { Cell } from '../model/cell.js';
import { checkSchedule } from './check-schedule.js';
import { evenSet, type LikelySet, type PartSet, partMultiple, partSets } from './choose-counts.js';
import {
  bottleneckOf,
  handsSwapEachRound,
  orderEvents,
  robotShare,
  stationShares,
  timedEvents,
} from './describe.js';
import { explainInfeasible } from './explain-infeasible.js';
import { improvementsOf } from './improvements.js';
import { knownSet } from './known-orders.js';
import { withMeanGauges } from './mean-gauges.js';
import { type Way, waysOf } from './paths.js';
import { buildPlan, type Plan } from './plan.js';
import { type RateBoundFound, rateBound } from './rate-bound.js';
import type { ScheduleFound, ScheduleOutcome } from './result.js';
import { sameOrder } from './same-order.js';
import {
  type SearchBudget,
  type SearchRun,
  type SetBest,
  searchLikely,
  searchSets,
  surelyBest,
} from './search-sets.js';
import { exchangeUnits } from './units.js';
import { type Goal, goalOf } from './weights.js';
import { whatIf } from './what-if.js';

export interface ScheduleOptions {
  /** Parts in one period; not given = chosen. */
  readonly partsPerPeriod?: number;
  /** Most visits to machines, benches and buffers in one period. */
  readonly maxVisits?: number;
  /** The search ends after this many seconds with the best so far. */
  readonly timeLimitS?: number;
  /** The search ends after this many nodes with the best so far. */
  readonly nodeLimit?: number;
  /** Schedules of the like cells: their orders are tried first, and only better ones are searched for. */
  readonly known?: readonly ScheduleFound[];
  /** Work out what one second off each element brings; default true. */
  readonly improvements?: boolean;
  /** Schedule changed cells too: a second hand, a place beside the bottleneck; default false. */
  readonly whatIf?: boolean;
}

/** Nodes searched over all part sets, unless asked otherwise: a second or two. */
export const DEFAULT_NODES = 400_000;
const DEFAULT_TIME_S = 60;
/** Nodes for each changed cell. */
const WHAT_IF_NODES = 20_000;
/** Ways from which on the part sets are too many to list: then every way once is looked at first. */
const MANY_WAYS = 5;
/** Moves in a period up to which the whole node budget is used. */
const LONG_ROUND_MOVES = 60;
/** Moves in a period beyond which several parts per period of one route are not tried unasked. */
const SEVERAL_PARTS_MOVES = 14;

/**
 * @param cell a cell as the tables' checks let it pass
 * @returns the schedule, or why none is possible, or that the limit came first
 */
export function bestSchedule(cell: Cell, options: ScheduleOptions = {}): ScheduleOutcome {
  const startedMs = Date.now();
  const { cell: planned, notes } = withMeanGauges(cell);
  const ways = waysOf(planned);
  if (ways === null)
    return undecided(
      'The alternatives combine to more than 4,000 ways through the cell; name fewer stations per step.',
      startedMs,
    );
  const goal = goalOf(planned);
  const bound = rateBound(planned);
  const valueBound = bound.found ? bound.valuePerS : null;
  const search = searchCell({ cell: planned, ways, goal, valueBound }, options, startedMs);
  if (search === null) return undecided(noSetText(options), startedMs);
  const { run, first } = search;
  const seconds = (Date.now() - startedMs) / 1000;
  const searched = { nodes: run.nodes, seconds, complete: run.complete };
  if (run.best === null) {
    if (run.complete) return { ...explainInfeasible(first.plan), searched };
    return {
      status: 'undecided',
      reason: 'The limit came before any order was found.',
      boundS: first.boundS,
      searched,
    };
  }
  const notices = [...notes, goal.note, ...assumptionsOf(planned, run.best.set.plan)];
  const found = describe(cell, planned, run.best, bound.found ? bound : null, searched, notices, options);
  const faults = checkSchedule(planned, found);
  if (faults.length > 0) throw new Error(`The schedule found breaks a rule of the cell: ${faults[0]}`);
  if (options.whatIf !== true) return found;
  const again = { ...options, whatIf: false, improvements: false, nodeLimit: WHAT_IF_NODES };
  return {
    ...found,
    whatIf: whatIf(cell, run.best.set.plan, found, (changed) => bestSchedule(changed, again)),
  };
}

/**
 * What an order found before yields on a cell that has changed since; nothing is searched, and its bound is that of its
 * own part set. It is not played through the rules of the cell as a schedule that is shown: it serves as a hint, some
 * hundreds of times, and what is shown is searched for.
 *
 * @returns null where the cell cannot run that order
 */
export function scheduleAgain(cell: Cell, found: ScheduleFound): ScheduleFound | null {
  const { cell: planned } = withMeanGauges(cell);
  const same = sameOrder(planned, found);
  const best = same && knownSet(planned, same, goalOf(planned));
  if (best === null) return null;
  return describe(cell, planned, best, null, NOT_SEARCHED, [], { improvements: false });
}

const NOT_SEARCHED = { nodes: 0, seconds: 0, complete: false };

interface Searched {
  readonly run: SearchRun;
  /** The most promising set, to explain why there is no order. */
  readonly first: PartSet;
}

interface PlannedCell {
  readonly cell: Cell;
  readonly ways: readonly Way[];
  readonly goal: Goal;
  /** Value per second that no policy exceeds, where known. */
  readonly valueBound: number | null;
}

/** @returns null where no part set keeps the limits */
function searchCell(planned: PlannedCell, options: ScheduleOptions, startedMs: number): Searched | null {
  const { cell, ways, goal, valueBound } = planned;
  const untilMs = startedMs + (options.timeLimitS ?? DEFAULT_TIME_S) * 1000;
  const limits = countLimits(cell, options);
  const even = ways.length < MANY_WAYS || valueBound === null ? null : evenSet(cell, ways, goal, limits);
  if (even !== null) {
    const run = searchLikely(valueBound!, even, budgetOf(even, options, untilMs));
    if (run !== null) return { run, first: even };
  }
  const known = (options.known ?? []).flatMap((found) => {
    const same = sameOrder(cell, found);
    const set = same && knownSet(cell, same, goal);
    return set === null ? [] : [set];
  });
  const sure = surelyBest(known, valueBound);
  if (sure !== null) return { run: sure, first: sure.best!.set };
  const sets = partSets(cell, ways, goal, limits);
  const first = sets[0]?.set();
  if (first === undefined) return null;
  const budget = budgetOf(first, options, untilMs);
  return { run: searchSets(valueBound, sets, areExchanges(cell, ways, sets), budget, known), first };
}

/** Whether every set is one of independent machines; where all ways together are, their subsets are too. */
function areExchanges(cell: Cell, ways: readonly Way[], sets: readonly LikelySet[]): boolean {
  const all = buildPlan(
    cell,
    ways.map((way) => ({ route: way.route, stops: way.stops, count: 1 })),
  );
  return exchangeUnits(all) !== null || sets.every(({ set }) => exchangeUnits(set().plan) !== null);
}

function budgetOf(first: PartSet, options: ScheduleOptions, untilMs: number): SearchBudget {
  return { nodes: options.nodeLimit ?? nodesFor(first.plan), untilMs };
}

/** Each node takes longer in a long round; the budget falls so that the whole search stays a matter of seconds. */
function nodesFor(plan: Plan): number {
  const moves = plan.carries.reduce((sum, carry) => sum + carry.count, 0);
  return Math.round(DEFAULT_NODES * Math.min(1, LONG_ROUND_MOVES / moves));
}

function countLimits(
  cell: Cell,
  options: ScheduleOptions,
): { maxVisits: number; partsPerPeriod: number | null } {
  const stations = cell.stations.filter(
    (s) => s.kind === 'machine' || s.kind === 'bench' || s.kind === 'buffer',
  ).length;
  const alternatives =
    cell.routes.length > 1 || cell.routes.some((r) => r.steps.some((s) => s.stations.length > 1));
  const onePeriod = cell.routes.reduce(
    (sum, r) => sum + partMultiple(r) * Math.max(1, r.steps.length - 2),
    0,
  );
  const several =
    onePeriod * (onePeriod * 3 <= SEVERAL_PARTS_MOVES ? 3 : onePeriod * 2 <= SEVERAL_PARTS_MOVES ? 2 : 1);
  const asked = options.partsPerPeriod ?? 0;
  const mostSteps = Math.max(...cell.routes.map((r) => Math.max(1, r.steps.length - 2)));
  const free = alternatives ? Math.max(16, Math.min(4 * stations, 32), onePeriod) : several;
  return {
    maxVisits: options.maxVisits ?? Math.max(free, asked * mostSteps),
    partsPerPeriod: options.partsPerPeriod ?? null,
  };
}

function describe(
  cell: Cell,
  planned: Cell,
  best: SetBest,
  bound: RateBoundFound | null,
  searched: ScheduleFound['searched'],
  assumptions: readonly string[],
  options: ScheduleOptions,
): ScheduleFound {
  const { plan } = best.set;
  const { order } = best;
  const events = orderEvents(plan, order);
  const timed = timedEvents(order, events);
  const rates = Object.fromEntries(
    Object.entries(plan.partsPerPeriod).map(([part, n]) => [part, (3600 * n) / order.periodS]),
  );
  const total = Object.values(rates).reduce((sum, rate) => sum + rate, 0);
  return {
    status: best.proven ? 'proven' : 'best found',
    periodS: order.periodS,
    partsPerPeriod: plan.partsPerPeriod,
    partsPerH: { ...rates, total },
    proven: best.proven,
    boundS: best.boundS,
    gapPct: 100 * Math.max(0, order.periodS / best.boundS - 1),
    rateBoundPerH: bound ?? unknownBound(plan, best.boundS),
    robot: robotShare(plan, order),
    stations: stationShares(plan, order),
    events: timed.events,
    holds: timed.holds,
    order: events,
    handsSwapEachRound: handsSwapEachRound(plan, order),
    bottleneck: bottleneckOf(plan, order),
    improvements: options.improvements === false ? [] : improvementsOf(planned, plan, order),
    whatIf: [],
    searched,
    assumptions,
    warnings: warningsOf(cell, best, bound),
  };
}

/** Where the linear program gave no sure answer: the bound of this part set alone, and nothing named as binding. */
function unknownBound(plan: Plan, boundS: number): ScheduleFound['rateBoundPerH'] {
  const perPart = Object.fromEntries(
    Object.entries(plan.partsPerPeriod).map(([part, n]) => [part, (3600 * n) / boundS]),
  );
  return { total: Object.values(perPart).reduce((sum, rate) => sum + rate, 0), perPart, binding: [] };
}

function warningsOf(cell: Cell, best: SetBest, bound: RateBoundFound | null): string[] {
  const warnings: string[] = [];
  for (const route of cell.routes) {
    if (best.set.plan.partsPerPeriod[route.part] === 0)
      warnings.push(
        `${route.part} is not made at all in the best sequence; give a ratio in parts.csv if it must be.`,
      );
  }
  if (bound === null)
    warnings.push(
      'The rate bound over all policies could not be worked out; the bound shown is that of this part set.',
    );
  if (!best.proven)
    warnings.push(
      best.bestExchange
        ? 'The round is proven best among those that empty and fill each machine in one go; of all other orders a better one may exist, within the gap shown.'
        : 'The search stopped at its limit: a better order may exist, within the gap shown.',
    );
  return warnings;
}

function assumptionsOf(cell: Cell, plan: Plan): string[] {
  const list = ['All times are constant; stops and scatter are not in these figures.'];
  if (plan.hands === 2)
    list.push(
      `Every pair of actions at one station in a row costs the index time of ${cell.robot.indexS} s.`,
    );
  if (plan.nodes.some((node) => node.maxWaitS !== null)) list.push('The robot may wait with a part in hand.');
  const visits = Object.values(plan.partsPerPeriod).reduce((sum, n) => sum + n, 0);
  if (visits > 1)
    list.push(
      `One round makes ${visits} parts; it is the best of the part sets tried, up to a stated number of visits.`,
    );
  return list;
}

function noSetText(options: ScheduleOptions): string {
  if (options.partsPerPeriod !== undefined || options.maxVisits !== undefined)
    return 'No set of parts keeps the asked parts per period and visits together with batches, occasional steps and mix.';
  return 'No set of parts of a workable size keeps the batches, the occasional steps and the mix together.';
}

function undecided(reason: string, startedMs: number): ScheduleOutcome {
  return {
    status: 'undecided',
    reason,
    boundS: 0,
    searched: { nodes: 0, seconds: (Date.now() - startedMs) / 1000 },
  };
}
