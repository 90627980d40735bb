/**
 * Round tours by branch and bound on the assignment problem: where the cheapest assignment falls into several rings,
 * one ring is broken in every possible way (Bellmore & Malone 1971; Carpaneto & Toth, *Management Science* 26, 1980).
 */
import { leastAssignment } from '../../lp/least-assignment.js';
import { tourMinutes } from './improve-tour.js';

export interface BoundedTour {
  readonly tour: readonly number[];
  readonly minutes: number;
  /** No tour takes fewer minutes. */
  readonly bound: number;
  readonly nodes: number;
}

interface Node {
  readonly costs: Float64Array[];
  readonly columnOf: readonly number[];
  readonly bound: number;
  /** Arcs already forced, by row. */
  readonly forced: readonly boolean[];
}

/**
 * @param minutes square, finite
 * @param start a tour to beat
 * @param nodeLimit most nodes
 */
export function tourBySubtours(
  minutes: readonly (readonly number[])[],
  start: readonly number[],
  nodeLimit: number,
): BoundedTour {
  const size = minutes.flat().reduce((most, value) => Math.max(most, Math.abs(value)), 1);
  const barred = size * minutes.length * 4;
  const costs = minutes.map((line, i) => Float64Array.from(line, (value, j) => (i === j ? barred : value)));
  let best = { tour: [...start], minutes: tourMinutes(minutes, start) };
  const root = nodeOf(
    costs,
    minutes.map(() => false),
  );
  const open: Node[] = [root];
  let nodes = 0;
  let missed = Number.POSITIVE_INFINITY;
  for (let node = open.pop(); node; node = open.pop()) {
    if (node.bound >= best.minutes - 1e-9 * Math.max(1, best.minutes)) continue;
    if (nodes >= nodeLimit) {
      missed = Math.min(missed, node.bound);
      continue;
    }
    nodes++;
    const ring = shortestRing(node);
    if (ring.length === minutes.length) {
      best = { tour: ring, minutes: tourMinutes(minutes, ring) };
      continue;
    }
    const children = branch(node, ring, barred).sort((a, b) => b.bound - a.bound);
    open.push(...children);
  }
  return { ...best, bound: Math.min(best.minutes, missed), nodes };
}

function nodeOf(costs: Float64Array[], forced: readonly boolean[]): Node {
  const { columnOf, total } = leastAssignment(costs);
  return { costs, columnOf, bound: total, forced };
}

/** The ring with the fewest arcs still free; the whole tour where there is only one ring. */
function shortestRing(node: Node): number[] {
  const seen = new Set<number>();
  let best: number[] = [];
  let fewest = Number.POSITIVE_INFINITY;
  node.columnOf.forEach((_, first) => {
    if (seen.has(first)) return;
    const ring: number[] = [];
    for (let at = first; !seen.has(at); at = node.columnOf[at]!) {
      seen.add(at);
      ring.push(at);
    }
    const free = ring.filter((job) => !node.forced[job]).length;
    if (free < fewest) [best, fewest] = [ring, free];
  });
  return best;
}

/** Child k keeps the first k free arcs of the ring and bars the next: together they cover every tour. */
function branch(node: Node, ring: readonly number[], barred: number): Node[] {
  const free = ring.filter((job) => !node.forced[job]);
  const children: Node[] = [];
  const costs = node.costs.map((line) => line.slice());
  const forced = [...node.forced];
  for (const job of free) {
    const to = node.columnOf[job]!;
    const barredHere = costs.map((line, i) => (i === job ? line.slice() : line));
    barredHere[job]![to] = barred;
    const child = nodeOf(barredHere, [...forced]);
    if (child.bound < barred) children.push(child);
    force(costs, job, to, barred);
    forced[job] = true;
  }
  return children;
}

function force(costs: Float64Array[], job: number, to: number, barred: number): void {
  const kept = costs[job]![to]!;
  costs[job] = new Float64Array(costs.length).fill(barred);
  costs.forEach((line, i) => {
    if (i === job) return;
    const copy = line.slice();
    copy[to] = barred;
    costs[i] = copy;
  });
  costs[job]![to] = kept;
}
