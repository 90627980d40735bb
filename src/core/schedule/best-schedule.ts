/**
 * The best repeating schedule of a cell: chooses what one period makes, searches its order, and says what sets the
 * pace, what the bound is and what was assumed.
 */
import { attendedOnlyNote } from '../model/attended-only.js';
import type { Cell } from '../model/cell.js';
import {
  type Demand,
  demandGoal,
  demandNote,
  demandOf,
  isServed,
  mostShare,
  shareMade,
} from './bound/demand.js';
import { mostInAnyLayout, type RateBoundFound, rateBound } from './bound/rate-bound.js';
import { checkSchedule } from './evaluate/check-schedule.js';
import { foundOrder } from './evaluate/evaluate-order.js';
import {
  bottleneckOf,
  orderEvents,
  ratesOf,
  robotShare,
  stationShares,
  timedEvents,
} from './explain/describe.js';
import { explainInfeasible } from './explain/explain-infeasible.js';
import { improvementsOf } from './explain/improvements.js';
import { whatIf } from './explain/what-if.js';
import { waysOf } from './plan/paths.js';
import type { Plan } from './plan/plan.js';
import { sameOrder } from './plan/same-order.js';
import { equalNumbers, type Goal, goalOf } from './plan/weights.js';
import type { ScheduleFound, ScheduleOutcome } from './result.js';
import { CellPlays } from './search/cell-plays.js';
import { partMultiple } from './search/choose-counts.js';
import { knownSet } from './search/known-orders.js';
import { withMeanGauges } from './search/mean-gauges.js';
import { setByOneRule } from './search/played-sets.js';
import { type CellLimits, type CellSearch, searchCell } from './search/search-cell.js';
import { ratePerS, reaches, type SetBest } from './search/search-set.js';
import { watchedBound } from './watched/watched-bound.js';

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
  /** Work out what one second off each element brings, and another layout at most; default true. */
  readonly improvements?: boolean;
  /** Schedule changed cells too: a second hand, a place beside the bottleneck; default false. */
  readonly whatIf?: boolean;
}

/** Nodes searched over all part sets, unless asked otherwise: a second or two. */
export const DEFAULT_NODES = 400_000;
/** Nodes for each changed cell. */
const WHAT_IF_NODES = 20_000;
/** Moves in a period beyond which several parts per period of one route are not tried unasked. */
const SEVERAL_PARTS_MOVES = 14;
/** Visits in a period, for each station and at least, where parts come several ways. */
const VISITS_A_STATION = 5;
const LEAST_VISITS = 32;
/** The same for sequences that are cut from a run of the cell, or found among all its states. */
const PLAYED_VISITS = 1000;

/**
 * @param cell a cell as the tables' checks let it pass
 * @param onFound is given the best sequence once it is found, before what a change adds is worked out
 * @returns the schedule, or why none is possible, or that the limit came first
 */
export function bestSchedule(
  cell: Cell,
  options: ScheduleOptions = {},
  onFound?: (found: ScheduleFound) => void,
): ScheduleOutcome {
  const startedMs = Date.now();
  const untilMs =
    options.timeLimitS === undefined ? Number.POSITIVE_INFINITY : startedMs + options.timeLimitS * 1000;
  const { planned, notes, goal, bound, run } = wholeSearch(cell, options, untilMs);
  const shown = (best: SetBest, improvements: boolean): ScheduleFound => {
    const work = workOf(run, startedMs);
    const notices = [...notes, goal.note, ...assumptionsOf(planned, best.set.plan)];
    const limit = bound.found ? bound : null;
    const found = describe(cell, planned, best, limit, run, work, notices, { improvements, untilMs });
    const faults = [...checkSchedule(planned, found), ...faultsOfBound(run)];
    if (faults.length > 0) throw new Error(`The schedule found breaks a rule of the cell: ${faults[0]}`);
    return found;
  };
  const { best } = run;
  if (best === null) return nothingFound(run, options, workOf(run, startedMs), untilMs);
  const isWhole = options.improvements !== false;
  if (isWhole) onFound?.(shown(best, false));
  const found = {
    ...shown(best, isWhole),
    layoutGainPct: isWhole ? layoutGainPct(planned, goal, best, untilMs) : null,
  };
  if (options.whatIf !== true || Date.now() > untilMs) return found;
  const nodeLimit = Math.min(WHAT_IF_NODES, options.nodeLimit ?? DEFAULT_NODES);
  const changes = { whatIf: false, improvements: false, nodeLimit };
  const again = (changed: Cell): ScheduleOutcome =>
    bestSchedule(changed, {
      ...options,
      ...changes,
      known: [found],
      ...(options.timeLimitS === undefined ? {} : { timeLimitS: Math.max(0, (untilMs - Date.now()) / 1000) }),
    });
  return { ...found, whatIf: whatIf(cell, best.set.plan, found, again) };
}

interface WholeSearch extends GoalSearch {
  /** The cell with its gauges at their means. */
  readonly planned: Cell;
  readonly notes: readonly string[];
}

/** By cell, its last search that had no limit of time and no start, with its limits: what a change adds asks for it again. */
const searches = new WeakMap<Cell, { readonly limits: string; readonly search: WholeSearch }>();

function wholeSearch(cell: Cell, options: ScheduleOptions, untilMs: number): WholeSearch {
  const { cell: planned, notes } = withMeanGauges(cell);
  const limits = { ...countLimits(planned, options), nodes: options.nodeLimit ?? DEFAULT_NODES, untilMs };
  const known = options.known ?? [];
  const isLasting = untilMs === Number.POSITIVE_INFINITY && known.length === 0;
  const last = searches.get(cell);
  if (isLasting && last?.limits === JSON.stringify(limits)) return last.search;
  const search = searchForGoal(planned, limits, known);
  const whole = { ...search, run: withWatchedBound(planned, search, limits), planned, notes };
  if (isLasting) searches.set(cell, { limits: JSON.stringify(limits), search: whole });
  return whole;
}

function workOf({ nodes, complete }: CellSearch, startedMs: number): ScheduleFound['searched'] {
  return { nodes: Math.round(nodes), seconds: (Date.now() - startedMs) / 1000, complete };
}

/** A bound below what is made would make a false proof of it. */
function faultsOfBound({ best, mostPerS }: CellSearch): string[] {
  const isOver = mostPerS !== null && ratePerS(best) > mostPerS * (1 + BOUND_ROUNDING);
  return isOver ? [`it makes ${ratePerS(best)} a second, at most ${mostPerS} can be made`] : [];
}

/** Of times in hundredths of a millisecond. */
const BOUND_ROUNDING = 1e-6;

/** States of a few parts watched by themselves, of one group and in all, in a search of the default nodes: within about a second. */
const WATCHED_STATES = 40_000;
const WATCHED_WORK = 2_500_000;
/** A smaller search lists so many times more of them than its share. */
const WATCHED_EFFORT = 4;

/** What any sequence makes at most, cut down by what few parts watched by themselves allow. */
function withWatchedBound(cell: Cell, { goal, bound, run }: GoalSearch, limits: CellLimits): CellSearch {
  const { best, mostPerS } = run;
  if (best === null || mostPerS === null || !bound.found || reaches(ratePerS(best), mostPerS)) return run;
  const effort = Math.min(1, limits.nodes / DEFAULT_NODES);
  const most = watchedBound(cell, goal, {
    states: WATCHED_STATES * Math.min(1, WATCHED_EFFORT * effort),
    work: WATCHED_WORK * effort,
    untilMs: shareOf(limits, BOUND_SHARE).untilMs,
  });
  return most === null ? run : { ...run, mostPerS: Math.min(mostPerS, most) };
}

interface GoalSearch {
  readonly goal: Goal;
  readonly bound: ReturnType<typeof rateBound>;
  readonly run: CellSearch;
}

/**
 * Where one of the parts that compete would get nothing, all are made in equal numbers; where an amount asked for falls
 * short, the amounts are served first.
 */
function searchForGoal(cell: Cell, limits: CellLimits, known: readonly ScheduleFound[]): GoalSearch {
  const goal = goalOf(cell);
  const equal = equalNumbers(cell);
  const demand = demandOf(cell, goal);
  // A time limit is for all searches.
  const first = searchFor(
    cell,
    goal,
    equal === null && demand === null ? limits : shareOf(limits, 0.5),
    known,
  );
  if (demand !== null && first.run.best !== null) return searchForDemand(cell, demand, first, limits, known);
  if (equal === null || !leavesPartsOut(first.run)) return first;
  const even = searchFor(cell, equal, limits, known);
  // Fewer parts a period may be asked for than there are kinds; the part left out is warned of.
  return even.run.best === null ? first : even;
}

/** Times that amounts which fall short are asked for once more. */
const DEMAND_ROUNDS = 3;

function searchForDemand(
  cell: Cell,
  demand: Demand,
  first: GoalSearch,
  limits: CellLimits,
  known: readonly ScheduleFound[],
): GoalSearch {
  const most = mostShare(cell, demand);
  const ratesOfSet = ({ set, order }: SetBest): number[] =>
    cell.routes.map(({ part }) => (3600 * (set.plan.partsPerPeriod[part] ?? 0)) / order.periodS);
  const ratesIn = ({ run }: GoalSearch): number[] => ratesOfSet(run.best!);
  const shareIn = (search: GoalSearch): number => shareMade(demand, ratesIn(search));
  const worthIn = (search: GoalSearch): number =>
    ratesIn(search).reduce((sum, rate, r) => sum + rate * first.goal.weight[r]!, 0);
  let best = first;
  let raised = demand.perH.map(() => 1);
  const tried = new Set<string>();
  for (let round = 0; round < DEMAND_ROUNDS && most !== null; round++) {
    if (isServed(shareIn(best), most) || (round > 0 && Date.now() > limits.untilMs)) break;
    const goal = demandGoal(cell, demand, first.goal, raised);
    if (goal === null || tried.has(String(goal.mix))) break;
    tried.add(String(goal.mix));
    const search = searchFor(cell, goal, limits, known);
    if (search.run.best === null) break;
    const gain = shareIn(search) - shareIn(best);
    if (gain > 1e-9 || (gain > -1e-9 && worthIn(search) > worthIn(best))) best = search;
    const rates = ratesIn(search);
    raised = raised.map((by, r) => by * Math.max(1, demand.perH[r]! / Math.max(1e-9, rates[r]!)));
  }
  const note = `${best.goal.note} ${demandNote(cell, demand, ratesIn(best), most)}`;
  // A shorter cycle is offered only where it serves as much of what is asked for.
  const { shorter } = best.run;
  const isServing = shorter !== null && shareMade(demand, ratesOfSet(shorter)) >= shareIn(best) * (1 - 1e-9);
  return { ...best, run: { ...best.run, shorter: isServing ? shorter : null }, goal: { ...best.goal, note } };
}

/** Less of the time that is left; without a time limit there is no end to it. */
function shareOf(limits: CellLimits, share: number): CellLimits {
  const nowMs = Date.now();
  return { ...limits, untilMs: nowMs + (limits.untilMs - nowMs) * share };
}

/** Share of a time limit that the bound may take: a sequence without a bound is worth more than the reverse. */
const BOUND_SHARE = 0.3;

/** The best way to run the cell for a goal, with the bound of the linear program. */
function searchFor(
  cell: Cell,
  goal: Goal,
  limits: CellLimits,
  knownBefore: readonly ScheduleFound[],
): GoalSearch {
  const bound = rateBound(cell, goal, shareOf(limits, BOUND_SHARE).untilMs);
  const searched = { cell, ways: waysOf(cell), goal, valueBound: bound.found ? bound.valuePerS : null };
  const known = knownBefore.flatMap((found) => {
    const same = sameOrder(cell, found);
    const set = same && knownSet(cell, same, goal);
    return set === null ? [] : [set];
  });
  return { goal, bound, run: searchCell(searched, limits, known) };
}

function leavesPartsOut({ best }: CellSearch): boolean {
  return best !== null && Object.values(best.set.plan.partsPerPeriod).includes(0);
}

function nothingFound(
  run: CellSearch,
  options: ScheduleOptions,
  work: ScheduleFound['searched'],
  untilMs: number,
): ScheduleOutcome {
  if (run.first === null && run.complete)
    return { status: 'undecided', reason: noSetText(options), boundS: 0, searched: work };
  if (run.first !== null && run.complete)
    return { ...explainInfeasible(run.first.plan, untilMs), searched: work };
  return {
    status: 'undecided',
    reason: 'The limit came before any order was found.',
    boundS: run.first?.boundS ?? 0,
    searched: work,
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
  return best === null ? null : notSearched(cell, planned, best);
}

/**
 * What a robot makes that serves calls as they come, as a shop programs it: an answer in a few milliseconds. Like
 * `scheduleAgain` it is not played through the rules of the cell, and what is shown in the end is searched for.
 *
 * @returns null where this rule runs into a corner, or into no short repeating sequence
 */
export function scheduleByRule(cell: Cell): ScheduleFound | null {
  const { cell: planned } = withMeanGauges(cell);
  const best = setByOneRule(new CellPlays(planned, goalOf(planned)));
  return best === null ? null : notSearched(cell, planned, best);
}

function notSearched(cell: Cell, planned: Cell, best: SetBest): ScheduleFound {
  const run = { mostPerS: null, shorter: null };
  const searched = { nodes: 0, seconds: 0, complete: false };
  return describe(cell, planned, best, null, run, searched, [], { improvements: false });
}

function countLimits(
  cell: Cell,
  options: ScheduleOptions,
): Pick<CellLimits, 'maxVisits' | 'maxPlayedVisits' | 'partsPerPeriod'> {
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
  const free = alternatives ? Math.max(LEAST_VISITS, VISITS_A_STATION * stations, onePeriod) : several;
  return {
    maxPlayedVisits: options.maxVisits ?? PLAYED_VISITS,
    maxVisits: options.maxVisits ?? Math.max(free, asked * mostSteps),
    partsPerPeriod: options.partsPerPeriod ?? null,
  };
}

function describe(
  cell: Cell,
  planned: Cell,
  best: SetBest,
  bound: RateBoundFound | null,
  run: Pick<CellSearch, 'mostPerS' | 'shorter'>,
  searched: ScheduleFound['searched'],
  assumptions: readonly string[],
  options: Pick<ScheduleOptions, 'improvements'> & { readonly untilMs?: number },
): ScheduleFound {
  const { plan } = best.set;
  const order = foundOrder(plan, best.order);
  const events = orderEvents(plan, order);
  const timed = timedEvents(order, events);
  // No sequence of as much value takes less.
  const leastS = run.mostPerS === null ? 0 : best.set.value / run.mostPerS;
  const proven = run.mostPerS !== null && reaches(ratePerS(best), run.mostPerS);
  const boundS = proven ? order.periodS : Math.min(leastS, order.periodS);
  const gapPct = boundS > 0 ? 100 * (order.periodS / boundS - 1) : null;
  return {
    status: proven ? 'proven' : 'best found',
    periodS: order.periodS,
    partsPerPeriod: plan.partsPerPeriod,
    partsPerH: ratesOf(plan.partsPerPeriod, order.periodS),
    proven,
    boundS,
    gapPct,
    partSet: {
      proven: best.proven,
      boundS: best.boundS,
      gapPct: 100 * Math.max(0, order.periodS / best.boundS - 1),
    },
    shorter: run.shorter === null ? null : shorterCycle(best, run.shorter),
    rateBoundPerH: bound ?? unknownBound(plan, best.boundS),
    layoutGainPct: null,
    robot: robotShare(plan, order),
    stations: stationShares(plan, order),
    events: timed.events,
    holds: timed.holds,
    order: events,
    bottleneck: bottleneckOf(plan, order),
    improvements:
      options.improvements === false
        ? []
        : improvementsOf(
            planned,
            (run.shorter ?? best).set.plan,
            (run.shorter ?? best).order,
            options.untilMs,
          ),
    whatIf: [],
    searched,
    assumptions,
    warnings: warningsOf(cell, best, bound, { proven, gapPct }),
  };
}

function layoutGainPct(cell: Cell, goal: Goal, best: SetBest, untilMs: number): number | null {
  const most = mostInAnyLayout(cell, goal, untilMs);
  return most === null ? null : Math.max(0, 100 * (most / ratePerS(best) - 1));
}

/** A cycle with fewer visits that yields nearly as much: easier to program. */
function shorterCycle(best: SetBest, { set, order }: SetBest): NonNullable<ScheduleFound['shorter']> {
  const { partsPerPeriod } = set.plan;
  const whole = foundOrder(set.plan, order);
  return {
    periodS: order.periodS,
    partsPerPeriod,
    partsPerH: ratesOf(partsPerPeriod, order.periodS),
    visits: set.visits,
    givesAwayPct: 100 * (1 - set.value / order.periodS / ratePerS(best)),
    events: timedEvents(whole, orderEvents(set.plan, whole)).events,
  };
}

/** Where the linear program gave no sure answer: the bound of this part set alone, and nothing named as binding. */
function unknownBound(plan: Plan, boundS: number): ScheduleFound['rateBoundPerH'] {
  const { total, ...perPart } = ratesOf(plan.partsPerPeriod, boundS);
  return { total: total!, perPart, binding: [], goal: null };
}

function warningsOf(
  cell: Cell,
  best: SetBest,
  bound: RateBoundFound | null,
  { proven, gapPct }: Pick<ScheduleFound, 'proven' | 'gapPct'>,
): string[] {
  const gap = gapPct === null ? '' : `, by at most ${gapPct.toFixed(1)}%`;
  const warnings: string[] = [];
  const left = cell.routes.map(({ part }) => part).filter((part) => best.set.plan.partsPerPeriod[part] === 0);
  if (left.length > 0)
    warnings.push(
      `Not made at all in the best sequence: ${left.join(', ')}. Give a ratio in parts.csv to what must be made.`,
    );
  if (bound === null)
    warnings.push(
      'The rate bound over all policies could not be worked out; the bound shown is that of this part set.',
    );
  if (!proven && !best.proven)
    warnings.push(
      best.bestExchange
        ? `Proven best among the sequences that unload and load each machine in one visit; another sequence may be better${gap}.`
        : `The search for the robot sequence stopped at its limit: a better one may exist${gap}.`,
    );
  return warnings;
}

function assumptionsOf(cell: Cell, plan: Plan): string[] {
  const list = [
    'Constant times. Downtime and variation: see `simulate`.',
    ...attendedOnlyNote({ parts: cell.parts, stops: [] }),
  ];
  if (plan.hands === 2)
    list.push(
      `Every pair of actions at one station in a row costs the index time of ${cell.robot.indexS} s.`,
    );
  if (plan.nodes.some((node) => node.maxWaitS !== null))
    list.push('The robot may wait with a part in its gripper.');
  const visits = Object.values(plan.partsPerPeriod).reduce((sum, n) => sum + n, 0);
  if (visits > 1) list.push(`${visits} parts per robot cycle; best of the part mixes tried.`);
  return list;
}

function noSetText(options: ScheduleOptions): string {
  if (options.partsPerPeriod !== undefined || options.maxVisits !== undefined)
    return 'No set of parts keeps the asked parts per period and visits together with batches, occasional steps and mix.';
  return 'No set of parts of a workable size keeps the batches, the occasional steps and the mix together.';
}
