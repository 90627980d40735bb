/**
 * How many parts go which way in one period. Independent machines with unlike cycles are not visited equally often,
 * alternatives share their parts, and a serial route may gain from several parts per period; so there are many part
 * sets to choose from. Each is valued by what it could yield at best (its value over a lower bound of its period),
 * and the search takes them in that order.
 */

import { solveLinearProgram } from '../lp/solve-linear-program.js';
import type { Cell, Route } from '../model/cell.js';
import { occasionalSteps, type Way } from './paths.js';
import { periodBound } from './period-bound.js';
import { buildPlan, type PathCount, type Plan } from './plan.js';
import type { Goal } from './weights.js';

export interface PartSet {
  readonly plan: Plan;
  /** Value of one period in the goal's terms: contribution, machine seconds or sets of the mix. */
  readonly value: number;
  /** No order of this set has a shorter period. */
  readonly boundS: number;
  readonly visits: number;
}

export interface CountLimits {
  /** Most visits to stations (infeeds, outfeeds and held stations apart) in a period. */
  readonly maxVisits: number;
  /** Exactly this many parts in a period; null = free. */
  readonly partsPerPeriod: number | null;
}

/** Part sets are listed in full up to this many; beyond that they are chosen by integer programs. */
const FULL_LIST = 6000;
/** Part sets handed to the search at most. */
const KEPT = 60;

/** Part sets worth searching, the most promising first. Empty where no set keeps the limits. */
export function partSets(cell: Cell, ways: readonly Way[], goal: Goal, limits: CountLimits): PartSet[] {
  const table = wayTable(cell, ways);
  const listed =
    allCounts(cell, ways, table.visits, goal, limits) ?? chosenCounts(cell, ways, goal, limits, table);
  const unlike = new Map(listed.map((counts) => [counts.join(','), counts]));
  const worth = ways.map((way) =>
    goal.mix === null ? goal.weight[way.route]! : way.route === 0 ? 1 / goal.mix[0]! : 0,
  );
  const ranked = [...unlike.values()]
    .map((counts) => ({ counts, promise: dot(worth, counts) / roughPeriod(table, counts) }))
    .sort((a, b) => b.promise - a.promise || total(a.counts) - total(b.counts))
    .slice(0, KEPT);
  return ranked
    .map(({ counts }) => partSet(cell, ways, counts, table.visits, goal))
    .sort((a, b) => b.value / b.boundS - a.value / a.boundS || a.visits - b.visits);
}

/** What one part on each way takes, for quick comparisons of part sets. */
interface WayTable {
  readonly visits: readonly number[];
  readonly robotS: readonly number[];
  readonly loads: readonly ReadonlyMap<string, number>[];
  /** The same by station: seconds that a part on each way takes from it. */
  readonly byStation: readonly (readonly number[])[];
}

function wayTable(cell: Cell, ways: readonly Way[]): WayTable {
  const single = ways.map((way) => buildPlan(cell, [{ route: way.route, stops: way.stops, count: 1 }]));
  const loads = single.map(stationLoads);
  const stations = [...new Set(loads.flatMap((load) => [...load.keys()]))];
  return {
    visits: ways.map((way) => visitsOf(cell, way)),
    robotS: single.map(robotWork),
    loads,
    byStation: stations.map((name) => loads.map((load) => load.get(name) ?? 0)),
  };
}

function roughPeriod(table: WayTable, counts: readonly number[]): number {
  let most = Math.max(1e-9, dot(table.robotS, counts));
  for (const row of table.byStation) most = Math.max(most, dot(row, counts));
  return most;
}

function dot(values: readonly number[], counts: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < counts.length; i++) sum += values[i]! * counts[i]!;
  return sum;
}

function total(counts: readonly number[]): number {
  return counts.reduce((sum, c) => sum + c, 0);
}

function partSet(
  cell: Cell,
  ways: readonly Way[],
  counts: readonly number[],
  visits: readonly number[],
  goal: Goal,
): PartSet {
  const paths: PathCount[] = ways.flatMap((way, i) =>
    counts[i]! > 0 ? [{ route: way.route, stops: way.stops, count: counts[i]! }] : [],
  );
  const plan = buildPlan(cell, paths);
  return {
    plan,
    value: setValue(cell, ways, counts, goal),
    boundS: periodBound(plan),
    visits: counts.reduce((sum, count, i) => sum + count * visits[i]!, 0),
  };
}

function setValue(cell: Cell, ways: readonly Way[], counts: readonly number[], goal: Goal): number {
  const perRoute = cell.routes.map((_, r) =>
    counts.reduce((sum, c, i) => sum + (ways[i]!.route === r ? c : 0), 0),
  );
  if (goal.mix !== null) return perRoute[0]! / goal.mix[0]!;
  return perRoute.reduce((sum, count, r) => sum + count * goal.weight[r]!, 0);
}

function visitsOf(cell: Cell, way: Way): number {
  const inner = way.stops.slice(1, -1);
  const held = inner.filter(
    (stop) => cell.stations.find((s) => s.name === stop.station)?.kind === 'held',
  ).length;
  return Math.max(1, inner.length - held);
}

/** Parts of a route come in multiples of this, so that every occasional step and every batch comes out whole. */
export function partMultiple(route: Route): number {
  const factors = [
    ...occasionalSteps(route).map((s) => s.everyParts),
    ...route.steps.map((s) => s.partsPerCycle),
  ];
  return factors.reduce(leastCommonMultiple, 1);
}

function leastCommonMultiple(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return (a / x) * b;
}

/** Every vector of counts within the limits; null where they are too many to list. */
function allCounts(
  cell: Cell,
  ways: readonly Way[],
  visits: readonly number[],
  goal: Goal,
  limits: CountLimits,
): number[][] | null {
  const list: number[][] = [];
  const counts = ways.map(() => 0);
  const rules = countRules(cell, ways, goal);
  let steps = 0;
  const fill = (way: number, visitsLeft: number, partsLeft: number): boolean => {
    if (++steps > FULL_LIST * 8) return false;
    if (way === ways.length) {
      if (isWhole(rules, counts, limits)) list.push([...counts]);
      return list.length <= FULL_LIST;
    }
    for (let c = 0; c * visits[way]! <= visitsLeft && c <= partsLeft; c++) {
      counts[way] = c;
      if (!fill(way + 1, visitsLeft - c * visits[way]!, partsLeft - c)) return false;
    }
    counts[way] = 0;
    return true;
  };
  return fill(0, limits.maxVisits, limits.partsPerPeriod ?? limits.maxVisits) ? list : null;
}

/** What the counts of the ways must keep: sums that come out at 0, and sums that are multiples of a batch. */
interface CountRules {
  readonly zero: readonly (readonly number[])[];
  readonly multiple: readonly { readonly terms: readonly number[]; readonly of: number }[];
}

function countRules(cell: Cell, ways: readonly Way[], goal: Goal): CountRules {
  const zero: number[][] = [];
  const multiple: { terms: number[]; of: number }[] = [];
  const { mix } = goal;
  for (const [r, route] of cell.routes.entries()) {
    if (mix !== null && r > 0)
      zero.push(ways.map((way) => (way.route === r ? mix[0]! : way.route === 0 ? -mix[r]! : 0)));
    for (const step of occasionalSteps(route))
      zero.push(
        ways.map((way) => (way.route !== r ? 0 : (way.makes.includes(step.step) ? step.everyParts : 0) - 1)),
      );
    for (const step of route.steps) {
      if (step.partsPerCycle === 1) continue;
      for (const station of step.stations)
        multiple.push({
          terms: ways.map((way) =>
            Number(way.route === r && way.stops.some((s) => s.step === step && s.station === station)),
          ),
          of: step.partsPerCycle,
        });
    }
  }
  return { zero, multiple };
}

/** Counts that are not all 0 and keep the mix, the occasional steps' shares, the batches and the asked number of parts. */
function isWhole(rules: CountRules, counts: readonly number[], limits: CountLimits): boolean {
  const parts = total(counts);
  if (parts === 0 || (limits.partsPerPeriod !== null && parts !== limits.partsPerPeriod)) return false;
  for (const terms of rules.zero) if (dot(terms, counts) !== 0) return false;
  for (const rule of rules.multiple) if (dot(rule.terms, counts) % rule.of !== 0) return false;
  return true;
}

/**
 * Too many vectors to list: for each of a ladder of periods, the counts of most value whose stations and robot fit
 * into it, as a small integer program.
 */
function chosenCounts(
  cell: Cell,
  ways: readonly Way[],
  goal: Goal,
  limits: CountLimits,
  table: WayTable,
): number[][] {
  const list: number[][] = [];
  const rules = countRules(cell, ways, goal);
  for (const periodS of ladder(table.loads, limits.maxVisits)) {
    const counts = countsFor(ways, goal, limits, table, rules, periodS);
    if (counts !== null && isWhole(rules, counts, limits)) list.push(counts);
  }
  return list;
}

/** Seconds of a period that one part takes from each station. */
function stationLoads(plan: Plan): Map<string, number> {
  const loads = new Map<string, number>();
  for (const [room, spec] of plan.rooms.entries()) {
    if (!spec.hands && Number.isFinite(spec.capacity)) loads.set(spec.name, periodBound(plan, room));
  }
  return loads;
}

/** Handling, holding and loaded travel of one part: robot time that no order can avoid. */
function robotWork(plan: Plan): number {
  let sum = 0;
  for (const carry of plan.carries) {
    for (const [i, e] of carry.events.entries()) {
      const event = plan.events[e]!;
      const next = carry.events[i + 1];
      sum += event.robotS;
      if (next !== undefined && plan.hands === 1)
        sum += plan.loadedS[event.station * plan.stations.length + plan.events[next]!.station]!;
    }
  }
  return sum;
}

/** Periods at which some station just fits one more visit, from short to long. */
function ladder(loads: WayTable['loads'], maxVisits: number): number[] {
  const rungs = new Set<number>();
  for (const load of loads)
    for (const seconds of load.values())
      for (let k = 1; k <= Math.min(maxVisits, 12); k++) rungs.add(Number((k * seconds).toFixed(6)));
  const sorted = [...rungs].filter((s) => s > 0).sort((a, b) => a - b);
  const keep = 80;
  if (sorted.length <= keep) return sorted;
  return Array.from({ length: keep }, (_, i) => sorted[Math.floor((i * (sorted.length - 1)) / (keep - 1))]!);
}

function countsFor(
  ways: readonly Way[],
  goal: Goal,
  limits: CountLimits,
  { visits, robotS, loads }: WayTable,
  rules: CountRules,
  periodS: number,
): number[] | null {
  const names = ways.map((_, i) => `way${i}`);
  const terms = (value: (i: number) => number): Record<string, number> =>
    Object.fromEntries(names.map((name, i) => [name, value(i)]));
  const stations = new Set(loads.flatMap((load) => [...load.keys()]));
  const answer = solveLinearProgram(
    {
      sense: 'most',
      objective: terms((i) => (goal.mix !== null ? 1 : goal.weight[ways[i]!.route]!)),
      rows: [
        { name: 'robot', terms: terms((i) => robotS[i]!), most: periodS },
        { name: 'visits', terms: terms((i) => visits[i]!), most: limits.maxVisits },
        ...[...stations].map((name) => ({
          name,
          terms: terms((i) => loads[i]!.get(name) ?? 0),
          most: periodS * (1 + 1e-9),
        })),
        ...(limits.partsPerPeriod === null
          ? []
          : [
              {
                name: 'parts',
                terms: terms(() => 1),
                least: limits.partsPerPeriod,
                most: limits.partsPerPeriod,
              },
            ]),
        ...rules.zero.map((row, r) => ({
          name: `whole ${r}`,
          terms: terms((i) => row[i]!),
          least: 0,
          most: 0,
        })),
      ],
      whole: names,
    },
    300,
  );
  return answer.status === 'optimal' ? names.map((name) => Math.round(answer.at[name]!)) : null;
}
