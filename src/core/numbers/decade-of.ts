/** The power of ten at or below a number: 2 for 100 to below 1,000. Exact, unlike a rounded logarithm. @param x above 0 */
export function decadeOf(x: number): number {
  return Number(x.toExponential().split('e')[1]);
}
