/**
 * The prefix of an order under search, as a constraint graph on flat typed arrays that are laid out once: the arcs between
 * events, the robot work still to do, and for every station with one end of its process still open the earliest or latest
 * moment at which the other end can come.
 *
 * One hand, machines A and B; the prefix holds three moves, B's part was there before, and the rest is to come:
 *
 *      robot chain        robot chain
 *   0 ─────────────▶ 1 ─────────────▶ 2 ╌╌╌ units still to come ╌╌╌▶ 0 of the next period
 *   in to A          B to out         A to out
 *   └────── process of A ────────────▶┘                   addLink: place at 0, pick at 2, lag 0
 *                    ▲                └─ rest of the robot's work ──▶ 0, 1 period on      addOpenArcs
 *                    └── process of B ◀── its place, still to come after 2: 1 period back   openPlace
 *
 * An arc says: its end begins at least so much later than its start, less its periods times the period.
 */

import { stationBound } from '../../bound/period-bound.js';
import { type FifoLink, fifoLinks } from '../../evaluate/fifo-links.js';
import type { Plan } from '../../plan/plan.js';
import { PartCounts } from './part-counts.js';
import { type TourTable, tourTable } from './tour-table.js';
import type { Units } from './units.js';

/** Differences in a period below this are not told apart. */
export const PERIOD_TOLERANCE_S = 1e-7;

/** No position, no node. */
export const NONE = -1;

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

export class OrderPrefix {
  readonly n: number;
  readonly length: number;
  /**
   * Events at which the robot may do well to wait with a part in hand begin a position of their own. That can help
   * only where both ends of a carry have a longest wait: the part must leave in time, and must not arrive too soon.
   */
  private readonly opens: Uint8Array;
  private readonly positionStartS: Float64Array;
  readonly positions: number;
  readonly lastOwnS: Float64Array;
  readonly first: number;
  private readonly table: TourTable | null;
  private readonly looseIn: Float64Array;
  readonly left: Int32Array;
  private tableState = 0;
  private looseRest = 0;

  readonly parts: PartCounts;

  // Links of timed nodes whose start state is known from the first event there (capacity 1).
  private readonly timed: Uint8Array;
  readonly links: (readonly [LinkTable, LinkTable] | null)[];
  readonly placeAt: Int32Array;
  private readonly pickAt: Int32Array;
  readonly nodeBase: Int32Array;

  // Where each event sits in its unit.
  private readonly timeOffsetS: Float64Array;
  /** The same from the event's position in the graph: 0 where each event has its own. */
  readonly offsetS: Float64Array;
  private readonly leadS: Float64Array;
  private readonly tailS: Float64Array;
  /** Robot time of a place at each node, the least and the most of its events. */
  private readonly leastPlaceS: Float64Array;
  private readonly mostPlaceS: Float64Array;
  private readonly visits: Int32Array;

  // The prefix: units in order, arcs, potentials by depth.
  readonly order: Int32Array;
  depth = 0;
  /** Unit of each position of the graph, and the event there (its first one, where a unit is one position). */
  private readonly unitAt: Int32Array;
  private readonly startOf: Int32Array;
  top = 0;
  readonly arcFrom: Int32Array;
  readonly arcTo: Int32Array;
  readonly arcW: Float64Array;
  readonly arcK: Int32Array;
  arcs = 0;
  private readonly timedNodes: Int32Array;
  /** The timed node from which each unit picks first, or NONE. */
  readonly timedPick: Int32Array;

  bestS: number;
  /** Robot time along the order from the first event to each position. */
  private readonly chainS: Float64Array;
  /** The greatest ratio of the circuits that one arc closes with the chain; Infinity where one is hopeless. */
  chainBoundS = 0;
  readonly rootBoundS: number;

  constructor(
    readonly plan: Plan,
    readonly units: Units,
    belowS: number,
    tableLimit: number,
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
    this.table = tourTable(this.left, this.units.ownS, this.units.wayS, this.first, tableLimit);
    this.looseIn = this.looseWays();
    if (this.table) for (let u = 0; u < this.n; u++) this.tableState += this.left[u]! * this.table.stride[u]!;
    for (let u = 0; u < this.n; u++)
      this.looseRest += this.left[u]! * (this.units.ownS[u]! + this.looseIn[u]!);

    const nodes = plan.nodes.length;
    this.parts = new PartCounts(plan);
    this.timed = Uint8Array.from(plan.nodes, (node) => Number(this.isLinked(node)));
    this.timedNodes = Int32Array.from(plan.nodes.flatMap((_, i) => (this.timed[i] ? [i] : [])));
    this.timedPick = Int32Array.from(this.units.events, (list) => {
      const event = plan.events[list[0]!]!;
      return event.action === 'pick' && this.timed[event.from] ? event.from : NONE;
    });
    this.links = plan.nodes.map((node, i) =>
      this.timed[i] ? ([linkTable(node.visits, 0, 1, 0), linkTable(node.visits, 1, 1, 0)] as const) : null,
    );
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
    this.order = new Int32Array(this.length);
    this.startOf = new Int32Array(this.length);
    this.unitAt = new Int32Array(this.positions);
    const links = plan.nodes.reduce((sum, node) => sum + node.visits, 0);
    const maxArcs = this.positions + links * 8 + nodes * 4 + 16;
    this.arcFrom = new Int32Array(maxArcs);
    this.arcTo = new Int32Array(maxArcs);
    this.arcW = new Float64Array(maxArcs);
    this.arcK = new Int32Array(maxArcs);
    this.chainS = new Float64Array(this.positions);
    this.bestS = belowS;
    this.rootBoundS = this.rootBound();
  }

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

  /** Appends a unit when capacities and hands allow it; false (with nothing changed that undo does not mend) if not. */
  append(unit: number): boolean {
    const events = this.units.events[unit]!;
    if (this.depth > 0) {
      const before = this.order[this.depth - 1]!;
      this.addStep(this.top, this.lastOwnS[before]! + this.wayBetween(before, unit));
    }
    this.order[this.depth] = unit;
    this.startOf[this.depth++] = this.top;
    this.unitAt[this.top] = unit;
    let position = this.top++;
    for (let i = 0; i < events.length; i++) {
      const event = this.plan.events[events[i]!]!;
      if (this.opens[events[i]!]) {
        this.unitAt[this.top++] = unit;
        this.addStep(++position, this.positionStartS[events[i]!]! - this.positionStartS[events[i - 1]!]!);
      }
      if (!this.parts.takeFrom(event.from) || !this.parts.putInto(event.to)) return false;
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
    const sure = this.parts.roomCount[0]! + this.parts.roomNeed[0]! > 0;
    const pair = from * this.plan.stations.length + to;
    return sure ? this.plan.loadedS[pair]! : Math.min(this.plan.emptyS[pair]!, this.plan.loadedS[pair]!);
  }

  private linkPick(node: number, position: number): void {
    const index = this.parts.countPick(node);
    this.pickAt[this.nodeBase[node]! + index] = position;
    const table = this.links[node]![this.parts.nodeNeed[node]! > 0 ? 1 : 0]!;
    const list = table.byPick[index]!;
    for (let i = 0; i < list.length; i++) {
      const link = list[i]!;
      if (link.place < this.parts.placesDone[node]!)
        this.addLink(node, this.placeAt[this.nodeBase[node]! + link.place]!, position, link.lag);
    }
  }

  private linkPlace(node: number, position: number): void {
    const index = this.parts.countPlace(node);
    this.placeAt[this.nodeBase[node]! + index] = position;
    const table = this.links[node]![this.parts.nodeNeed[node]! > 0 ? 1 : 0]!;
    const list = table.byPlace[index]!;
    for (let i = 0; i < list.length; i++) {
      const link = list[i]!;
      if (link.pick < this.parts.picksDone[node]!)
        this.addLink(node, position, this.pickAt[this.nodeBase[node]! + link.pick]!, link.lag);
    }
  }

  placeEventAt(position: number, node: number): number {
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
  removeLast(partsMark: number, arcsMark: number): void {
    this.parts.backTo(partsMark);
    this.arcs = arcsMark;
    this.top = this.startOf[--this.depth]!;
  }

  giveBack(unit: number): void {
    this.left[unit]!++;
    if (this.table) this.tableState += this.table.stride[unit]!;
    this.looseRest += this.units.ownS[unit]! + this.looseIn[unit]!;
  }

  /**
   * Arcs for what is still to come: the robot's remaining work, and every station with one end still open. False as
   * soon as one of them alone cuts the prefix.
   */
  addOpenArcs(): boolean {
    const limitS = this.bestS - PERIOD_TOLERANCE_S;
    if (this.chainBoundS >= limitS) return false;
    const lastPosition = this.top - 1;
    const last = this.order[this.depth - 1]!;
    this.addArc(lastPosition, 0, this.restS(last), 1);
    const leadBase = last * this.plan.nodes.length * 2;
    for (let i = 0; i < this.timedNodes.length; i++) {
      const node = this.timedNodes[i]!;
      const places = this.parts.placesDone[node]!;
      const picks = this.parts.picksDone[node]!;
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
    const table = this.links[node]![this.parts.nodeNeed[node]! > 0 ? 1 : 0]!;
    const base = this.nodeBase[node]!;
    // The room of a timed node holds one part: a place waits for the pick of its own number or of the next one.
    for (let p = Math.max(0, picks - 1); p < places; p++) {
      const list = table.byPlace[p]!;
      for (let k = 0; k < list.length; k++) {
        const link = list[k]!;
        if (link.pick >= picks)
          this.openPick(node, this.placeAt[base + p]!, link.lag, lastPosition, leadBase);
      }
    }
    for (let p = 0; p < picks; p = Math.max(p + 1, places)) {
      const list = table.byPick[p]!;
      for (let k = 0; k < list.length; k++) {
        const link = list[k]!;
        if (link.place >= places)
          this.openPlace(node, this.pickAt[base + p]!, link.lag, lastPosition, leadBase);
      }
    }
  }

  restS(last: number): number {
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

  /** Robot work from the start of a unit that comes next to the start of the next round. */
  restAfterS(unit: number): number {
    if (this.table) return this.table.leastS[(this.tableState - this.table.stride[unit]!) * this.n + unit]!;
    return this.looseRest - this.looseIn[unit]! + this.looseIn[this.first]!;
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
