/** What one plan is worth against moving the harness everywhere: the figure that every question of doubt turns on. */
import type { CaseInputs, TaxBasis } from './case-inputs.js';
import { discountRate } from './discount-rate.js';
import { incrementOf } from './finance/incremental-analysis.js';
import { netPresentValue } from './finance/net-present-value.js';
import { type PlanFlows, planFlows, type Way } from './plan-flows.js';

export function flowsOn(basis: TaxBasis, plan: PlanFlows): readonly number[] {
  return basis === 'after tax' ? (plan.flowsAfterTax ?? plan.flows) : plan.flows;
}

export function everywhere(inputs: CaseInputs, way: Way): Way[] {
  return inputs.stations.map(() => way);
}

/** Net present value of a plan's flows less those of moving the harness everywhere. */
export function incrementValue(inputs: CaseInputs, ways: readonly Way[], basis: TaxBasis): number {
  return incrementValues(inputs, [ways], basis)[0]!;
}

/** The same for several plans of one case. */
export function incrementValues(
  inputs: CaseInputs,
  plans: readonly (readonly Way[])[],
  basis: TaxBasis,
): number[] {
  const harness = flowsOn(basis, planFlows(inputs, everywhere(inputs, 'harness')));
  const rate = discountRate(inputs, basis);
  return plans.map((ways) => {
    const flows = ways.every((way) => way === 'harness') ? harness : flowsOn(basis, planFlows(inputs, ways));
    return netPresentValue(rate, incrementOf(flows, harness));
  });
}
