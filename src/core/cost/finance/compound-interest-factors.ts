import { capitalRecovery } from './annual-equivalent.js';
import { requireRate, requireYears } from './flow-arguments.js';

/** The eight factors of compound interest by the usual letters: P present, F future, A yearly, G yearly rise. */
export interface CompoundInterestFactors {
  /** Future of a present amount. */
  readonly FP: number;
  /** Present of a future amount. */
  readonly PF: number;
  /** Yearly amount that grows into a future one (sinking fund). */
  readonly AF: number;
  /** Yearly amount that repays a present one (capital recovery). */
  readonly AP: number;
  /** Future of a yearly amount. */
  readonly FA: number;
  /** Present of a yearly amount. */
  readonly PA: number;
  /** Yearly amount worth a rise of 1 per year from year 2. */
  readonly AG: number;
  /** Present of a rise of 1 per year from year 2. */
  readonly PG: number;
}

/**
 * Compound-interest factors for yearly compounding over n years.
 *
 * Definitions as in any engineering-economy text (Newnan, Eschenbach & Lavelle, *Engineering Economic Analysis*,
 * appendix of tables).
 *
 * @param rate fraction above -1; 0 gives the limits (P/A = n, P/G = n(n-1)/2)
 * @param years whole number, 1 or more
 * @throws RangeError where an argument is outside its range
 * @example compoundInterestFactors(0.1, 5).PA // 3.7908
 */
export function compoundInterestFactors(rate: number, years: number): CompoundInterestFactors {
  requireRate(rate);
  requireYears(years);
  const FP = (1 + rate) ** years;
  const AP = capitalRecovery(rate, years);
  const PA = 1 / AP;
  const PG = presentOfRise(rate, years);
  return { FP, PF: 1 / FP, AF: AP / FP, AP, FA: PA * FP, PA, AG: PG * AP, PG };
}

/** Summed year by year: the closed form divides by rate squared and loses its digits at small rates. */
function presentOfRise(rate: number, years: number): number {
  let value = 0;
  for (let year = years; year >= 1; year--) value = (value + (year - 1)) / (1 + rate);
  return value;
}
