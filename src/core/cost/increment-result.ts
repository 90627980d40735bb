/** All measures of one increment of flows. */

import { type CaseInputs, num, type TaxBasis } from './case-inputs.js';
import { discountRate } from './discount-rate.js';
import { annualEquivalent } from './finance/annual-equivalent.js';
import { incrementOf } from './finance/incremental-analysis.js';
import { internalRatesOfReturn } from './finance/internal-rates-of-return.js';
import { modifiedRateOfReturn } from './finance/modified-rate-of-return.js';
import { netPresentValue } from './finance/net-present-value.js';
import { discountedPaybackYears, paybackYears } from './finance/payback-years.js';
import { everywhere, flowsOn } from './increment-value.js';
import { planFlows, type Way } from './plan-flows.js';
import type { IncrementResult } from './result.js';

/**
 * @param flows by year from 0, at least years 0 and 1
 * @param rates fractions
 */
export function incrementResult(
  flows: readonly number[],
  rates: Readonly<Record<'discount' | 'finance' | 'reinvest', number>>,
): IncrementResult {
  const irrAll = internalRatesOfReturn(flows).map((rate) => 100 * rate);
  const mirr = modifiedRateOfReturn(flows, rates.finance, rates.reinvest);
  const npv = netPresentValue(rates.discount, flows);
  const spent = -flows[0]!;
  return {
    cashFlow: flows,
    runningPresentValue: flows.map((_, year) => netPresentValue(rates.discount, flows.slice(0, year + 1))),
    npv,
    irrPct: irrAll.length === 1 ? irrAll[0]! : null,
    irrAll,
    mirrPct: mirr === null ? null : 100 * mirr,
    paybackYears: paybackYears(flows),
    discountedPaybackYears: discountedPaybackYears(rates.discount, flows),
    benefitCost: spent > 0 ? (npv + spent) / spent : null,
    annualEquivalent: annualEquivalent(rates.discount, flows),
  };
}

/** One plan less moving the harness everywhere. */
export function incrementFor(inputs: CaseInputs, ways: readonly Way[], basis: TaxBasis): IncrementResult {
  const harness = planFlows(inputs, everywhere(inputs, 'harness'));
  const flows = incrementOf(flowsOn(basis, planFlows(inputs, ways)), flowsOn(basis, harness));
  const discount = discountRate(inputs, basis);
  const rate = (item: string) =>
    inputs.followers.some(([follower]) => follower === item) ? discount : num(inputs, item) / 100;
  return incrementResult(flows, { discount, finance: rate('finance_pct'), reinvest: rate('reinvest_pct') });
}
