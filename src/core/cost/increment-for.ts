/** One plan less moving the harness everywhere, with all its measures. */
import { type CaseInputs, num } from './case-inputs.js';
import { incrementOf } from './finance/incremental-analysis.js';
import { incrementResult } from './increment-result.js';
import { everywhere, flowsOn, type TaxBasis } from './increment-value.js';
import { planFlows, type Way } from './plan-flows.js';
import type { IncrementResult } from './result.js';

export function incrementFor(inputs: CaseInputs, ways: readonly Way[], basis: TaxBasis): IncrementResult {
  const harness = planFlows(inputs, everywhere(inputs, 'harness'));
  const flows = incrementOf(flowsOn(basis, planFlows(inputs, ways)), flowsOn(basis, harness));
  return incrementResult(flows, {
    discount: num(inputs, 'discount_pct') / 100,
    finance: num(inputs, 'finance_pct') / 100,
    reinvest: num(inputs, 'reinvest_pct') / 100,
  });
}
