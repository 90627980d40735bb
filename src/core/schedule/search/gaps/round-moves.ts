/**
 * The moves of one round, numbered, with the least seconds between their starts: what the search by gaps works on.
 * Only for one hand and stations that hold one part of one kind: there the robot's moves are all that must be kept
 * apart, and the visits to a station follow each other in a fixed circle.
 */
import { stationBound } from '../../bound/period-bound.js';
import { isPacedRack, type Plan } from '../../plan/plan.js';
import { moveUnits, type Units } from '../order/units.js';

/** start(to) >= start(from) + weightS - periods x period. */
export interface MoveArc {
  readonly from: number;
  readonly to: number;
  readonly weightS: number;
  readonly periods: number;
}

export interface RoundMoves {
  readonly count: number;
  readonly units: Units;
  /** By move: its unit of the plan. */
  readonly unit: Int32Array;
  /** leastS[a * count + b]: from the start of a to the start of b, whatever comes between. */
  readonly leastS: Float64Array;
  /** Processes, stations that take one part at a time, and which move of each route is numbered first. */
  readonly arcs: readonly MoveArc[];
  /** Pairs a * count + b, a < b, whose order is open. */
  readonly pairs: Int32Array;
  /** Two moves alike that follow each other; of all their gaps in the round this is the shortest. Null: no such pair. */
  readonly shortestGap: { readonly from: number; readonly to: number; readonly visits: number } | null;
}

/** The carries of one way through the cell, in order: each ends where the next begins. */
interface Chain {
  readonly carries: readonly number[];
  /** Nodes between them, one fewer. */
  readonly nodes: readonly number[];
  readonly visits: number;
}

/** Moves shorter than this (with the way to the next) could all lie at one moment, without an order. */
const SHORTEST_MOVE_S = 1e-6;

/** @returns null where the plan has a second hand, paced infeeds or outfeeds, longest waits, batches, shared or larger stations, or moves of no length */
export function roundMoves(plan: Plan): RoundMoves | null {
  if (plan.hands === 2 || plan.nodes.some(isPacedRack)) return null;
  const chains = chainsOf(plan);
  if (chains === null) return null;
  const units = moveUnits(plan);
  const first = chains.flatMap((chain) => chain.carries);
  const base = new Int32Array(plan.carries.length);
  let count = 0;
  for (const carry of first) {
    base[carry] = count;
    count += plan.carries[carry]!.count;
  }
  const unit = Int32Array.from(first.flatMap((c) => new Array<number>(plan.carries[c]!.count).fill(c)));
  const leastS = leastSeconds(units, unit);
  if (!leastS.every((s) => s > SHORTEST_MOVE_S && Number.isFinite(s))) return null;
  const lead = chains[0]!;
  return {
    count,
    units,
    unit,
    leastS,
    arcs: chains.flatMap((chain) => [
      ...stationArcs(plan, units, chain, base),
      ...numberingArcs(chain, base, base[lead.carries[0]!]!),
    ]),
    pairs: openPairs(chains, base, count),
    shortestGap:
      lead.visits > 1
        ? { from: base[lead.carries[0]!]!, to: base[lead.carries[0]!]! + 1, visits: lead.visits }
        : null,
  };
}

/** The chain whose stations have the least time to spare comes first. */
function chainsOf(plan: Plan): Chain[] | null {
  const chains: Chain[] = [];
  for (const [index, carry] of plan.carries.entries()) {
    if (plan.nodes[fromOf(plan, index)]!.kind !== 'source') continue;
    const carries = [index];
    const nodes: number[] = [];
    for (let at = toOf(plan, index); plan.nodes[at]!.kind !== 'sink'; ) {
      const next = onlyCarryFrom(plan, at);
      if (next === null || carries.length > plan.carries.length) return null;
      nodes.push(at);
      carries.push(next);
      at = toOf(plan, next);
    }
    chains.push({ carries, nodes, visits: carry.count });
  }
  if (chains.reduce((sum, chain) => sum + chain.carries.length, 0) !== plan.carries.length) return null;
  const needS = (chain: Chain): number =>
    Math.max(0, ...chain.nodes.map((node) => stationBound(plan, plan.nodes[node]!.room)));
  return chains.sort((a, b) => needS(b) - needS(a));
}

function fromOf(plan: Plan, carry: number): number {
  return plan.events[plan.carries[carry]!.events[0]!]!.from;
}

function toOf(plan: Plan, carry: number): number {
  const { events } = plan.carries[carry]!;
  return plan.events[events[events.length - 1]!]!.to;
}

/** The carry that takes parts away from a node, where the node is alone in a station for one part. */
function onlyCarryFrom(plan: Plan, node: number): number | null {
  const spec = plan.nodes[node]!;
  const alone = plan.nodes.every((other, i) => i === node || other.room !== spec.room);
  if (!alone || spec.batch > 1 || spec.maxWaitS !== null || plan.rooms[spec.room]!.capacity !== 1)
    return null;
  const into = plan.carries.filter((_, c) => toOf(plan, c) === node);
  const out = plan.carries.flatMap((_, c) => (fromOf(plan, c) === node ? [c] : []));
  return into.length === 1 && out.length === 1 ? out[0]! : null;
}

function leastSeconds(units: Units, unit: Int32Array): Float64Array {
  const n = units.events.length;
  const count = unit.length;
  const leastS = new Float64Array(count * count);
  for (let a = 0; a < count; a++) {
    const ownS = units.ownS[unit[a]!]!;
    const row = unit[a]! * n;
    for (let b = 0; b < count; b++) leastS[a * count + b] = ownS + units.shortestS[row + unit[b]!]!;
  }
  return leastS;
}

/** Each station is filled, works, and is emptied before it is filled again; the last visit is followed by the first. */
function stationArcs(plan: Plan, units: Units, chain: Chain, base: Int32Array): MoveArc[] {
  const { visits } = chain;
  const after = (carry: number, visit: number): { to: number; periods: number } => ({
    to: base[carry]! + ((visit + 1) % visits),
    periods: visit + 1 === visits ? 1 : 0,
  });
  const restS = (from: number, to: number): number =>
    units.ownS[from]! + units.shortestS[from * units.events.length + to]!;
  const single = chain.carries[0]!;
  return Array.from({ length: visits }, (_, v) => [
    { from: base[single]! + v, ...after(single, v), weightS: restS(single, single) },
    ...chain.nodes.flatMap((node, i) => {
      const [bring, take] = [chain.carries[i]!, chain.carries[i + 1]!];
      return [
        {
          from: base[bring]! + v,
          to: base[take]! + v,
          weightS: units.ownS[bring]! + plan.nodes[node]!.processS,
          periods: 0,
        },
        { from: base[take]! + v, ...after(bring, v), weightS: restS(take, bring) },
      ];
    }),
  ]).flat();
}

/** Which visit is number one is free: it is the first that starts at or after the round's first move. */
function numberingArcs(chain: Chain, base: Int32Array, reference: number): MoveArc[] {
  const first = base[chain.carries[0]!]!;
  if (first === reference) return [];
  return [
    { from: reference, to: first, weightS: 0, periods: 0 },
    { from: first + chain.visits - 1, to: reference, weightS: 0, periods: 1 },
  ];
}

/** All pairs of moves but those that go on in a circle at one station. */
function openPairs(chains: readonly Chain[], base: Int32Array, count: number): Int32Array {
  const circle = new Int32Array(count);
  let circles = 0;
  for (const chain of chains) {
    circles++;
    for (const carry of chain.carries) {
      if (chain.nodes.length > 1) circles++;
      circle.fill(circles, base[carry]!, base[carry]! + chain.visits);
    }
  }
  const pairs = new Int32Array((count * (count - 1)) / 2);
  let top = 0;
  for (let a = 0; a < count; a++)
    for (let b = a + 1; b < count; b++) if (circle[a] !== circle[b]) pairs[top++] = a * count + b;
  return pairs.slice(0, top);
}
