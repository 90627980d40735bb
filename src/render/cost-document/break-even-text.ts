/** At how many changeovers the option that is shown is worth what the harness is, each basis by its name. */
import { numberText } from '../numbers.js';
import type { CaseView } from './case-view.js';

export function breakEvenText({ result, watched, boxes }: CaseView, count = numberText): string {
  const even = result.breakEvenChangeovers;
  const { total, totalAfterTax } = watched === boxes ? even : (even.ofChoice ?? even);
  const at = (value: number | null) => (value === null ? 'never' : count(Math.ceil(value - 1e-9)));
  const after = result.basis === 'after tax' ? `, ${at(totalAfterTax)} after tax` : '';
  return `${at(total)} before tax${after}; ${count(result.plannedChangeovers)} are planned over ${result.horizonYears} ${result.horizonYears === 1 ? 'year' : 'years'}`;
}
