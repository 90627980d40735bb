import { power } from '../../numbers/functions.js';
import { requireFlows, requireRate } from './flow-arguments.js';
import { netPresentValue } from './net-present-value.js';

/**
 * Modified rate of return: money out is financed at one rate, money in is put to work at another until the last year.
 *
 * ((future value of the incomes at reinvestRate) / (present value of the outlays at financeRate))^(1/n) - 1.
 *
 * @param flows amounts by year from 0
 * @param financeRate fraction above -1, discounts the outlays to year 0
 * @param reinvestRate fraction above -1, carries the incomes to the last year
 * @returns fraction; null where there is no outlay, no income, or only year 0
 * @throws RangeError where an argument is outside its range
 * @example modifiedRateOfReturn([-120000, 39000, 30000, 21000, 37000, 46000], 0.1, 0.12) // 0.126094
 */
export function modifiedRateOfReturn(
  flows: readonly number[],
  financeRate: number,
  reinvestRate: number,
): number | null {
  requireFlows(flows);
  requireRate(financeRate, 'the finance rate');
  requireRate(reinvestRate, 'the reinvestment rate');
  const years = flows.length - 1;
  const outlay = -netPresentValue(
    financeRate,
    flows.map((flow) => Math.min(flow, 0)),
  );
  const income = netPresentValue(
    reinvestRate,
    flows.map((flow) => Math.max(flow, 0)),
  );
  // One year alone is one or the other.
  if (outlay === 0 || income === 0) return null;
  return power(income / outlay, 1 / years) * (1 + reinvestRate) - 1;
}
