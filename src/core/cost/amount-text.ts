/**
 * An amount of money as plain text for sentences: whole from 100 on, two decimals below, groups of three digits parted
 * by a narrow gap. Renderers that know a locale format the numbers of the result themselves.
 *
 * @example amountText(12345.6, 'EUR') // '12 346 EUR'
 */
export function amountText(amount: number, currency: string): string {
  const size = Math.abs(amount);
  const digits = size >= 100 ? size.toFixed(0) : size.toFixed(2);
  const grouped = size >= 10_000 ? digits.replace(/\B(?=(\d{3})+$)/g, ' ') : digits;
  const sign = amount < 0 && Number(digits) !== 0 ? '-' : '';
  return `${sign}${grouped}${currency === '' ? '' : ` ${currency}`}`;
}
