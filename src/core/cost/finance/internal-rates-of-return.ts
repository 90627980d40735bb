/**
 * Every internal rate of return of a row of flows.
 *
 * With x = 1/(1 + r) the present value is a polynomial in x, and rates above -1 are its roots x > 0. The flows are
 * taken as the decimals that they print as, which makes every coefficient a whole number once scaled: all tests of
 * sign are then exact, whatever the scale of the flows and however close the roots.
 */

import {
  derivative,
  polynomialFromDecimals,
  positiveRootIntervals,
  refineRoot,
  signChanges,
  squareFreePart,
  trimmed,
} from './exact-polynomial.js';
import { requireFlows } from './flow-arguments.js';

/** Flows carry rounding of about one unit in the last place; a present value below this share of its terms is 0. */
const ROUNDING = 2 ** -51;

/**
 * All real internal rates of return above -1 (-100%), ascending, each once.
 *
 * A rate at which the present value only touches zero (a double root) is found too; so is one that rounding of the
 * flows has parted into two or lifted off the axis by no more than that rounding.
 *
 * @param flows amounts by year from 0
 * @returns fractions; empty where no rate makes the present value zero, and where every flow is 0 (any rate would)
 * @throws RangeError where a flow is not a finite number
 * @example internalRatesOfReturn([-1600, 10000, -10000]) // [0.25, 4]
 */
export function internalRatesOfReturn(flows: readonly number[]): number[] {
  requireFlows(flows);
  const exact = trimmed(polynomialFromDecimals(flows));
  if (exact.length < 2 || signChanges(exact) === 0) return [];
  const crossings = rootsOf(exact);
  const roots = signChanges(exact) === 1 ? crossings : mergeTouching(flows, exact, crossings);
  return roots.map((root) => root.rate).sort((a, b) => a - b);
}

interface Root {
  /** 1/(1 + rate). */
  readonly x: number;
  readonly rate: number;
}

function rootsOf(polynomial: readonly bigint[]): Root[] {
  const simple = squareFreePart(polynomial);
  return positiveRootIntervals(simple)
    .map((interval) => refineRoot(simple, interval))
    .sort((a, b) => a.x - b.x);
}

/** Joins the roots around turning points whose value is nothing but rounding into one root at the turning point. */
function mergeTouching(
  flows: readonly number[],
  exact: readonly bigint[],
  crossings: readonly Root[],
): Root[] {
  const turns = rootsOf(trimmed(derivative(exact)));
  const touching = turns.map((turn) => isRounding(flows, turn.x));
  let roots = [...crossings];
  for (let k = 0; k < turns.length; k++) {
    if (!touching[k]) continue;
    const from = turns[k - 1]?.x ?? 0;
    const first = k;
    while (touching[k + 1]) k++;
    const to = turns[k + 1]?.x ?? Number.POSITIVE_INFINITY;
    const middle = turns[Math.floor((first + k) / 2)]!;
    roots = [...roots.filter((root) => root.x <= from || root.x >= to), middle];
  }
  return roots;
}

function isRounding(flows: readonly number[], x: number): boolean {
  let value = 0;
  let size = 0;
  for (let year = flows.length - 1; year >= 0; year--) {
    value = value * x + flows[year]!;
    size = size * x + Math.abs(flows[year]!);
  }
  return Number.isFinite(size) && Math.abs(value) <= ROUNDING * size;
}
