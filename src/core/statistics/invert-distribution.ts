/**
 * Finds x with F(x) = p for a rising distribution function: Newton steps from a start, each kept inside a bracket that
 * halves when a step would leave it, until x stands still.
 *
 * @param p probability, 0 < p < 1
 * @param share F, the distribution function
 * @param density its derivative
 * @param start a first guess within [low, high]
 * @param low F(low) <= p
 * @param high F(high) >= p
 */
export function invertDistribution(
  p: number,
  share: (x: number) => number,
  density: (x: number) => number,
  start: number,
  low: number,
  high: number,
): number {
  let x = start;
  let lo = low;
  let hi = high;
  for (let i = 0; i < 200; i++) {
    const error = share(x) - p;
    if (error > 0) hi = x;
    else lo = x;
    const newton = x - error / density(x);
    const next = newton > lo && newton < hi ? newton : (lo + hi) / 2;
    if (Math.abs(next - x) <= 1e-15 * Math.abs(next) || error === 0) return error === 0 ? x : next;
    x = next;
  }
  return x;
}
