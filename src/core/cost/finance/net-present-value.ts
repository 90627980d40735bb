import { requireFlows, requireRate } from './flow-arguments.js';

/**
 * Net present value: what a row of yearly amounts is worth in year 0.
 *
 * Sum of flow(t) / (1 + rate)^t, t = 0, 1, 2 ... (the standard definition). Year 0 is not discounted.
 *
 * @param rate discount rate as a fraction above -1 (0.08 means 8%)
 * @param flows amounts by year from 0; money in is positive, money out negative; at least one
 * @returns money of year 0
 * @throws RangeError where an argument is outside its range, or the value is too large for a number
 * @example netPresentValue(0.08, [-40000, 5000, 8000, 12000, 30000]) // 3065.2227
 */
export function netPresentValue(rate: number, flows: readonly number[]): number {
  requireRate(rate);
  requireFlows(flows);
  // Horner from the last year: no power is ever formed, so long horizons neither overflow nor lose digits.
  const value = flows.reduceRight((later, flow) => later / (1 + rate) + flow, 0);
  if (!Number.isFinite(value))
    throw new RangeError(`the present value at a rate of ${rate} is too large for a number`);
  return value;
}
