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
import { type EvaluatedOrder, evaluateOrder } from './evaluate-order.js';
import { NONE, PERIOD_TOLERANCE_S } from './order-prefix.js';
import { periodBound } from './period-bound.js';
import { plainOrder } from './plain-order.js';
import type { Plan } from './plan.js';
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
  readonly best: EvaluatedOrder | null;
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
function unsearched(plan: Plan, limits: SearchLimits): EvaluatedOrder | null {
  const result = evaluateOrder(plan, plainOrder(plan));
  return result.feasible && result.periodS < limits.belowS - PERIOD_TOLERANCE_S ? result : null;
}

class OrderSearch extends PrefixTimes {
  private readonly saved: Float64Array;
  private readonly savedEnds: Int32Array;
  private readonly savedHigh: Float64Array;
  private readonly savedEndsHigh: Int32Array;
  private readonly childBound: Float64Array;
  private readonly childEnd: Float64Array;
  private readonly childUnit: Int32Array;
  /** Best period for which `timeHigh` stands; period at which `time` stands. */
  private highS = Number.POSITIVE_INFINITY;
  private timesAtS = 0;
  private best: EvaluatedOrder | null = null;
  private nodes = 0;
  private stopped = false;
  private openBoundS = Number.POSITIVE_INFINITY;

  constructor(
    plan: Plan,
    units: Units,
    private readonly limits: SearchLimits,
  ) {
    super(plan, units, limits.belowS, Math.min(TOUR_TABLE_LIMIT, limits.nodes * ENTRIES_A_NODE));
    // One slot a child, and one for the parent, at every depth.
    const slots = (this.length + 1) * (this.n + 1) * this.positions;
    this.saved = new Float64Array(slots);
    this.savedEnds = new Int32Array(slots);
    this.savedHigh = new Float64Array(slots);
    this.savedEndsHigh = new Int32Array(slots);
    this.childBound = new Float64Array((this.length + 1) * this.n);
    this.childEnd = new Float64Array((this.length + 1) * this.n);
    this.childUnit = new Int32Array((this.length + 1) * this.n);
  }

  run(): SearchOutcome {
    if (this.rootBoundS >= this.bestS - PERIOD_TOLERANCE_S) {
      return { best: null, boundS: this.rootBoundS, complete: true, nodes: 0 };
    }
    const undoMark = this.undoTop;
    if (this.append(this.first)) {
      this.startAfresh();
      const bound = this.boundPrefix(this.rootBoundS);
      if (bound < this.bestS - PERIOD_TOLERANCE_S) this.descend(bound);
      this.removeLast(undoMark);
    }
    const complete = !this.stopped;
    const boundS = complete
      ? Math.min(this.bestS, Number.POSITIVE_INFINITY)
      : Math.min(this.bestS, Math.max(this.rootBoundS, this.openBoundS));
    return { best: this.best, boundS, complete, nodes: this.nodes };
  }

  private startAfresh(): void {
    for (const time of [this.time, this.timeHigh]) {
      time.fill(Number.NEGATIVE_INFINITY);
      time[0] = 0;
    }
    this.ends.fill(0);
    this.endsHigh.fill(0);
    this.highS = this.bestS;
  }

  private descend(boundS: number): void {
    if (this.depth === this.length) {
      this.finish();
      return;
    }
    const depth = this.depth;
    const base = depth * this.n;
    const found = this.boundChildren(boundS, base);
    const savedHighS = this.highS;
    for (let c = 0; c < found; c++) {
      const slot = base + c;
      const childS = this.childBound[slot]!;
      if (childS >= this.bestS - PERIOD_TOLERANCE_S) continue;
      if (this.stopped) {
        if (childS < this.openBoundS) this.openBoundS = childS;
        continue;
      }
      const unit = this.childUnit[slot]!;
      const undoMark = this.undoTop;
      const arcMark = this.arcs;
      this.append(unit);
      this.restore((depth * (this.n + 1) + unit) * this.positions);
      this.highS = savedHighS;
      this.descend(childS);
      this.giveBack(unit);
      this.removeLast(undoMark);
      this.arcs = arcMark;
    }
  }

  private keep(at: number): void {
    for (let i = 0; i < this.top; i++) {
      this.saved[at + i] = this.time[i]!;
      this.savedEnds[at + i] = this.ends[i]!;
      this.savedHigh[at + i] = this.timeHigh[i]!;
      this.savedEndsHigh[at + i] = this.endsHigh[i]!;
    }
  }

  private restore(at: number): void {
    for (let i = 0; i < this.top; i++) {
      this.time[i] = this.saved[at + i]!;
      this.ends[i] = this.savedEnds[at + i]!;
      this.timeHigh[i] = this.savedHigh[at + i]!;
      this.endsHigh[i] = this.savedEndsHigh[at + i]!;
    }
  }

  /** Brings the times of the longest period of interest down to the best found meanwhile. */
  private lowerHigh(): void {
    if (this.highS === this.bestS) return;
    if (this.highS < Number.POSITIVE_INFINITY)
      this.moveTo(this.timeHigh, this.endsHigh, this.bestS - this.highS);
    else {
      // Nothing was kept for an endless period: the times at the bound are walks as good as any.
      for (let i = 0; i < this.top; i++) {
        this.timeHigh[i] = this.time[i]!;
        this.endsHigh[i] = this.ends[i]!;
      }
      this.moveTo(this.timeHigh, this.endsHigh, this.bestS - PERIOD_TOLERANCE_S - this.timesAtS);
    }
    this.highS = this.bestS;
  }

  /** Bounds every unit that may come next; keeps those worth a look, sorted, and returns how many they are. */
  private boundChildren(boundS: number, base: number): number {
    const { depth, top } = this;
    this.timesAtS = boundS;
    this.lowerHigh();
    let found = 0;
    const block = depth * (this.n + 1) * this.positions;
    const parentAt = block + this.n * this.positions;
    this.keep(parentAt);
    for (let unit = 0; unit < this.n; unit++) {
      if (this.left[unit] === 0 || this.isTooLate(unit, parentAt)) continue;
      this.chainBoundS = 0;
      const undoMark = this.undoTop;
      const arcMark = this.arcs;
      if (!this.append(unit)) {
        this.removeLast(undoMark);
        this.arcs = arcMark;
        continue;
      }
      const newTop = this.top;
      this.top = top;
      this.restore(parentAt);
      this.top = newTop;
      for (let i = top; i < newTop; i++) {
        this.time[i] = Number.NEGATIVE_INFINITY;
        this.timeHigh[i] = Number.NEGATIVE_INFINITY;
      }
      const childS = this.boundPrefix(boundS);
      if (childS < this.bestS - PERIOD_TOLERANCE_S) {
        this.keep(block + unit * this.positions);
        this.insertChild(base, found++, unit, childS, this.time[this.top - 1]! + this.restS(unit));
      }
      this.giveBack(unit);
      this.removeLast(undoMark);
      this.arcs = arcMark;
    }
    this.countNodes(found);
    return found;
  }

  /**
   * Quick test before anything is built: the unit's earliest start and the robot work after it pass the limit.
   * `parentAt` is where the times of the prefix are kept.
   */
  private isTooLate(unit: number, parentAt: number): boolean {
    const highS = this.bestS - PERIOD_TOLERANCE_S;
    if (highS === Number.POSITIVE_INFINITY) return false;
    const at = parentAt + this.top - 1;
    if (this.savedEndsHigh[at]! < 0) return false;
    const last = this.prefix[this.depth - 1]!;
    let startS = this.savedHigh[at]! + this.lastOwnS[last]! + this.units.wayS[last * this.n + unit]!;
    const node = this.timedPick[unit]!;
    if (node !== NONE) startS = Math.max(startS, this.readyHighS(node, parentAt));
    return startS + this.restAfterS(unit) > highS + 1e-9 * (1 + highS);
  }

  /** Earliest end of the process that the next pick at this node takes, where its place is in the prefix. */
  private readyHighS(node: number, parentAt: number): number {
    const picks = this.picksDone[node]!;
    const places = this.placesDone[node]!;
    if (places === 0) return Number.NEGATIVE_INFINITY;
    const link = this.links[node]![this.nodeNeed[node]! > 0 ? 1 : 0]!.byPick[picks]![0]!;
    if (link.place >= places || link.lag !== 0) return Number.NEGATIVE_INFINITY;
    const position = this.placeAt[this.nodeBase[node]! + link.place]!;
    if (this.savedEndsHigh[parentAt + position]! < 0) return Number.NEGATIVE_INFINITY;
    const place = this.placeEventAt(position, node);
    const placedS =
      this.savedHigh[parentAt + position]! + this.offsetS[place]! + this.plan.events[place]!.robotS;
    return placedS + this.plan.nodes[node]!.processS;
  }

  private insertChild(base: number, count: number, unit: number, boundS: number, endS: number): void {
    let slot = base + count;
    while (
      slot > base &&
      (this.childBound[slot - 1]! > boundS ||
        (this.childBound[slot - 1]! === boundS && this.childEnd[slot - 1]! > endS))
    ) {
      this.childBound[slot] = this.childBound[slot - 1]!;
      this.childEnd[slot] = this.childEnd[slot - 1]!;
      this.childUnit[slot] = this.childUnit[slot - 1]!;
      slot--;
    }
    this.childBound[slot] = boundS;
    this.childEnd[slot] = endS;
    this.childUnit[slot] = unit;
  }

  private countNodes(found: number): void {
    this.nodes += Math.max(1, found);
    if (this.nodes >= this.limits.nodes) this.stopped = true;
    if ((this.nodes & 255) < found && Date.now() > this.limits.untilMs) this.stopped = true;
  }

  private finish(): void {
    const order: number[] = [];
    for (let i = 0; i < this.length; i++) order.push(...this.units.events[this.prefix[i]!]!);
    const result = evaluateOrder(this.plan, order);
    if (!result.feasible || result.periodS >= this.bestS - PERIOD_TOLERANCE_S) return;
    this.best = result;
    this.bestS = result.periodS;
    if (this.limits.anyOrder) this.stopped = true;
  }
}
