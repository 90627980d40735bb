/** One plan less moving the harness everywhere, with all its measures. */

import { type CaseInputs, num, type TaxBasis } from './case-inputs.js';
import { discountRate } from './discount-rate.js';
import { incrementOf } from './finance/incremental-analysis.js';
import { incrementResult } from './increment-result.js';
import { everywhere, flowsOn } from './increment-value.js';
import { planFlows, type Way } from './plan-flows.js';
import type { IncrementResult } from './result.js';

export function incrementFor(inputs: CaseInputs, ways: readonly Way[], basis: TaxBasis): IncrementResult {
  const harness = planFlows(inputs, everywhere(inputs, 'harness'));
  const flows = incrementOf(flowsOn(basis, planFlows(inputs, ways)), flowsOn(basis, harness));
  const discount = discountRate(inputs, basis);
  const rate = (item: string) =>
    inputs.followers.some(([follower]) => follower === item) ? discount : num(inputs, item) / 100;
  return incrementResult(flows, { discount, finance: rate('finance_pct'), reinvest: rate('reinvest_pct') });
}
