/** All measures of one increment of flows. */
import { annualEquivalent } from './finance/annual-equivalent.js';
import { internalRatesOfReturn } from './finance/internal-rates-of-return.js';
import { modifiedRateOfReturn } from './finance/modified-rate-of-return.js';
import { netPresentValue } from './finance/net-present-value.js';
import { discountedPaybackYears, paybackYears } from './finance/payback-years.js';
import type { IncrementResult } from './result.js';

/** Rates as fractions. */
export interface IncrementRates {
  readonly discount: number;
  readonly finance: number;
  readonly reinvest: number;
}

/** @param flows by year from 0, at least years 0 and 1 */
export function incrementResult(flows: readonly number[], rates: IncrementRates): IncrementResult {
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
