/**
 * Logarithm, exponential, power, sine and cosine with the same last bit in every engine.
 *
 * The language leaves the last bits of `Math.log` and its kin to the engine, so a page in a browser and the command line
 * would print other figures from the same tables. The library works them out from additions and multiplications alone.
 */

export { default as cos } from '@stdlib/math-base-special-cos';
export { default as exp } from '@stdlib/math-base-special-exp';
export { default as expm1 } from '@stdlib/math-base-special-expm1';
export { default as log } from '@stdlib/math-base-special-ln';
export { default as log1p } from '@stdlib/math-base-special-log1p';
export { default as power } from '@stdlib/math-base-special-pow';
export { default as sin } from '@stdlib/math-base-special-sin';

/** The power of ten at or below a number: 2 for 100 to below 1,000. Exact, unlike a rounded logarithm. @param x above 0 */
export function decadeOf(x: number): number {
  return Number(x.toExponential().split('e')[1]);
}
