/** Where the measures of each way against moving the harness come from. */
import { num } from '../case-inputs.js';
import type { AlternativeResult, IncrementResult } from '../result.js';
import { type AuditedCase, discountFormula, plusPct, rateOrDiscount } from './audit-inputs.js';
import { levelFormula } from './audit-ways.js';
import { type Formula, formula } from './formula.js';

/**
 * @param of one way less moving the harness
 * @param tax `` or ` after tax`
 */
export function incrementEntries(
  at: AuditedCase,
  { name }: AlternativeResult,
  harness: string,
  of: IncrementResult,
  tax: '' | ' after tax',
): void {
  const { inputs, item, trail } = at;
  const basis = tax === '' ? 'before tax' : 'after tax';
  const discount = discountFormula(at, basis);
  const last = of.cashFlow.length - 1;
  const horizon = item('horizon_years');
  const rate = plusPct(discount);
  of.cashFlow.forEach((flow, year) => {
    const own = (way: string) => trail.figure(`${way}: cash flow${tax} of year ${year}`);
    trail.add(`${name}: difference${tax} of year ${year}`, flow, formula`${own(name)} - ${own(harness)}`);
  });
  const from = (first: number) => trail.years(`${name}: difference${tax}`, first, last);
  trail.add(
    `${name}: plain sum of the differences${tax}`,
    of.cashFlow.reduce((sum, flow) => sum + flow, 0),
    formula`sum(${from(0)}, y = 0 to ${horizon})`,
  );
  const npv = trail.add(
    `${name}: net present value${tax}`,
    of.npv,
    formula`sum(${from(0)} / ${rate} ^ y, y = 0 to ${horizon})`,
  );
  if (of.benefitCost !== null)
    trail.add(
      `${name}: benefit-cost ratio${tax}`,
      of.benefitCost,
      formula`sum(${from(1)} / ${rate} ^ y, y = 1 to ${horizon}) / (0 - ${trail.figure(`${name}: difference${tax} of year 0`)})`,
    );
  trail.add(
    `${name}: the same gain every year${tax}`,
    of.annualEquivalent,
    levelFormula(npv, discount, horizon),
  );
  if (of.mirrPct !== null && num(inputs, 'horizon_years') > 0) {
    const [reinvest, finance] = (['reinvest_pct', 'finance_pct'] as const).map((name) =>
      plusPct(rateOrDiscount(at, name, basis)),
    ) as [Formula, Formula];
    const gained = formula`sum(max(0, ${from(0)}) x ${reinvest} ^ (${horizon} - y), y = 0 to ${horizon})`;
    const spent = formula`(0 - sum(min(0, ${from(0)}) / ${finance} ^ y, y = 0 to ${horizon}))`;
    trail.add(
      `${name}: modified rate of return, %${tax}`,
      of.mirrPct,
      formula`((${gained} / ${spent}) ^ (1 / ${horizon}) - 1) x 100`,
    );
  }
  const found = (what: string, value: number | null, words: string, by: readonly Formula[]): void =>
    trail.found('search', `${name}: ${what}${tax}`, value, `search: ${words}`, by);
  const irr =
    'every rate above -100% at which the differences are worth 0; one figure only where there is one';
  found('internal rate of return, %', of.irrPct, irr, [from(0)]);
  const sum = 'the time at which the running sum of the differences reaches 0, even within a year';
  found('payback, years', of.paybackYears, sum, [from(0)]);
  const discounted = 'the same with each difference brought to year 0 at the discount rate';
  found('discounted payback, years', of.discountedPaybackYears, discounted, [discount, from(0)]);
}
