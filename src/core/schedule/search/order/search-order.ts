/**
 * The best repeating order of a plan, by depth-first branch and bound.
 *
 * Orders are built event by event after a fixed first one. Every prefix is a constraint graph whose least period is
 * found by parametric longest paths, warm-started from its parent. A time is kept as the walk that gives it (its
 * value and its count of period ends), so it stays a valid bound at every other period. The arcs are: the arcs of the prefix, one arc from the last
 * event back to the first that carries the least robot work still to do, and for every station with one end of its
 * process still open the earliest (or latest) moment at which the other end can come. A positive circuit raises the
 * period to its ratio; one whose periods sum to zero or less cuts the prefix. Children go in order of their bound.
 *
 * The kernel works on flat typed arrays that are laid out once; a node of the search allocates nothing.
 */

import { periodBound } from '../../bound/period-bound.js';
import { type TimedOrder, timeOrder } from '../../evaluate/evaluate-order.js';
import { plainOrder } from '../../plan/plain-order.js';
import type { Plan } from '../../plan/plan.js';
import { ChildList } from './child-list.js';
import { NONE, OrderPrefix, PERIOD_TOLERANCE_S } from './order-prefix.js';
import { PrefixTimes } from './prefix-times.js';
import { TOUR_TABLE_LIMIT } from './tour-table.js';
import { exchangeUnits, moveUnits, type Units } from './units.js';

export interface SearchLimits {
  /** Only orders with a period below this are of interest; Infinity for any. */
  readonly belowS: number;
  /** Nodes after which the search stops with the best so far. */
  readonly nodes: number;
  /** Moment (Date.now()) after which it stops. */
  readonly untilMs: number;
  /** Stop at the first order found. */
  readonly anyOrder?: boolean;
}

export interface SearchOutcome {
  /** Best order with a period below the asked one, or null. */
  readonly best: TimedOrder | null;
  /** No order of this plan has a shorter period than this (the best period itself where `complete`). */
  readonly boundS: number;
  /** The whole tree was searched or cut: the best is the best there is, and null means there is none below the limit. */
  readonly complete: boolean;
  readonly nodes: number;
}

/**
 * @param plan what the period has to do
 * @param limits when to stop, and which periods are of interest
 * @param exchanges search only orders in which every machine is emptied and filled in one go (fewer, often the best;
 *   then `complete` speaks of those orders alone)
 */
export function searchOrder(plan: Plan, limits: SearchLimits, exchanges = false): SearchOutcome {
  const units = exchanges ? exchangeUnits(plan) : moveUnits(plan);
  if (units === null) return { best: null, boundS: 0, complete: false, nodes: 0 };
  if (slotsOf(units) > MOST_SLOTS)
    return { best: unsearched(plan, limits), boundS: periodBound(plan), complete: false, nodes: 0 };
  return new OrderSearch(plan, units, limits).run();
}

/** Entries of the tour table for each node of the limit: a few nodes are not worth a large table. */
const ENTRIES_A_NODE = 150;

/** Times kept for the children of every depth; beyond this many the memory would pass some hundred megabytes. */
const MOST_SLOTS = 12_000_000;

function slotsOf(units: Units): number {
  const length = units.counts.reduce((sum, c) => sum + c, 0);
  return (length + 1) * (units.counts.length + 1) * length;
}

/** An order for plans too large to search. */
function unsearched(plan: Plan, limits: SearchLimits): TimedOrder | null {
  const result = timeOrder(plan, plainOrder(plan));
  return result !== null && result.periodS < limits.belowS - PERIOD_TOLERANCE_S ? result : null;
}

class OrderSearch {
  private readonly prefix: OrderPrefix;
  private readonly times: PrefixTimes;
  private readonly children: ChildList;
  private best: TimedOrder | null = null;
  private nodes = 0;
  private stopped = false;
  private openBoundS = Number.POSITIVE_INFINITY;

  constructor(
    plan: Plan,
    units: Units,
    private readonly limits: SearchLimits,
  ) {
    const tableLimit = Math.min(TOUR_TABLE_LIMIT, limits.nodes * ENTRIES_A_NODE);
    this.prefix = new OrderPrefix(plan, units, limits.belowS, tableLimit);
    this.times = new PrefixTimes(this.prefix);
    this.children = new ChildList(this.prefix.length + 1, this.prefix.n);
  }

  run(): SearchOutcome {
    const { prefix, times } = this;
    if (prefix.rootBoundS >= prefix.bestS - PERIOD_TOLERANCE_S) {
      return { best: null, boundS: prefix.rootBoundS, complete: true, nodes: 0 };
    }
    const partsMark = prefix.parts.mark();
    if (prefix.append(prefix.first)) {
      times.startAfresh();
      const bound = times.boundPrefix(prefix.rootBoundS);
      if (bound < prefix.bestS - PERIOD_TOLERANCE_S) this.descend(bound);
      prefix.removeLast(partsMark, 0);
    }
    const complete = !this.stopped;
    const boundS = complete
      ? Math.min(prefix.bestS, Number.POSITIVE_INFINITY)
      : Math.min(prefix.bestS, Math.max(prefix.rootBoundS, this.openBoundS));
    return { best: this.best, boundS, complete, nodes: this.nodes };
  }

  private descend(boundS: number): void {
    const { prefix, times, children } = this;
    if (prefix.depth === prefix.length) {
      this.finish();
      return;
    }
    const depth = prefix.depth;
    const found = this.boundChildren(boundS);
    const savedHighS = times.highS;
    for (let c = 0; c < found; c++) {
      const childS = children.boundAt(depth, c);
      if (childS >= prefix.bestS - PERIOD_TOLERANCE_S) continue;
      if (this.stopped) {
        if (childS < this.openBoundS) this.openBoundS = childS;
        continue;
      }
      const unit = children.unitAt(depth, c);
      const partsMark = prefix.parts.mark();
      const arcsMark = prefix.arcs;
      prefix.append(unit);
      times.at = times.slotOf(depth, unit);
      times.highS = savedHighS;
      this.descend(childS);
      prefix.giveBack(unit);
      prefix.removeLast(partsMark, arcsMark);
    }
  }

  /** Bounds every unit that may come next; keeps those worth a look, sorted, and returns how many they are. */
  private boundChildren(boundS: number): number {
    const { prefix, times, children } = this;
    const { depth, top } = prefix;
    times.stepTo(boundS);
    let found = 0;
    const parentAt = times.at;
    for (let unit = 0; unit < prefix.n; unit++) {
      if (prefix.left[unit] === 0 || this.isTooLate(unit, parentAt)) continue;
      prefix.chainBoundS = 0;
      const partsMark = prefix.parts.mark();
      const arcsMark = prefix.arcs;
      if (!prefix.append(unit)) {
        prefix.removeLast(partsMark, arcsMark);
        continue;
      }
      const childAt = times.slotOf(depth, unit);
      times.enter(childAt, parentAt, top, arcsMark);
      const childS = times.boundPrefix(boundS);
      if (childS < prefix.bestS - PERIOD_TOLERANCE_S)
        children.insert(
          depth,
          found++,
          unit,
          childS,
          times.time[childAt + prefix.top - 1]! + prefix.restS(unit),
        );
      prefix.giveBack(unit);
      prefix.removeLast(partsMark, arcsMark);
    }
    this.countNodes(found);
    return found;
  }

  /**
   * Quick test before anything is built: the unit's earliest start and the robot work after it pass the limit.
   * `parentAt` is where the times of the prefix are.
   */
  private isTooLate(unit: number, parentAt: number): boolean {
    const { prefix, times } = this;
    const highS = prefix.bestS - PERIOD_TOLERANCE_S;
    if (highS === Number.POSITIVE_INFINITY) return false;
    const at = parentAt + prefix.top - 1;
    if (times.endsHigh[at]! < 0) return false;
    const last = prefix.order[prefix.depth - 1]!;
    let startS = times.timeHigh[at]! + prefix.lastOwnS[last]! + prefix.units.wayS[last * prefix.n + unit]!;
    const node = prefix.timedPick[unit]!;
    if (node !== NONE) startS = Math.max(startS, this.readyHighS(node, parentAt));
    return startS + prefix.restAfterS(unit) > highS + 1e-9 * (1 + highS);
  }

  /** Earliest end of the process that the next pick at this node takes, where its place is in the prefix. */
  private readyHighS(node: number, parentAt: number): number {
    const { prefix, times } = this;
    const picks = prefix.parts.picksDone[node]!;
    const places = prefix.parts.placesDone[node]!;
    if (places === 0) return Number.NEGATIVE_INFINITY;
    const link = prefix.links[node]![prefix.parts.nodeNeed[node]! > 0 ? 1 : 0]!.byPick[picks]![0]!;
    if (link.place >= places || link.lag !== 0) return Number.NEGATIVE_INFINITY;
    const position = prefix.placeAt[prefix.nodeBase[node]! + link.place]!;
    if (times.endsHigh[parentAt + position]! < 0) return Number.NEGATIVE_INFINITY;
    const place = prefix.placeEventAt(position, node);
    const placedS =
      times.timeHigh[parentAt + position]! + prefix.offsetS[place]! + prefix.plan.events[place]!.robotS;
    return placedS + prefix.plan.nodes[node]!.processS;
  }

  private countNodes(found: number): void {
    this.nodes += Math.max(1, found);
    if (this.nodes >= this.limits.nodes) this.stopped = true;
    if ((this.nodes & 255) < found && Date.now() > this.limits.untilMs) this.stopped = true;
  }

  private finish(): void {
    const { prefix } = this;
    const order: number[] = [];
    for (let i = 0; i < prefix.length; i++) order.push(...prefix.units.events[prefix.order[i]!]!);
    const result = timeOrder(prefix.plan, order);
    if (result === null || result.periodS >= prefix.bestS - PERIOD_TOLERANCE_S) return;
    this.best = result;
    prefix.bestS = result.periodS;
    if (this.limits.anyOrder) this.stopped = true;
  }
}
