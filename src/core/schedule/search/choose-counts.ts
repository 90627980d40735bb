/**
 * How many parts go which way in one period. Independent machines with unlike cycles are not visited equally often,
 * alternatives share their parts, and a serial route may gain from several parts per period; so there are many part
 * sets to choose from. Each is valued by what it could yield at best (its value over a lower bound of its period),
 * and the search takes them in that order.
 */

import type { Cell, Route } from '../../model/cell.js';
import { carryLoadS, nodeLoadS, periodBound } from '../bound/period-bound.js';
import { occasionalSteps, type PartPath } from '../plan/paths.js';
import { buildPlan, type PathCount, type Plan, type PlanCarry } from '../plan/plan.js';
import { type Goal, mixLead } from '../plan/weights.js';

export interface PartSet {
  readonly plan: Plan;
  /** Value of one period in the goal's terms: contribution, machine seconds or sets of the mix. */
  readonly value: number;
  /** No order of this set has a shorter period. */
  readonly boundS: number;
  readonly visits: number;
}

/** A part set whose plan is built when it is looked at. */
export interface LikelySet {
  /** No order of this set yields more value per second. */
  readonly mostPerS: number;
  readonly set: () => PartSet;
}

export interface CountLimits {
  /** Most visits to stations (infeeds, outfeeds and held stations apart) in a period. */
  readonly maxVisits: number;
  /** Exactly this many parts in a period; null = free. */
  readonly partsPerPeriod: number | null;
}

/** Part sets are listed in full up to this many; beyond that they are chosen by rungs of a ladder of periods. */
const FULL_LIST = 6000;
/** Promises that differ by this share only differ by rounding. */
const ALIKE = 1e-9;
/** Part sets of each size class that are handed to the search at most: a class has up to twice the visits of the one before. */
const KEPT_A_CLASS = 16;
/** The smallest part sets are all looked at: up to so many times the parts of the smallest, and so many sets at most. */
const SMALL = 3;
const MOST_SMALL = 240;

export interface PartSets {
  /** The smallest sets, those with fewest parts first. */
  readonly small: readonly LikelySet[];
  /** Others worth searching, the most promising first. */
  readonly likely: readonly LikelySet[];
  /** No set within the limits that is in neither list yields more value per second; 0 where none was left out. */
  readonly leftOutPerS: number;
}

/** Part sets worth searching. Both lists are empty where no set keeps the limits. */
export function partSets(cell: Cell, ways: readonly PartPath[], goal: Goal, limits: CountLimits): PartSets {
  const table = wayTable(cell, ways);
  const worth = worthOf(ways, goal);
  const ranking = new Ranking(table, worth);
  const listed = eachCount(cell, ways, table.visits, goal, limits, (counts) => ranking.add(counts));
  if (!listed) {
    ranking.clear();
    for (const counts of chosenCounts(cell, ways, goal, limits, table)) ranking.add(counts);
  }
  const smallest = smallCounts(cell, ways, goal, limits, table.visits);
  const small = smallest.map((counts) => ({
    counts,
    promise: dot(worth, counts) / roughPeriod(table, counts),
  }));
  const named = new Set(smallest.map(String));
  const lazily = ({ counts, promise }: { counts: readonly number[]; promise: number }): LikelySet => {
    let made: PartSet | null = null;
    return {
      mostPerS: promise,
      set: () => {
        made ??= partSet(cell, ways, counts, table.visits, goal);
        return made;
      },
    };
  };
  return {
    small: small.map(lazily),
    likely: ranking
      .list()
      .filter(({ counts }) => !named.has(String(counts)))
      .map(lazily),
    leftOutPerS: listed ? ranking.leftOutPerS : Number.POSITIVE_INFINITY,
  };
}

/** The counts of the fewest parts that keep the rules, and of up to `SMALL` times as many. */
function smallCounts(
  cell: Cell,
  ways: readonly PartPath[],
  goal: Goal,
  limits: CountLimits,
  visits: readonly number[],
): number[][] {
  const rules = countRules(cell, ways, goal);
  const list: number[][] = [];
  let steps = 0;
  let least: number | null = null;
  for (let parts = 1; parts <= (least === null ? limits.maxVisits : SMALL * least); parts++) {
    const counts = ways.map(() => 0);
    const fill = (way: number, left: number, visitsLeft: number): void => {
      if (++steps > FULL_LIST * 8 || list.length >= MOST_SMALL) return;
      if (way === ways.length - 1) {
        counts[way] = left;
        if (left * visits[way]! <= visitsLeft && isWhole(rules, counts, limits)) list.push([...counts]);
        counts[way] = 0;
        return;
      }
      for (let c = left; c >= 0; c--) {
        if (c * visits[way]! > visitsLeft) continue;
        counts[way] = c;
        fill(way + 1, left - c, visitsLeft - c * visits[way]!);
      }
      counts[way] = 0;
    };
    fill(0, parts, limits.maxVisits);
    if (list.length > 0) least ??= parts;
    if (steps > FULL_LIST * 8 || list.length >= MOST_SMALL) break;
  }
  return list;
}

/** Every way as often as its batches and occasional steps need: where machines are alike, the natural set. */
export function evenSet(
  cell: Cell,
  ways: readonly PartPath[],
  goal: Goal,
  limits: CountLimits,
): PartSet | null {
  const counts = ways.map((way) =>
    goal.mix !== null && goal.mix[way.route] === 0 ? 0 : partMultiple(cell.routes[way.route]!),
  );
  const visits = ways.map((way) => visitsOf(cell, way));
  if (dot(visits, counts) > limits.maxVisits || !isWhole(countRules(cell, ways, goal), counts, limits))
    return null;
  return partSet(cell, ways, counts, visits, goal);
}

/** Value of one part on each way. */
function worthOf(ways: readonly PartPath[], goal: Goal): number[] {
  const { mix } = goal;
  if (mix === null) return ways.map((way) => goal.weight[way.route]!);
  const lead = mixLead(mix);
  return ways.map((way) => (way.route === lead ? 1 / mix[lead]! : 0));
}

interface Ranked {
  readonly counts: readonly number[];
  readonly promise: number;
  readonly parts: number;
}

/** The first part sets of each size class by what they could yield; of equals those with fewer parts, then those listed first. */
class Ranking {
  private readonly kept = new Map<number, Ranked[]>();
  /** The most that a set which was not kept could yield. */
  leftOutPerS = 0;

  constructor(
    private readonly table: WayTable,
    private readonly worth: readonly number[],
  ) {}

  add(counts: readonly number[]): void {
    const promise = dot(this.worth, counts) / roughPeriod(this.table, counts);
    const size = 32 - Math.clz32(Math.max(8, dot(this.table.visits, counts)) - 1);
    const kept = this.kept.get(size) ?? [];
    this.kept.set(size, kept);
    const parts = total(counts);
    let at = kept.length;
    while (at > 0 && isBefore(promise, parts, kept[at - 1]!)) at--;
    if (at < KEPT_A_CLASS) kept.splice(at, 0, { counts: [...counts], promise, parts });
    else this.leftOutPerS = Math.max(this.leftOutPerS, promise);
    if (kept.length > KEPT_A_CLASS) this.leftOutPerS = Math.max(this.leftOutPerS, kept.pop()!.promise);
  }

  clear(): void {
    this.kept.clear();
  }

  list(): readonly Ranked[] {
    return [...this.kept.values()]
      .flat()
      .sort((a, b) => (isBefore(a.promise, a.parts, b) ? -1 : isBefore(b.promise, b.parts, a) ? 1 : 0));
  }
}

function isBefore(promise: number, parts: number, other: { promise: number; parts: number }): boolean {
  const alike = Math.abs(promise - other.promise) <= ALIKE * other.promise;
  return alike ? parts < other.parts : promise > other.promise;
}

/** What one part on each way takes at least, whatever the other parts of the set are. */
interface WayTable {
  readonly visits: readonly number[];
  readonly robotS: readonly number[];
  readonly loads: readonly ReadonlyMap<string, number>[];
  /** The same by station: seconds that a part on each way takes from it. */
  readonly byStation: readonly (readonly number[])[];
}

/** Bounds of the plan in which every way is gone once: with fewer ways there is less to choose from, so they hold too. */
function wayTable(cell: Cell, ways: readonly PartPath[]): WayTable {
  const paths = ways.map((way) => ({ route: way.route, stops: way.stops, count: 1 }));
  const all = buildPlan(cell, paths);
  const carryS = new Map(all.carries.map((carry) => [carryKey(all, carry), carryLoadS(all, carry)]));
  const nodeS = new Map(
    all.nodes.flatMap((node, index) =>
      node.kind === 'inside' ? [[nodeKey(node), nodeLoadS(all, index)] as const] : [],
    ),
  );
  const single = paths.map((path) => buildPlan(cell, [path]));
  const loads = single.map((plan) => {
    const load = new Map<string, number>();
    for (const node of plan.nodes) {
      const seconds = node.kind === 'inside' ? nodeS.get(nodeKey(node))! : 0;
      if (seconds > 0) load.set(node.station, (load.get(node.station) ?? 0) + seconds);
    }
    return load;
  });
  const stations = [...new Set(loads.flatMap((load) => [...load.keys()]))];
  return {
    visits: ways.map((way) => visitsOf(cell, way)),
    robotS: single.map((plan) =>
      plan.carries.reduce((sum, carry) => sum + carryS.get(carryKey(plan, carry))!, 0),
    ),
    loads,
    byStation: stations.map((name) => loads.map((load) => load.get(name) ?? 0)),
  };
}

function carryKey(plan: Plan, carry: PlanCarry): string {
  return carry.events
    .map((e) => nodeKey({ ...plan.events[e]!, station: `${plan.events[e]!.station}` }))
    .join('|');
}

function nodeKey(at: { readonly part: string; readonly step: number; readonly station: string }): string {
  return `${at.part} ${at.step} ${at.station}`;
}

/** No order of these counts has a shorter period. */
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
  ways: readonly PartPath[],
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
    value: dot(worthOf(ways, goal), counts),
    boundS: periodBound(plan),
    visits: counts.reduce((sum, count, i) => sum + count * visits[i]!, 0),
  };
}

function visitsOf(cell: Cell, way: PartPath): number {
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

/** Tells every vector of counts within the limits (the same array each time); false where they are too many to list. */
function eachCount(
  cell: Cell,
  ways: readonly PartPath[],
  visits: readonly number[],
  goal: Goal,
  limits: CountLimits,
  tell: (counts: readonly number[]) => void,
): boolean {
  const counts = ways.map(() => 0);
  const rules = countRules(cell, ways, goal);
  let steps = 0;
  let told = 0;
  const fill = (way: number, visitsLeft: number, partsLeft: number): boolean => {
    if (++steps > FULL_LIST * 8) return false;
    if (way === ways.length) {
      if (!isWhole(rules, counts, limits)) return true;
      tell(counts);
      return ++told <= FULL_LIST;
    }
    for (let c = 0; c * visits[way]! <= visitsLeft && c <= partsLeft; c++) {
      counts[way] = c;
      if (!fill(way + 1, visitsLeft - c * visits[way]!, partsLeft - c)) return false;
    }
    counts[way] = 0;
    return true;
  };
  return fill(0, limits.maxVisits, limits.partsPerPeriod ?? limits.maxVisits);
}

/** What the counts of the ways must keep: sums that come out at 0, and sums that are multiples of a batch. */
interface CountRules {
  readonly zero: readonly (readonly number[])[];
  readonly multiple: readonly { readonly terms: readonly number[]; readonly of: number }[];
}

function countRules(cell: Cell, ways: readonly PartPath[], goal: Goal): CountRules {
  const zero: number[][] = [];
  const multiple: { terms: number[]; of: number }[] = [];
  const { mix } = goal;
  for (const [r, route] of cell.routes.entries()) {
    if (mix !== null && r !== mixLead(mix)) {
      const lead = mixLead(mix);
      zero.push(ways.map((way) => (way.route === r ? mix[lead]! : way.route === lead ? -mix[r]! : 0)));
    }
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
 * Too many vectors to list. Ways that share nothing but the robot: for each of a ladder of periods, the counts of most
 * value whose stations and robot fit into it. Other cells: none here, the sets of the rules played serve.
 */
function chosenCounts(
  cell: Cell,
  ways: readonly PartPath[],
  goal: Goal,
  limits: CountLimits,
  table: WayTable,
): number[][] {
  const rules = countRules(cell, ways, goal);
  const worth = ways.map((way) => goal.weight[way.route]!);
  if (!areAlone(table) || rules.zero.length > 0 || rules.multiple.length > 0) return [];
  const list = ladder(table.loads, limits.maxVisits)
    .map((periodS) => countsOfAlone(worth, table, limits, periodS))
    .filter((counts) => counts !== null && isWhole(rules, counts, limits)) as number[][];
  return [...new Map(list.map((counts) => [counts.join(','), counts])).values()];
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

/** Every way has one station, one visit to it, and shares it with no other. */
function areAlone(table: WayTable): boolean {
  const all = table.loads.flatMap((load) => [...load.keys()]);
  return (
    new Set(all).size === all.length &&
    table.loads.every((load) => load.size === 1) &&
    table.visits.every((visits) => visits === 1)
  );
}

/**
 * Ways that share nothing but the robot: as many of each as its station can do in the period, those worth most first
 * up to the most visits. That is the best there is where the robot has the time for it; null where it has not.
 */
function countsOfAlone(
  worth: readonly number[],
  table: WayTable,
  limits: CountLimits,
  periodS: number,
): number[] | null {
  if (limits.partsPerPeriod !== null) return null;
  const counts = worth.map(() => 0);
  let left = limits.maxVisits;
  for (const i of worth.map((_, way) => way).sort((a, b) => worth[b]! - worth[a]!)) {
    const [loadS] = table.loads[i]!.values();
    counts[i] = Math.min(left, Math.floor((periodS * (1 + 1e-9)) / loadS!));
    left -= counts[i]!;
  }
  return dot(table.robotS, counts) <= periodS ? counts : null;
}
