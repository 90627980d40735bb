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
import { type FifoLink, fifoLinks } from './fifo-links.js';
import { stationBound } from './period-bound.js';
import type { Plan } from './plan.js';
import { type TourTable, tourTable } from './tour-table.js';
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

/** Differences in a period below this are not told apart. */
export const PERIOD_TOLERANCE_S = 1e-7;

/**
 * @param plan what the period has to do
 * @param limits when to stop, and which periods are of interest
 * @param exchanges search only orders in which every machine is emptied and filled in one go (fewer, often the best;
 *   then `complete` speaks of those orders alone)
 */
export function searchOrder(plan: Plan, limits: SearchLimits, exchanges = false): SearchOutcome {
  const units = exchanges ? exchangeUnits(plan) : moveUnits(plan);
  if (units === null) return { best: null, boundS: 0, complete: false, nodes: 0 };
  return new OrderSearch(plan, limits, units).run();
}

/** Links of a node by place and by pick, for one start state. */
interface LinkTable {
  readonly byPlace: readonly (readonly FifoLink[])[];
  readonly byPick: readonly (readonly FifoLink[])[];
}

function linkTable(visits: number, inside: number, batch: number, loaded: number): LinkTable {
  const byPlace: FifoLink[][] = Array.from({ length: visits }, () => []);
  const byPick: FifoLink[][] = Array.from({ length: visits }, () => []);
  for (const link of fifoLinks(visits, inside, batch, loaded)) {
    byPlace[link.place]!.push(link);
    byPick[link.pick]!.push(link);
  }
  return { byPlace, byPick };
}

const NONE = -1;

/** Sweeps after which warm times that do not come to rest are given up for a run that watches for circuits. */
const WARM_SWEEPS = 6;

class OrderSearch {
  private readonly n: number;
  private readonly length: number;
  /**
   * Events at which the robot may do well to wait with a part in hand begin a position of their own. That can help
   * only where both ends of a carry have a longest wait: the part must leave in time, and must not arrive too soon.
   */
  private readonly opens: Uint8Array;
  private readonly positionStartS: Float64Array;
  private readonly positions: number;
  private readonly lastOwnS: Float64Array;
  private readonly first: number;
  private readonly table: TourTable | null;
  private readonly looseIn: Float64Array;
  private readonly left: Int32Array;
  private tableState = 0;
  private looseRest = 0;

  // Counts of parts since the period start, with an undo stack.
  private readonly nodeCount: Int32Array;
  private readonly nodeNeed: Int32Array;
  private readonly roomCount: Int32Array;
  private readonly roomTop: Int32Array;
  private readonly roomNeed: Int32Array;
  private readonly roomTouched: Int32Array;
  private readonly undo: Int32Array;
  private undoTop = 0;

  // Links of timed nodes whose start state is known from the first event there (capacity 1).
  private readonly timed: Uint8Array;
  private readonly links: (readonly [LinkTable, LinkTable] | null)[];
  private readonly placesDone: Int32Array;
  private readonly picksDone: Int32Array;
  private readonly placeAt: Int32Array;
  private readonly pickAt: Int32Array;
  private readonly nodeBase: Int32Array;

  // Where each event sits in its unit.
  private readonly timeOffsetS: Float64Array;
  /** The same from the event's position in the graph: 0 where each event has its own. */
  private readonly offsetS: Float64Array;
  private readonly leadS: Float64Array;
  private readonly tailS: Float64Array;
  /** Robot time of a place at each node, the least and the most of its events. */
  private readonly leastPlaceS: Float64Array;
  private readonly mostPlaceS: Float64Array;
  private readonly visits: Int32Array;

  // The prefix: units in order, arcs, potentials by depth.
  private readonly prefix: Int32Array;
  private depth = 0;
  /** Unit of each position of the graph, and the event there (its first one, where a unit is one position). */
  private readonly unitAt: Int32Array;
  private readonly startOf: Int32Array;
  private top = 0;
  private readonly arcFrom: Int32Array;
  private readonly arcTo: Int32Array;
  private readonly arcW: Float64Array;
  private readonly arcK: Int32Array;
  private arcs = 0;
  private readonly time: Float64Array;
  /** Period ends on the walk that gives each time. */
  private readonly ends: Int32Array;
  /** The same at the longest period of interest: what is impossible there is cut before it is bounded. */
  private readonly timeHigh: Float64Array;
  private readonly endsHigh: Int32Array;
  private readonly by: Int32Array;
  private readonly mark: Int32Array;
  private readonly saved: Float64Array;
  private readonly savedEnds: Int32Array;
  private readonly savedHigh: Float64Array;
  private readonly savedEndsHigh: Int32Array;
  private readonly childBound: Float64Array;
  private readonly childEnd: Float64Array;
  private readonly childUnit: Int32Array;
  private readonly timedNodes: Int32Array;
  /** The timed node from which each unit picks first, or NONE. */
  private readonly timedPick: Int32Array;

  private bestS: number;
  /** Best period for which `timeHigh` stands; period at which `time` stands. */
  private highS = Number.POSITIVE_INFINITY;
  private timesAtS = 0;
  /** Robot time along the order from the first event to each position. */
  private readonly chainS: Float64Array;
  /** The greatest ratio of the circuits that one arc closes with the chain; Infinity where one is hopeless. */
  private chainBoundS = 0;
  private best: EvaluatedOrder | null = null;
  private nodes = 0;
  private stopped = false;
  private openBoundS = Number.POSITIVE_INFINITY;
  private readonly rootBoundS: number;

  constructor(
    private readonly plan: Plan,
    private readonly limits: SearchLimits,
    private readonly units: Units,
  ) {
    this.n = this.units.events.length;
    this.length = this.units.counts.reduce((sum, c) => sum + c, 0);
    this.timeOffsetS = units.offsetS;
    this.opens = new Uint8Array(plan.events.length);
    this.positionStartS = new Float64Array(plan.events.length);
    for (const list of this.units.events) this.layPositions(list);
    this.positions = this.units.counts.reduce((sum, c, u) => sum + c * this.positionsOf(u), 0);
    this.lastOwnS = Float64Array.from(
      this.units.events,
      (list, u) => this.units.ownS[u]! - this.positionStartS[list[list.length - 1]!]!,
    );
    this.first = firstUnit(plan, this.units);
    this.left = Int32Array.from(this.units.counts);
    this.left[this.first]!--;
    this.table = tourTable(this.left, this.units.ownS, this.units.wayS, this.first);
    this.looseIn = this.looseWays();
    if (this.table) for (let u = 0; u < this.n; u++) this.tableState += this.left[u]! * this.table.stride[u]!;
    for (let u = 0; u < this.n; u++)
      this.looseRest += this.left[u]! * (this.units.ownS[u]! + this.looseIn[u]!);

    const nodes = plan.nodes.length;
    this.nodeCount = new Int32Array(nodes);
    this.nodeNeed = new Int32Array(nodes);
    this.roomCount = new Int32Array(plan.rooms.length);
    this.roomTop = new Int32Array(plan.rooms.length);
    this.roomNeed = new Int32Array(plan.rooms.length);
    this.roomTouched = new Int32Array(plan.rooms.length);
    this.undo = new Int32Array((this.length + 2) * 64);
    this.timed = Uint8Array.from(plan.nodes, (node) => Number(this.isLinked(node)));
    this.timedNodes = Int32Array.from(plan.nodes.flatMap((_, i) => (this.timed[i] ? [i] : [])));
    this.timedPick = Int32Array.from(this.units.events, (list) => {
      const event = plan.events[list[0]!]!;
      return event.action === 'pick' && this.timed[event.from] ? event.from : NONE;
    });
    this.links = plan.nodes.map((node, i) =>
      this.timed[i] ? ([linkTable(node.visits, 0, 1, 0), linkTable(node.visits, 1, 1, 0)] as const) : null,
    );
    this.placesDone = new Int32Array(nodes);
    this.picksDone = new Int32Array(nodes);
    this.nodeBase = new Int32Array(nodes);
    let base = 0;
    for (let i = 0; i < nodes; i++) {
      this.nodeBase[i] = base;
      base += plan.nodes[i]!.visits;
    }
    this.placeAt = new Int32Array(base);
    this.pickAt = new Int32Array(base);

    this.offsetS = this.timeOffsetS.map((at, e) => at - this.positionStartS[e]!);
    const placeUnits = plan.nodes.map((_, node) => this.unitsThat((e) => e.to === node));
    const pickUnits = plan.nodes.map((_, node) => this.unitsThat((e) => e.from === node));
    this.leadS = this.leadTimes(placeUnits, pickUnits);
    this.tailS = this.tailTimes(placeUnits, pickUnits);

    const placeTimes = plan.nodes.map((_, node) =>
      plan.events.flatMap((e) => (e.to === node ? [e.robotS] : [])),
    );
    this.leastPlaceS = Float64Array.from(placeTimes, (times) => Math.min(...times));
    this.mostPlaceS = Float64Array.from(placeTimes, (times) => Math.max(...times));
    this.visits = Int32Array.from(plan.nodes, (node) => node.visits);
    this.prefix = new Int32Array(this.length);
    this.startOf = new Int32Array(this.length);
    this.unitAt = new Int32Array(this.positions);
    const maxArcs = this.positions * 8 + nodes * 8 + 16;
    this.arcFrom = new Int32Array(maxArcs);
    this.arcTo = new Int32Array(maxArcs);
    this.arcW = new Float64Array(maxArcs);
    this.arcK = new Int32Array(maxArcs);
    this.time = new Float64Array(this.positions);
    this.by = new Int32Array(this.positions);
    this.mark = new Int32Array(this.positions);
    this.chainS = new Float64Array(this.positions);
    this.ends = new Int32Array(this.positions);
    this.timeHigh = new Float64Array(this.positions);
    this.endsHigh = new Int32Array(this.positions);
    // One slot a child, and one for the parent, at every depth.
    const slots = (this.length + 1) * (this.n + 1) * this.positions;
    this.saved = new Float64Array(slots);
    this.savedEnds = new Int32Array(slots);
    this.savedHigh = new Float64Array(slots);
    this.savedEndsHigh = new Int32Array(slots);
    this.childBound = new Float64Array((this.length + 1) * this.n);
    this.childEnd = new Float64Array((this.length + 1) * this.n);
    this.childUnit = new Int32Array((this.length + 1) * this.n);
    this.bestS = limits.belowS;
    this.rootBoundS = this.rootBound();
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

  // --- set-up ---------------------------------------------------------------------------------------------------

  private isLinked(node: Plan['nodes'][number]): boolean {
    if (node.kind !== 'inside' || node.batch > 1) return false;
    if (this.plan.rooms[node.room]!.capacity !== 1) return false;
    return node.processS > 0 || node.maxWaitS !== null;
  }

  private layPositions(list: readonly number[]): void {
    let startS = 0;
    for (const [i, e] of list.entries()) {
      if (i > 0 && this.mayWaitBefore(list, i)) {
        this.opens[e] = 1;
        startS = this.timeOffsetS[e]!;
      }
      this.positionStartS[e] = startS;
    }
  }

  private mayWaitBefore(list: readonly number[], index: number): boolean {
    const { nodes, events } = this.plan;
    const event = events[list[index]!]!;
    // A carry waits once, before its last event; a unit of several carries may wait before each of them.
    if (event.action === 'hold') return false;
    const limited = (node: number): boolean => nodes[node]!.maxWaitS !== null;
    if (list.length > this.plan.carries[event.carry]!.events.length)
      return nodes.some((node) => node.maxWaitS !== null);
    return limited(events[list[0]!]!.from) && limited(event.to);
  }

  private positionsOf(unit: number): number {
    return this.units.events[unit]!.reduce((sum, e) => sum + this.opens[e]!, 1);
  }

  private unitsThat(test: (event: Plan['events'][number]) => boolean): number[] {
    return this.units.events.flatMap((list, u) => (list.some((e) => test(this.plan.events[e]!)) ? [u] : []));
  }

  /** leadS[last * 2N + 2 node + (0 pick, 1 place)]: least time from the start of unit `last` to that event's start. */
  private leadTimes(
    placeUnits: readonly (readonly number[])[],
    pickUnits: readonly (readonly number[])[],
  ): Float64Array {
    const nodes = this.plan.nodes.length;
    const lead = new Float64Array(this.n * nodes * 2).fill(Number.POSITIVE_INFINITY);
    for (let last = 0; last < this.n; last++)
      for (let node = 0; node < nodes; node++)
        for (const [side, list] of [pickUnits[node]!, placeUnits[node]!].entries())
          for (const u of list) {
            const offset = this.eventOffset(u, node, side);
            const at = last * nodes * 2 + node * 2 + side;
            const value = this.lastOwnS[last]! + this.units.shortestS[last * this.n + u]! + offset;
            if (value < lead[at]!) lead[at] = value;
          }
    return lead;
  }

  /** tailS[2 node + side]: least time from that event's start to the start of the first unit of the next period. */
  private tailTimes(
    placeUnits: readonly (readonly number[])[],
    pickUnits: readonly (readonly number[])[],
  ): Float64Array {
    const nodes = this.plan.nodes.length;
    const tail = new Float64Array(nodes * 2).fill(Number.POSITIVE_INFINITY);
    for (let node = 0; node < nodes; node++)
      for (const [side, list] of [pickUnits[node]!, placeUnits[node]!].entries())
        for (const u of list) {
          const value =
            this.units.ownS[u]! -
            this.eventOffset(u, node, side) +
            this.units.shortestS[u * this.n + this.first]!;
          if (value < tail[node * 2 + side]!) tail[node * 2 + side] = value;
        }
    return tail;
  }

  private eventOffset(unit: number, node: number, side: number): number {
    for (const e of this.units.events[unit]!) {
      const event = this.plan.events[e]!;
      if ((side === 0 ? event.from : event.to) === node) return this.timeOffsetS[e]!;
    }
    return 0;
  }

  private looseWays(): Float64Array {
    const least = new Float64Array(this.n).fill(Number.POSITIVE_INFINITY);
    for (let u = 0; u < this.n; u++)
      for (let v = 0; v < this.n; v++) {
        if (u === v && this.units.counts[u]! < 2) continue;
        least[u] = Math.min(least[u]!, this.units.wayS[v * this.n + u]!);
      }
    return least;
  }

  /** No order can be faster than the robot's own work or any station's place-process-pick-replace. */
  private rootBound(): number {
    const robot = this.table
      ? this.table.leastS[this.tableState * this.n + this.first]!
      : this.looseRest + this.units.ownS[this.first]! + this.looseIn[this.first]!;
    return Math.max(robot, ...this.plan.rooms.map((_, room) => stationBound(this.plan, room)));
  }

  // --- the prefix -----------------------------------------------------------------------------------------------

  /** Appends a unit when capacities and hands allow it; false (with nothing changed that undo does not mend) if not. */
  private append(unit: number): boolean {
    const events = this.units.events[unit]!;
    if (this.depth > 0) {
      const before = this.prefix[this.depth - 1]!;
      this.addStep(this.top, this.lastOwnS[before]! + this.wayBetween(before, unit));
    }
    this.prefix[this.depth] = unit;
    this.startOf[this.depth++] = this.top;
    this.unitAt[this.top] = unit;
    let position = this.top++;
    for (let i = 0; i < events.length; i++) {
      const event = this.plan.events[events[i]!]!;
      if (this.opens[events[i]!]) {
        this.unitAt[this.top++] = unit;
        this.addStep(++position, this.positionStartS[events[i]!]! - this.positionStartS[events[i - 1]!]!);
      }
      if (!this.takeFrom(event.from) || !this.putInto(event.to)) return false;
      if (this.timed[event.from]) this.linkPick(event.from, position);
      if (this.timed[event.to]) this.linkPlace(event.to, position);
    }
    if (this.depth > 1) {
      this.left[unit]!--;
      if (this.table) this.tableState -= this.table.stride[unit]!;
      this.looseRest -= this.units.ownS[unit]! + this.looseIn[unit]!;
    }
    return true;
  }

  private wayBetween(before: number, unit: number): number {
    if (this.units.whole) return this.units.wayS[before * this.n + unit]!;
    const from = this.plan.events[before]!.station;
    const to = this.plan.events[unit]!.station;
    if (from === to) return this.plan.indexS;
    // At least that many parts are in hand here; with none for certain, the quicker of both ways is the bound.
    const sure = this.roomCount[0]! + this.roomNeed[0]! > 0;
    const pair = from * this.plan.stations.length + to;
    return sure ? this.plan.loadedS[pair]! : Math.min(this.plan.emptyS[pair]!, this.plan.loadedS[pair]!);
  }

  private save(kind: number, index: number, value: number): void {
    this.undo[this.undoTop++] = kind;
    this.undo[this.undoTop++] = index;
    this.undo[this.undoTop++] = value;
  }

  private takeFrom(node: number): boolean {
    const room = this.plan.nodes[node]!.room;
    if (room < 0) return true;
    this.save(0, node, this.nodeCount[node]!);
    this.save(1, room, this.roomCount[room]!);
    this.nodeCount[node]!--;
    this.roomCount[room]!--;
    this.touch(room);
    if (-this.nodeCount[node]! > this.nodeNeed[node]!) {
      this.save(2, node, this.nodeNeed[node]!);
      this.save(3, room, this.roomNeed[room]!);
      this.nodeNeed[node]!++;
      this.roomNeed[room]!++;
    }
    return this.roomNeed[room]! + this.roomTop[room]! <= this.plan.rooms[room]!.capacity;
  }

  private putInto(node: number): boolean {
    const room = this.plan.nodes[node]!.room;
    if (room < 0) return true;
    this.save(0, node, this.nodeCount[node]!);
    this.save(1, room, this.roomCount[room]!);
    this.nodeCount[node]!++;
    this.roomCount[room]!++;
    this.touch(room);
    if (this.roomCount[room]! > this.roomTop[room]!) {
      this.save(4, room, this.roomTop[room]!);
      this.roomTop[room] = this.roomCount[room]!;
    }
    return this.roomNeed[room]! + this.roomTop[room]! <= this.plan.rooms[room]!.capacity;
  }

  private touch(room: number): void {
    if (this.roomTouched[room]) return;
    this.save(5, room, 0);
    this.roomTouched[room] = 1;
  }

  private linkPick(node: number, position: number): void {
    const index = this.picksDone[node]!;
    this.save(6, node, index);
    this.picksDone[node] = index + 1;
    this.pickAt[this.nodeBase[node]! + index] = position;
    const table = this.links[node]![this.nodeNeed[node]! > 0 ? 1 : 0]!;
    const list = table.byPick[index]!;
    for (let i = 0; i < list.length; i++) {
      const link = list[i]!;
      if (link.place < this.placesDone[node]!)
        this.addLink(node, this.placeAt[this.nodeBase[node]! + link.place]!, position, link.lag);
    }
  }

  private linkPlace(node: number, position: number): void {
    const index = this.placesDone[node]!;
    this.save(7, node, index);
    this.placesDone[node] = index + 1;
    this.placeAt[this.nodeBase[node]! + index] = position;
    const table = this.links[node]![this.nodeNeed[node]! > 0 ? 1 : 0]!;
    const list = table.byPlace[index]!;
    for (let i = 0; i < list.length; i++) {
      const link = list[i]!;
      if (link.pick < this.picksDone[node]!)
        this.addLink(node, position, this.pickAt[this.nodeBase[node]! + link.pick]!, link.lag);
    }
  }

  private placeEventAt(position: number, node: number): number {
    const events = this.units.events[this.unitAt[position]!]!;
    for (let i = events.length - 1; i >= 0; i--)
      if (this.plan.events[events[i]!]!.to === node) return events[i]!;
    return events[0]!;
  }

  private pickOffsetAt(position: number, node: number): number {
    const events = this.units.events[this.unitAt[position]!]!;
    for (let i = 0; i < events.length; i++)
      if (this.plan.events[events[i]!]!.from === node) return this.offsetS[events[i]!]!;
    return 0;
  }

  private addLink(node: number, placePosition: number, pickPosition: number, lag: number): void {
    const place = this.placeEventAt(placePosition, node);
    const spec = this.plan.nodes[node]!;
    const weight = this.offsetS[place]! + this.plan.events[place]!.robotS + spec.processS;
    const offset = this.pickOffsetAt(pickPosition, node);
    this.addArc(placePosition, pickPosition, weight - offset, lag);
    if (spec.maxWaitS !== null)
      this.addArc(pickPosition, placePosition, offset - weight - spec.maxWaitS, -lag);
  }

  private addArc(from: number, to: number, weight: number, periods: number): void {
    if (to <= from) this.judgeBack(this.chainS[from]! - this.chainS[to]! + weight, periods);
    const a = this.arcs++;
    this.arcFrom[a] = from;
    this.arcTo[a] = to;
    this.arcW[a] = weight;
    this.arcK[a] = periods;
  }

  /** The robot's own chain: from the position before to `position`. */
  private addStep(position: number, stepS: number): void {
    this.chainS[position] = this.chainS[position - 1]! + stepS;
    this.addArc(position - 1, position, stepS, 0);
  }

  /** An arc backwards closes a circuit with the robot's own chain; its ratio is a bound at once. */
  private judgeBack(weight: number, periods: number): void {
    if (periods > 0) {
      const ratioS = weight / periods;
      if (ratioS > this.chainBoundS) this.chainBoundS = ratioS;
    } else if (weight > 1e-9 * (1 + this.rootBoundS)) this.chainBoundS = Number.POSITIVE_INFINITY;
  }

  /** Takes the last unit off again: counts, links and the arcs that came with it. */
  private removeLast(undoMark: number): void {
    while (this.undoTop > undoMark) {
      this.undoTop -= 3;
      const kind = this.undo[this.undoTop]!;
      const index = this.undo[this.undoTop + 1]!;
      const value = this.undo[this.undoTop + 2]!;
      if (kind === 0) this.nodeCount[index] = value;
      else if (kind === 1) this.roomCount[index] = value;
      else if (kind === 2) this.nodeNeed[index] = value;
      else if (kind === 3) this.roomNeed[index] = value;
      else if (kind === 4) this.roomTop[index] = value;
      else if (kind === 5) this.roomTouched[index] = value;
      else if (kind === 6) this.picksDone[index] = value;
      else this.placesDone[index] = value;
    }
    this.top = this.startOf[--this.depth]!;
  }

  private giveBack(unit: number): void {
    this.left[unit]!++;
    if (this.table) this.tableState += this.table.stride[unit]!;
    this.looseRest += this.units.ownS[unit]! + this.looseIn[unit]!;
  }

  // --- bounding -------------------------------------------------------------------------------------------------

  /**
   * Least period of the prefix from `fromS` up; Infinity when no period below the best can mend it. Leaves the times
   * at that period (`time`) and at the longest period of interest (`timeHigh`).
   */
  private boundPrefix(fromS: number): number {
    const own = this.arcs;
    const periodS = this.addOpenArcs() ? this.boundArcs(fromS) : Number.POSITIVE_INFINITY;
    this.arcs = own;
    return periodS;
  }

  private boundArcs(fromS: number): number {
    const limitS = this.bestS - PERIOD_TOLERANCE_S;
    if (limitS < Number.POSITIVE_INFINITY) {
      const met = this.relax(this.timeHigh, this.endsHigh, limitS);
      // A closed walk that is positive at the longest period of interest is so at every shorter one.
      if (met === 1 && this.endsHigh[0]! >= 0) return Number.POSITIVE_INFINITY;
      if (met !== 0) return this.boundAfresh(fromS);
    }
    let periodS = fromS;
    if (this.chainBoundS > fromS + 1e-9 * (1 + fromS)) {
      this.time.fill(Number.NEGATIVE_INFINITY, 0, this.top);
      this.time[0] = 0;
      this.ends[0] = 0;
      periodS = this.chainBoundS;
    }
    for (;;) {
      const met = this.relax(this.time, this.ends, periodS);
      if (met === 0) return periodS;
      const ends = this.ends[0]!;
      if (met === 1 && ends === 0) return Number.POSITIVE_INFINITY;
      if (met === 2 || ends < 0) return this.boundAfresh(fromS);
      const nextS = periodS + this.time[0]! / ends;
      if (nextS >= limitS) return Number.POSITIVE_INFINITY;
      // Walks through the first event hold that closed walk; at the new period start from plain ones.
      this.time.fill(Number.NEGATIVE_INFINITY, 0, this.top);
      this.time[0] = 0;
      this.ends[0] = 0;
      periodS = nextS;
    }
  }

  /** Times at a period longer by `byS`, along the same walks. */
  private moveTo(time: Float64Array, ends: Int32Array, byS: number): void {
    for (let i = 0; i < this.top; i++) time[i] = time[i]! - ends[i]! * byS;
  }

  /**
   * Longest paths from the first event, from valid times on. Returns 0 when they stand, 1 when the first event would
   * have to start after itself (time[0] > 0), 2 when they do not come to rest.
   */
  private relax(time: Float64Array, ends: Int32Array, periodS: number): 0 | 1 | 2 {
    const { arcFrom, arcTo, arcW, arcK, arcs } = this;
    const tolerance = 1e-9 * (1 + periodS);
    for (let sweep = 0; sweep < WARM_SWEEPS; sweep++) {
      let changed = false;
      for (let a = 0; a < arcs; a++) {
        const from = arcFrom[a]!;
        const to = arcTo[a]!;
        const reach = time[from]! + arcW[a]! - arcK[a]! * periodS;
        if (reach > time[to]! + tolerance) {
          time[to] = reach;
          ends[to] = ends[from]! + arcK[a]!;
          if (to === 0) return 1;
          changed = true;
        }
      }
      if (!changed) return 0;
    }
    return 2;
  }

  /** The careful way: from no times at all, with the circuits themselves. Needed where longest waits take part. */
  private boundAfresh(fromS: number): number {
    if (this.isHopeless()) return Number.POSITIVE_INFINITY;
    let periodS = fromS;
    for (;;) {
      const circuit = this.relaxAfresh(periodS);
      if (circuit === NONE) break;
      let weight = 0;
      let periods = 0;
      let node = circuit;
      do {
        const a = this.by[node]!;
        weight += this.arcW[a]!;
        periods += this.arcK[a]!;
        node = this.arcFrom[a]!;
      } while (node !== circuit);
      if (periods <= 0) return Number.POSITIVE_INFINITY;
      const nextS = weight / periods;
      if (nextS >= this.bestS - PERIOD_TOLERANCE_S) return Number.POSITIVE_INFINITY;
      if (nextS <= periodS) break;
      periodS = nextS;
    }
    // Walks valid at any period: what was found here, moved to the longest period of interest.
    for (let i = 0; i < this.top; i++) {
      this.timeHigh[i] = this.time[i]!;
      this.endsHigh[i] = this.ends[i]!;
    }
    const limitS = this.bestS - PERIOD_TOLERANCE_S;
    if (limitS < Number.POSITIVE_INFINITY) this.moveTo(this.timeHigh, this.endsHigh, limitS - periodS);
    return periodS;
  }

  /** A circuit that is positive at the longest period of interest and does not ask for a shorter one. */
  private isHopeless(): boolean {
    const limitS = this.bestS - PERIOD_TOLERANCE_S;
    if (limitS === Number.POSITIVE_INFINITY) return false;
    const circuit = this.relaxAfresh(limitS);
    if (circuit === NONE) return false;
    let periods = 0;
    let node = circuit;
    do {
      periods += this.arcK[this.by[node]!]!;
      node = this.arcFrom[this.by[node]!]!;
    } while (node !== circuit);
    return periods >= 0;
  }

  /** Longest paths from the first event alone. Returns NONE, or a node on a positive circuit. */
  private relaxAfresh(periodS: number): number {
    const { time, ends } = this;
    const depth = this.top;
    const tolerance = 1e-9 * (1 + periodS);
    time.fill(Number.NEGATIVE_INFINITY, 0, depth);
    ends.fill(0, 0, depth);
    time[0] = 0;
    this.by.fill(NONE, 0, depth);
    for (let sweep = 0; ; sweep++) {
      let changed = false;
      for (let a = 0; a < this.arcs; a++) {
        const from = this.arcFrom[a]!;
        const to = this.arcTo[a]!;
        const reach = time[from]! + this.arcW[a]! - this.arcK[a]! * periodS;
        if (reach > time[to]! + tolerance) {
          time[to] = reach;
          ends[to] = ends[from]! + this.arcK[a]!;
          this.by[to] = a;
          changed = true;
          if (to === 0) {
            const met = this.circuitFrom(0);
            if (met !== NONE) return met;
          }
        }
      }
      if (!changed) return NONE;
      if (sweep >= 2) {
        const met = this.anyCircuit();
        if (met !== NONE) return met;
      }
    }
  }

  private circuitFrom(start: number): number {
    let node = start;
    for (let steps = 0; steps <= this.top; steps++) {
      const a = this.by[node]!;
      if (a === NONE) return NONE;
      node = this.arcFrom[a]!;
      if (node === start) return start;
    }
    // The walk runs into a circuit that does not hold the start.
    return node;
  }

  private anyCircuit(): number {
    const mark = this.mark;
    mark.fill(NONE, 0, this.top);
    for (let start = 0; start < this.top; start++) {
      let node = start;
      while (mark[node] === NONE) {
        mark[node] = start;
        const a = this.by[node]!;
        if (a === NONE) break;
        node = this.arcFrom[a]!;
        if (mark[node] === start) return node;
      }
    }
    return NONE;
  }

  /**
   * Arcs for what is still to come: the robot's remaining work, and every station with one end still open. False as
   * soon as one of them alone cuts the prefix.
   */
  private addOpenArcs(): boolean {
    const limitS = this.bestS - PERIOD_TOLERANCE_S;
    if (this.chainBoundS >= limitS) return false;
    const lastPosition = this.top - 1;
    const last = this.prefix[this.depth - 1]!;
    this.addArc(lastPosition, 0, this.restS(last), 1);
    const leadBase = last * this.plan.nodes.length * 2;
    for (let i = 0; i < this.timedNodes.length; i++) {
      const node = this.timedNodes[i]!;
      const places = this.placesDone[node]!;
      const picks = this.picksDone[node]!;
      const visits = this.visits[node]!;
      if (places + picks === 0 || (places === visits && picks === visits)) continue;
      if (visits === 1) {
        // The only place lies in the prefix and its pick is to come in this round, or the other way about.
        if (places === 1) this.openPick(node, this.placeAt[this.nodeBase[node]!]!, 0, lastPosition, leadBase);
        else this.openPlace(node, this.pickAt[this.nodeBase[node]!]!, 1, lastPosition, leadBase);
      } else this.openVisits(node, places, picks, lastPosition, leadBase);
      if (this.chainBoundS >= limitS) return false;
    }
    return true;
  }

  private openVisits(
    node: number,
    places: number,
    picks: number,
    lastPosition: number,
    leadBase: number,
  ): void {
    const table = this.links[node]![this.nodeNeed[node]! > 0 ? 1 : 0]!;
    const base = this.nodeBase[node]!;
    for (let p = 0; p < places; p++) {
      const list = table.byPlace[p]!;
      for (let k = 0; k < list.length; k++) {
        const link = list[k]!;
        if (link.pick >= picks)
          this.openPick(node, this.placeAt[base + p]!, link.lag, lastPosition, leadBase);
      }
    }
    for (let p = 0; p < picks; p++) {
      const list = table.byPick[p]!;
      for (let k = 0; k < list.length; k++) {
        const link = list[k]!;
        if (link.place >= places)
          this.openPlace(node, this.pickAt[base + p]!, link.lag, lastPosition, leadBase);
      }
    }
  }

  private restS(last: number): number {
    const done = this.units.ownS[last]! - this.lastOwnS[last]!;
    if (this.table) return this.table.leastS[this.tableState * this.n + last]! - done;
    return this.units.ownS[last]! + this.looseRest + this.looseIn[this.first]! - done;
  }

  /** A part lies in a station and its pick is still to come. */
  private openPick(
    node: number,
    placePosition: number,
    lag: number,
    lastPosition: number,
    leadBase: number,
  ): void {
    const place = this.placeEventAt(placePosition, node);
    const spec = this.plan.nodes[node]!;
    const weight = this.offsetS[place]! + this.plan.events[place]!.robotS + spec.processS;
    this.addArc(placePosition, 0, weight + this.tailS[node * 2]!, 1 + lag);
    if (spec.maxWaitS !== null)
      this.addArc(
        lastPosition,
        placePosition,
        this.leadS[leadBase + node * 2]! - weight - spec.maxWaitS,
        -lag,
      );
  }

  /** A part was taken out that comes in late in the period before; its place is still to come. */
  private openPlace(
    node: number,
    pickPosition: number,
    lag: number,
    lastPosition: number,
    leadBase: number,
  ): void {
    const spec = this.plan.nodes[node]!;
    const offset = this.pickOffsetAt(pickPosition, node);
    const leastS = this.leadS[leadBase + node * 2 + 1]! + this.leastPlaceS[node]! + spec.processS;
    this.addArc(lastPosition, pickPosition, leastS - offset, lag);
    if (spec.maxWaitS !== null) {
      const longest = this.mostPlaceS[node]! + spec.processS + spec.maxWaitS;
      this.addArc(pickPosition, 0, offset - longest + this.tailS[node * 2 + 1]!, 1 - lag);
    }
  }

  // --- branching ------------------------------------------------------------------------------------------------

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

  /** Robot work from the start of a unit that comes next to the start of the next round. */
  private restAfterS(unit: number): number {
    if (this.table) return this.table.leastS[(this.tableState - this.table.stride[unit]!) * this.n + unit]!;
    return this.looseRest - this.looseIn[unit]! + this.looseIn[this.first]!;
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

/** The unit with which the period starts: the one that comes least often, infeeds first. */
function firstUnit(plan: Plan, units: Units): number {
  let first = 0;
  let bestKey = Number.POSITIVE_INFINITY;
  for (let u = 0; u < units.events.length; u++) {
    const event = plan.events[units.events[u]![0]!]!;
    const key =
      units.counts[u]! * 4 +
      (event.action === 'pick' ? 0 : 2) +
      (plan.nodes[event.from]!.kind === 'source' ? 0 : 1);
    if (key < bestKey) {
      bestKey = key;
      first = u;
    }
  }
  return first;
}
