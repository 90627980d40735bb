import { expm1, log1p } from '../../numbers/functions.js';
import { requireFlows, requireRate, requireYears } from './flow-arguments.js';
import { netPresentValue } from './net-present-value.js';

/**
 * The yearly amount, the same at the end of each year 1 to n, that is worth as much as the flows.
 *
 * NPV x (A/P, rate, n), n = the last year of the flows; at a rate of 0 the plain mean per year.
 *
 * @param rate discount rate as a fraction above -1
 * @param flows amounts by year from 0; at least years 0 and 1
 * @returns money per year
 * @throws RangeError where an argument is outside its range
 * @example annualEquivalent(0.1, [-10000, -500, -500, -500, -500, -500, -500, -500, 500]) // -2287.00
 */
export function annualEquivalent(rate: number, flows: readonly number[]): number {
  requireRate(rate);
  requireFlows(flows);
  const years = flows.length - 1;
  requireYears(years);
  return netPresentValue(rate, flows) * capitalRecovery(rate, years);
}

/**
 * Capital recovery factor (A/P, rate, n): the yearly payment over n years that repays 1 of year 0.
 *
 * rate / (1 - (1 + rate)^-n), written with expm1 and log1p so that small rates keep their digits; 1/n at rate 0.
 *
 * @param rate fraction above -1
 * @param years whole number, 1 or more
 * @throws RangeError where an argument is outside its range
 * @example capitalRecovery(0.1, 5) // 0.26380
 */
export function capitalRecovery(rate: number, years: number): number {
  requireRate(rate);
  requireYears(years);
  if (rate === 0) return 1 / years;
  return rate / -expm1(-years * log1p(rate));
}
