/**
 * The rate at which money of a later year counts, for flows before and after tax. A real rate takes the rise of prices
 * along: (1 + real)(1 + rise) - 1. The rate after tax is the one before tax less the tax on it: common
 * practice, and exact for money lent at interest.
 */
import { type CaseInputs, num, type TaxBasis } from './case-inputs.js';

/**
 * @returns a fraction
 * @example discountRate(inputs, 'after tax') // 0.072 with discount_pct 10 meant before tax, and tax_pct 28
 */
export function discountRate(inputs: CaseInputs, basis: TaxBasis): number {
  const given = num(inputs, 'discount_pct') / 100;
  const nominal =
    inputs.discountPrices === 'real' ? (1 + given) * (1 + num(inputs, 'inflation_pct') / 100) - 1 : given;
  const kept = 1 - num(inputs, 'tax_pct') / 100;
  if (inputs.discountTax === 'before-tax' && basis === 'after tax') return nominal * kept;
  if (inputs.discountTax === 'after-tax' && basis === 'before tax') return nominal / kept;
  return nominal;
}

/** What the rate is, in a few words beside it. @example 'nominal, the same before and after tax' */
export function discountKind(inputs: CaseInputs): string {
  const rise = num(inputs, 'inflation_pct');
  const prices = inputs.discountPrices === 'real' ? `with a rise of prices of ${rise}% in it` : 'nominal';
  if (num(inputs, 'tax_pct') === 0) return prices;
  if (inputs.discountTax === 'both') return `${prices}, the same before and after tax`;
  return `${prices}, from ${num(inputs, 'discount_pct')}% meant ${inputs.discountTax === 'after-tax' ? 'after' : 'before'} tax`;
}

/** What the rate is, as a sentence for the reader. */
export function discountWords(inputs: CaseInputs): string {
  const prices =
    inputs.discountPrices === 'real'
      ? `real: the rise of prices of ${num(inputs, 'inflation_pct')}% is added to it`
      : 'nominal: it has the rise of prices in it';
  const taxed = num(inputs, 'tax_pct') > 0;
  const rate = (basis: TaxBasis) => `${Number((100 * discountRate(inputs, basis)).toFixed(2))}%`;
  const tax = !taxed
    ? 'No tax is counted.'
    : inputs.discountTax === 'both'
      ? 'The same rate is taken before and after tax.'
      : `It is meant for cash flow ${inputs.discountTax === 'after-tax' ? 'after' : 'before'} tax: ${rate('before tax')} before tax, ${rate('after tax')} after tax.`;
  return `The discount rate of ${num(inputs, 'discount_pct')}% a year is ${prices}. ${tax}`;
}
