/**
 * The best repeating order of a plan, by depth-first branch and bound.
 *
 * Orders are built event by event after a fixed first one. Every prefix is a constraint graph whose least period is
 * found by parametric longest paths, warm-started from its parent. The arcs are those of the prefix, one from the last
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
import { OrderPrefix, PERIOD_TOLERANCE_S } from './order-prefix.js';
import { PrefixTimes } from './prefix-times.js';
import { NONE } from './timed-stations.js';
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
  /** By unit: the node from which it picks first, where that is one with room for one part; else NONE. */
  private readonly firstPick: Int32Array;

  constructor(
    plan: Plan,
    units: Units,
    private readonly limits: SearchLimits,
  ) {
    const tableLimit = Math.min(TOUR_TABLE_LIMIT, limits.nodes * ENTRIES_A_NODE);
    this.prefix = new OrderPrefix(plan, units, tableLimit);
    this.times = new PrefixTimes(this.prefix, limits.belowS - PERIOD_TOLERANCE_S);
    this.children = new ChildList(this.prefix.length + 1, units.events.length);
    this.firstPick = Int32Array.from(units.events, (list) => {
      const { action, from } = plan.events[list[0]!]!;
      return action === 'pick' && this.prefix.stations.isTimed[from] ? from : NONE;
    });
  }

  run(): SearchOutcome {
    const { prefix, times } = this;
    const { rootBoundS } = prefix;
    if (rootBoundS >= times.limitS) return { best: null, boundS: rootBoundS, complete: true, nodes: 0 };
    if (prefix.append(prefix.first)) {
      times.start();
      const bound = times.boundPrefix(rootBoundS);
      if (bound < times.limitS) this.descend(bound);
    }
    const bestS = this.best?.periodS ?? this.limits.belowS;
    const complete = !this.stopped;
    const boundS = complete ? bestS : Math.min(bestS, Math.max(rootBoundS, this.openBoundS));
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
      if (childS >= times.limitS) continue;
      if (this.stopped) {
        if (childS < this.openBoundS) this.openBoundS = childS;
        continue;
      }
      const unit = children.unitAt(depth, c);
      prefix.append(unit);
      times.at = times.slotOf(depth, unit);
      times.highS = savedHighS;
      this.descend(childS);
      prefix.removeLast();
    }
  }

  /** Bounds every unit that may come next; keeps those worth a look, sorted, and returns how many they are. */
  private boundChildren(boundS: number): number {
    const { prefix, times, children } = this;
    const { depth } = prefix;
    times.stepTo(boundS);
    let found = 0;
    const parentAt = times.at;
    const { count } = prefix.left;
    for (let unit = 0; unit < count.length; unit++) {
      if (count[unit] === 0 || this.isTooLate(unit, parentAt)) continue;
      if (!prefix.append(unit)) continue;
      const childAt = times.slotOf(depth, unit);
      times.enter(childAt, parentAt);
      const childS = times.boundPrefix(boundS);
      if (childS < times.limitS)
        children.insert(depth, found++, unit, childS, times.time[childAt + prefix.top - 1]! + prefix.restS());
      prefix.removeLast();
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
    const { limitS } = times;
    if (limitS === Number.POSITIVE_INFINITY) return false;
    const at = parentAt + prefix.top - 1;
    if (times.endsHigh[at]! < 0) return false;
    const last = prefix.order[prefix.depth - 1]!;
    const wayS = prefix.units.wayS[last * this.firstPick.length + unit]!;
    let startS = times.timeHigh[at]! + prefix.lastOwnS(last) + wayS;
    const node = this.firstPick[unit]!;
    if (node !== NONE) startS = Math.max(startS, this.readyHighS(node, parentAt));
    return startS + prefix.left.fromNextS(unit) > limitS + 1e-9 * (1 + limitS);
  }

  /** Earliest end of the process that the next pick at this node takes, where its place is in the prefix. */
  private readyHighS(node: number, parentAt: number): number {
    const { stations } = this.prefix;
    const { endsHigh, timeHigh } = this.times;
    const visit = stations.visitInside(node);
    if (visit === NONE) return Number.NEGATIVE_INFINITY;
    const at = parentAt + stations.placeAt[visit]!;
    return endsHigh[at]! < 0 ? Number.NEGATIVE_INFINITY : timeHigh[at]! + stations.readyS[visit]!;
  }

  private countNodes(found: number): void {
    this.nodes += Math.max(1, found);
    if (this.nodes >= this.limits.nodes) this.stopped = true;
    if ((this.nodes & 255) < found && Date.now() > this.limits.untilMs) this.stopped = true;
  }

  private finish(): void {
    const { plan, order, units } = this.prefix;
    const result = timeOrder(
      plan,
      [...order].flatMap((unit) => units.events[unit]!),
    );
    // To time an order of large batches can take as long as thousands of nodes.
    if (Date.now() > this.limits.untilMs) this.stopped = true;
    if (result === null || result.periodS >= this.times.limitS) return;
    this.best = result;
    this.times.limitS = result.periodS - PERIOD_TOLERANCE_S;
    if (this.limits.anyOrder) this.stopped = true;
  }
}
