/**
 * Stations with room for one part, as a prefix goes through them: a pick takes the part that was placed last or, where none
 * was, the one that lay there as the period began, which the last place of the period before had put in. Of each process
 * with both ends in the prefix it makes an arc, of one with an end still to come the earliest or latest moment of that end.
 */
import type { Plan } from '../../plan/plan.js';
import type { PartCounts } from './part-counts.js';
import type { PrefixArcs } from './prefix-arcs.js';
import type { UnitPositions } from './unit-positions.js';
import type { Units } from './units.js';

/** No visit, no node, no arc. */
export const NONE = -1;

export class TimedStations {
  /** By node: 1 where its times are kept here. */
  readonly isTimed: Uint8Array;
  private readonly nodes: Int32Array;
  private readonly visits: Int32Array;
  private readonly maxWaitS: Float64Array;

  // By visit, those of a node one after another from `firstVisit`: where its place is, and from there to the end of the process.
  private readonly firstVisit: Int32Array;
  readonly placeAt: Int32Array;
  readonly readyS: Float64Array;
  // By node, of its first pick: where it is, and from there to its start.
  private readonly firstPickAt: Int32Array;
  private readonly firstPickS: Float64Array;

  // By event: from the start of its position to its own, and to the end of the process of what it places.
  private readonly offsetS: Float64Array;
  private readonly readyOfS: Float64Array;
  /** By node, from the start of a place to the end of the process: the least and the most of its events. */
  private readonly leastReadyS: Float64Array;
  private readonly mostReadyS: Float64Array;
  /** By last unit and end (a pick at node k is 2 k, a place 2 k + 1): least time from its last position to that event. */
  private readonly leadS: Float64Array;
  /** By end: least time from that event to the start of the next period. */
  private readonly tailS: Float64Array;

  constructor(
    plan: Plan,
    units: Units,
    positions: UnitPositions,
    first: number,
    private readonly parts: PartCounts,
    private readonly arcs: PrefixArcs,
  ) {
    this.isTimed = Uint8Array.from(plan.nodes, (node) => Number(isTimed(plan, node)));
    this.nodes = Int32Array.from(plan.nodes.flatMap((_, node) => (this.isTimed[node] ? [node] : [])));
    this.visits = Int32Array.from(plan.nodes, (node) => node.visits);
    this.maxWaitS = Float64Array.from(plan.nodes, (node) => node.maxWaitS ?? Number.POSITIVE_INFINITY);
    this.firstVisit = new Int32Array(plan.nodes.length);
    for (let k = 1; k < plan.nodes.length; k++)
      this.firstVisit[k] = this.firstVisit[k - 1]! + this.visits[k - 1]!;
    const visits = this.visits.reduce((sum, count) => sum + count, 0);
    this.placeAt = new Int32Array(visits);
    this.readyS = new Float64Array(visits);
    this.firstPickAt = new Int32Array(plan.nodes.length);
    this.firstPickS = new Float64Array(plan.nodes.length);

    this.offsetS = positions.offsetS;
    this.readyOfS = Float64Array.from(
      plan.events,
      ({ robotS, to }, e) => this.offsetS[e]! + robotS + plan.nodes[to]!.processS,
    );
    this.leastReadyS = new Float64Array(plan.nodes.length).fill(Number.POSITIVE_INFINITY);
    this.mostReadyS = new Float64Array(plan.nodes.length);
    for (const { robotS, to } of plan.events) {
      const readyS = robotS + plan.nodes[to]!.processS;
      this.leastReadyS[to] = Math.min(this.leastReadyS[to]!, readyS);
      this.mostReadyS[to] = Math.max(this.mostReadyS[to]!, readyS);
    }

    const n = units.events.length;
    const ends = 2 * plan.nodes.length;
    this.leadS = new Float64Array(n * ends).fill(Number.POSITIVE_INFINITY);
    this.tailS = new Float64Array(ends).fill(Number.POSITIVE_INFINITY);
    for (const [u, list] of units.events.entries())
      for (const e of list)
        for (const end of [2 * plan.events[e]!.from, 2 * plan.events[e]!.to + 1]) {
          const startS = units.offsetS[e]!;
          const afterS = units.ownS[u]! - startS + units.shortestS[u * n + first]!;
          this.tailS[end] = Math.min(this.tailS[end]!, afterS);
          for (let last = 0; last < n; last++) {
            const ownS = units.ownS[last]! - positions.lastStartS[last]!;
            const beforeS = ownS + units.shortestS[last * n + u]! + startS;
            this.leadS[last * ends + end] = Math.min(this.leadS[last * ends + end]!, beforeS);
          }
        }
  }

  /** Counts a pick that is in the order now. */
  pick(node: number, event: number, position: number): void {
    const places = this.parts.placesDone[node]!;
    const offsetS = this.offsetS[event]!;
    if (this.parts.countPick(node) === 0) {
      this.firstPickAt[node] = position;
      this.firstPickS[node] = offsetS;
    }
    if (places > 0) this.addLink(node, this.firstVisit[node]! + places - 1, position, offsetS, 0);
  }

  /** Counts a place that is in the order now. */
  place(node: number, event: number, position: number): void {
    const index = this.parts.countPlace(node);
    const visit = this.firstVisit[node]! + index;
    this.placeAt[visit] = position;
    this.readyS[visit] = this.readyOfS[event]!;
    if (index + 1 === this.visits[node] && this.parts.nodeNeed[node]! > 0)
      this.addLink(node, visit, this.firstPickAt[node]!, this.firstPickS[node]!, 1);
  }

  /** The visit whose part lies in the station now; NONE where it is empty, or as it was when the period began. */
  visitInside(node: number): number {
    const { placesDone, picksDone, nodeNeed } = this.parts;
    const places = placesDone[node]!;
    if (places === 0 || nodeNeed[node]! + places === picksDone[node]) return NONE;
    return this.firstVisit[node]! + places - 1;
  }

  /**
   * Arcs for every process with one end still to come, after the last unit at its last position. False as soon as one of
   * them alone asks for that period.
   */
  addOpenEnds(last: number, lastPosition: number, limitS: number): boolean {
    const { arcs, parts } = this;
    const lead = last * 2 * this.visits.length;
    for (let i = 0; i < this.nodes.length; i++) {
      const node = this.nodes[i]!;
      const visits = this.visits[node]!;
      const visit = this.visitInside(node);
      if (visit !== NONE && parts.picksDone[node]! < visits)
        this.addOpenPick(node, visit, lastPosition, this.leadS[lead + 2 * node]!);
      if (parts.nodeNeed[node]! > 0 && parts.placesDone[node]! < visits)
        this.addOpenPlace(node, lastPosition, this.leadS[lead + 2 * node + 1]!);
      if (arcs.chainBoundS >= limitS) return false;
    }
    return true;
  }

  private addLink(node: number, visit: number, pickAt: number, pickS: number, lag: number): void {
    const { arcs } = this;
    const placeAt = this.placeAt[visit]!;
    const readyS = this.readyS[visit]!;
    const waitS = this.maxWaitS[node]!;
    arcs.add(placeAt, pickAt, readyS - pickS, lag);
    if (waitS < Number.POSITIVE_INFINITY) arcs.add(pickAt, placeAt, pickS - readyS - waitS, -lag);
  }

  /** A part lies in the station and its pick is still to come. */
  private addOpenPick(node: number, visit: number, lastPosition: number, leadS: number): void {
    const { arcs } = this;
    const placeAt = this.placeAt[visit]!;
    const readyS = this.readyS[visit]!;
    const waitS = this.maxWaitS[node]!;
    arcs.add(placeAt, 0, readyS + this.tailS[2 * node]!, 1);
    if (waitS < Number.POSITIVE_INFINITY) arcs.add(lastPosition, placeAt, leadS - readyS - waitS, 0);
  }

  /** The first part taken out comes in late in the period before; its place is still to come. */
  private addOpenPlace(node: number, lastPosition: number, leadS: number): void {
    const { arcs } = this;
    const pickAt = this.firstPickAt[node]!;
    const pickS = this.firstPickS[node]!;
    const waitS = this.maxWaitS[node]!;
    arcs.add(lastPosition, pickAt, leadS + this.leastReadyS[node]! - pickS, 1);
    if (waitS < Number.POSITIVE_INFINITY)
      arcs.add(pickAt, 0, pickS - (this.mostReadyS[node]! + waitS) + this.tailS[2 * node + 1]!, 0);
  }
}

/** Where the first event tells what lay there when the period began. */
function isTimed(plan: Plan, { kind, batch, room, processS, maxWaitS }: Plan['nodes'][number]): boolean {
  if (kind !== 'inside' || batch > 1 || plan.rooms[room]!.capacity !== 1) return false;
  return processS > 0 || maxWaitS !== null;
}
