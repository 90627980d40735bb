import { power } from '../../numbers/functions.js';
import { requireFlows, requireRate } from './flow-arguments.js';

/**
 * Simple payback: years until the running sum of the flows first reaches 0, straight-line within the year.
 *
 * Common practice in investment appraisal; says nothing about what comes after, so a sum that turns negative again
 * later is not seen here (`payBackHolds` tells).
 *
 * @param flows amounts by year from 0
 * @returns years; 0 where nothing has to be paid back; null where the sum never reaches 0
 * @throws RangeError where a flow is not a finite number
 * @example paybackYears([-1000, 400, 400, 400, 400]) // 2.5
 */
export function paybackYears(flows: readonly number[]): number | null {
  requireFlows(flows);
  let sum = flows[0]!;
  if (sum >= 0) return 0;
  for (let year = 1; year < flows.length; year++) {
    const flow = flows[year]!;
    if (sum + flow >= 0) return year - 1 + -sum / flow;
    sum += flow;
  }
  return null;
}

/**
 * Discounted payback: as `paybackYears`, with every flow brought to year 0 first.
 *
 * @param rate discount rate as a fraction above -1
 * @param flows amounts by year from 0
 * @returns years; 0 where nothing has to be paid back; null where the sum never reaches 0
 * @throws RangeError where an argument is outside its range
 * @example discountedPaybackYears(0.1, [-1000, 400, 400, 400, 400]) // 3.0193
 */
export function discountedPaybackYears(rate: number, flows: readonly number[]): number | null {
  requireRate(rate);
  requireFlows(flows);
  return paybackYears(flows.map((flow, year) => flow / power(1 + rate, year)));
}

/**
 * True when the running sum, once it has reached 0, never falls below it again (by more than rounding).
 *
 * @param flows amounts by year from 0
 * @throws RangeError where a flow is not a finite number
 * @example payBackHolds([-10, 20, -15]) // false
 */
export function payBackHolds(flows: readonly number[]): boolean {
  requireFlows(flows);
  let sum = 0;
  let size = 0;
  let reached = false;
  for (const flow of flows) {
    sum += flow;
    size += Math.abs(flow);
    if (reached && sum < -1e-12 * size) return false;
    if (sum >= 0) reached = true;
  }
  return true;
}
