/** What the gain of a way is made of: labour and contribution a year, and what of it is cash. */

import { type CaseInputs, num, type TaxBasis, withNumbers } from './case-inputs.js';
import { everywhere, incrementValue } from './increment-value.js';
import { planFlows, type Way } from './plan-flows.js';
import { contributionPerYear } from './standing/standing-result.js';

export interface Benefit {
  /** Saved in a year against moving the harness, in money of year 0. */
  readonly labourPerYear: number;
  readonly contributionPerYear: number;
  /** Worn connectors less upkeep: the rest of what a year costs less, on average over the years, prices as in year 0. */
  readonly otherPerYear: number;
  /** Share of the labour saved that turns into cash, per cent. */
  readonly labourCashPct: number;
  /** Present value with only that share of the labour, on the basis that decides. */
  readonly npvInCash: number;
}

export function benefitOf(inputs: CaseInputs, ways: readonly Way[], basis: TaxBasis): Benefit {
  const harness = everywhere(inputs, 'harness');
  const contribution = contributionPerYear(inputs, harness) - contributionPerYear(inputs, ways);
  const all = planFlows(inputs, harness).changeoverCost - planFlows(inputs, ways).changeoverCost;
  const share = num(inputs, 'labour_cash_pct');
  const inCash = withNumbers(inputs, {
    labour_per_h: (num(inputs, 'labour_per_h') * share) / 100,
    // The fitter is paid in cash whatever becomes of the time saved.
    install_per_h: num(inputs, 'install_per_h'),
  });
  return {
    labourPerYear: all - contribution,
    contributionPerYear: contribution,
    otherPerYear: runningCost(inputs, harness) - runningCost(inputs, ways) - all,
    labourCashPct: share,
    npvInCash: incrementValue(inCash, ways, basis),
  };
}

/** Mean of the years, in money of year 0. */
function runningCost(inputs: CaseInputs, ways: readonly Way[]): number {
  const { running } = planFlows(withNumbers(inputs, { inflation_pct: 0 }), ways);
  return running.reduce((sum, cost) => sum + cost, 0) / running.length;
}
