/**
 * Makes a costly quantile function fast. Its values stand in three tables, joined by cubics through four neighbours
 * (Lagrange): the middle at equal steps of the probability u, the two tails, where quantiles bend sharply, at equal
 * steps of log u and of log(1 - u). Beyond one draw in 131,072 the function itself is computed.
 */
import { exp, log } from '../numbers/functions.js';

/** The tails begin at 1/8 from either end and reach 14 halvings further. */
const TAIL = 1 / 8;
const HALVINGS = 14;
const STEPS_PER_HALVING = 16;
const TAIL_STEPS = HALVINGS * STEPS_PER_HALVING;
const LAST = TAIL / 2 ** HALVINGS;
const MIDDLE_STEPS = 512;
const PER_LOG = STEPS_PER_HALVING / Math.LN2;

interface Tables {
  readonly middle: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/**
 * @param exact a rising quantile function, costly to compute
 * @returns the same function for 0 < u < 1, to about 1e-7 of its scale; the tables are built at the first draw
 */
function tabulateQuantile(exact: (u: number) => number): (u: number) => number {
  let tables: Tables | null = null;
  return (u) => {
    const v = 1 - u;
    if (u < LAST || v < LAST) return exact(u);
    tables ??= buildTables(exact);
    if (u < TAIL) return cubic(tables.low, log(TAIL / u) * PER_LOG);
    if (v < TAIL) return cubic(tables.high, log(TAIL / v) * PER_LOG);
    return cubic(tables.middle, u * MIDDLE_STEPS);
  };
}

/** Shapes that a family keeps; the one that came first goes first. */
const KEPT = 64;

/**
 * The same for a family of distributions of scale 1: tables of a shape met before serve again, so that the cells of one
 * study, which share their scatter, build them once.
 *
 * @param exactOf gives the rising quantile function of a shape
 */
export function tabulateFamily(
  exactOf: (...shape: number[]) => (u: number) => number,
): (...shape: number[]) => (u: number) => number {
  const known = new Map<string, (u: number) => number>();
  return (...shape) => {
    const key = shape.join(' ');
    const before = known.get(key);
    if (before !== undefined) return before;
    if (known.size === KEPT) known.delete(known.keys().next().value!);
    const quantile = tabulateQuantile(exactOf(...shape));
    known.set(key, quantile);
    return quantile;
  };
}

/** Tables with one node more at either end than is looked up; node i stands at index i + 1. */
function buildTables(exact: (u: number) => number): Tables {
  const tail = (i: number): number => TAIL * exp(-(i - 1) / PER_LOG);
  const middle = new Float64Array(MIDDLE_STEPS + 4);
  const from = Math.floor(TAIL * MIDDLE_STEPS) - 1;
  for (let i = from; i <= MIDDLE_STEPS - from; i++) middle[i + 1] = exact(i / MIDDLE_STEPS);
  return {
    middle,
    low: Float64Array.from({ length: TAIL_STEPS + 4 }, (_, i) => exact(tail(i))),
    high: Float64Array.from({ length: TAIL_STEPS + 4 }, (_, i) => exact(1 - tail(i))),
  };
}

function cubic(table: Float64Array, at: number): number {
  const i = Math.floor(at);
  const f = at - i;
  const p0 = table[i]!;
  const p1 = table[i + 1]!;
  const p2 = table[i + 2]!;
  const p3 = table[i + 3]!;
  return (
    (-f * (f - 1) * (f - 2) * p0) / 6 +
    ((f + 1) * (f - 1) * (f - 2) * p1) / 2 -
    ((f + 1) * f * (f - 2) * p2) / 2 +
    ((f + 1) * f * (f - 1) * p3) / 6
  );
}
