/**
 * The prefix of an order under search, as a constraint graph: units in order at their positions, with the parts that keep
 * up with them (parts by room, robot work still to do, processes of stations with room for one part, arcs). What one unit
 * brings is taken back with it.
 *
 * One hand, machines A and B; the prefix holds three moves, B's part was there before, and the rest is to come:
 *
 *      robot chain        robot chain
 *   0 ─────────────▶ 1 ─────────────▶ 2 ╌╌╌ units still to come ╌╌╌▶ 0 of the next period
 *   in to A          B to out         A to out
 *   └────── process of A ────────────▶┘                   place at 0, pick at 2, 0 periods
 *                    ▲                └─ rest of the robot's work ──▶ 0, 1 period on
 *                    └── process of B ◀── its place, still to come after 2: 1 period back
 */

import { stationBound } from '../../bound/period-bound.js';
import type { Plan } from '../../plan/plan.js';
import { PartCounts } from './part-counts.js';
import { PrefixArcs } from './prefix-arcs.js';
import { TimedStations } from './timed-stations.js';
import { type UnitPositions, unitPositions } from './unit-positions.js';
import type { Units } from './units.js';
import { WorkLeft } from './work-left.js';

/** Differences in a period below this are not told apart. */
export const PERIOD_TOLERANCE_S = 1e-7;

export class OrderPrefix {
  readonly length: number;
  readonly positions: UnitPositions;
  readonly parts: PartCounts;
  readonly left: WorkLeft;
  readonly arcs: PrefixArcs;
  readonly stations: TimedStations;
  readonly first: number;
  readonly rootBoundS: number;

  /** Units in order. */
  readonly order: Int32Array;
  depth = 0;
  /** Positions so far. */
  top = 0;
  // By depth, before its unit came.
  private readonly topBefore: Int32Array;
  private readonly arcsBefore: Int32Array;
  private readonly partsBefore: Int32Array;

  constructor(
    readonly plan: Plan,
    readonly units: Units,
    tableLimit: number,
  ) {
    this.length = units.counts.reduce((sum, c) => sum + c, 0);
    this.order = new Int32Array(this.length);
    this.topBefore = new Int32Array(this.length);
    this.arcsBefore = new Int32Array(this.length);
    this.partsBefore = new Int32Array(this.length);

    this.first = firstUnit(plan, units);
    this.positions = unitPositions(plan, units);
    this.parts = new PartCounts(plan);
    this.left = new WorkLeft(units, this.first, tableLimit);
    // No order can be faster than the robot's own work or any station's place-process-pick-replace.
    this.rootBoundS = Math.max(
      this.left.fromS(this.first),
      ...plan.rooms.map((_, room) => stationBound(plan, room)),
    );
    const visits = plan.nodes.reduce((sum, node) => sum + node.visits, 0);
    const mostArcs = this.positions.count + 2 * visits + 4 * plan.nodes.length;
    this.arcs = new PrefixArcs(this.positions.count, mostArcs, 1e-9 * (1 + this.rootBoundS));
    this.stations = new TimedStations(plan, units, this.positions, this.first, this.parts, this.arcs);
  }

  /** Appends a unit; false, with nothing changed, where capacities and hands do not allow it. */
  append(unit: number): boolean {
    const { arcs, parts, stations, plan } = this;
    const { opens, startS } = this.positions;
    const events = this.units.events[unit]!;
    this.topBefore[this.depth] = this.top;
    this.arcsBefore[this.depth] = arcs.count;
    this.partsBefore[this.depth] = parts.mark();
    this.order[this.depth] = unit;
    arcs.chainBoundS = 0;
    if (this.depth > 0) {
      const before = this.order[this.depth - 1]!;
      arcs.addStep(this.top, this.lastOwnS(before) + this.wayBetween(before, unit));
    }
    this.depth++;
    let position = this.top++;
    for (let i = 0; i < events.length; i++) {
      const e = events[i]!;
      const { from, to } = plan.events[e]!;
      if (opens[e]) {
        this.top++;
        arcs.addStep(++position, startS[e]! - startS[events[i - 1]!]!);
      }
      if (!parts.takeFrom(from) || !parts.putInto(to)) return this.goBack();
      if (stations.isTimed[from]) stations.pick(from, e, position);
      if (stations.isTimed[to]) stations.place(to, e, position);
    }
    if (this.depth > 1) this.left.take(unit);
    return true;
  }

  /** Takes the last unit off again with all that came with it; not the first one. */
  removeLast(): void {
    this.left.giveBack(this.order[this.depth - 1]!);
    this.goBack();
  }

  private goBack(): false {
    const depth = --this.depth;
    this.parts.backTo(this.partsBefore[depth]!);
    this.arcs.count = this.arcsBefore[depth]!;
    this.top = this.topBefore[depth]!;
    return false;
  }

  /** Positions and arcs of the prefix before the last unit. */
  get parentTop(): number {
    return this.topBefore[this.depth - 1]!;
  }
  get parentArcs(): number {
    return this.arcsBefore[this.depth - 1]!;
  }

  /** Robot time from the last position of a unit to its end. */
  lastOwnS(unit: number): number {
    return this.units.ownS[unit]! - this.positions.lastStartS[unit]!;
  }

  private wayBetween(before: number, unit: number): number {
    if (this.units.whole) return this.units.wayS[before * this.units.events.length + unit]!;
    const { plan, parts } = this;
    const from = plan.events[before]!.station;
    const to = plan.events[unit]!.station;
    if (from === to) return plan.indexS;
    // At least that many parts are in hand here; with none for certain, the quicker of both ways is the bound.
    const sure = parts.roomCount[0]! + parts.roomNeed[0]! > 0;
    const pair = from * plan.stations.length + to;
    return sure ? plan.loadedS[pair]! : Math.min(plan.emptyS[pair]!, plan.loadedS[pair]!);
  }

  /** Robot time from the last position to the start of the next round, at least. */
  restS(): number {
    const last = this.order[this.depth - 1]!;
    return this.left.fromS(last) - this.positions.lastStartS[last]!;
  }

  /**
   * Arcs for what is still to come: the robot's remaining work, and every station with one end still open. False as
   * soon as one of them alone asks for that period.
   */
  addOpenArcs(limitS: number): boolean {
    const { arcs } = this;
    if (arcs.chainBoundS >= limitS) return false;
    arcs.add(this.top - 1, 0, this.restS(), 1);
    return this.stations.addOpenEnds(this.order[this.depth - 1]!, this.top - 1, limitS);
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
