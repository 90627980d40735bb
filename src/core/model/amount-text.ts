/**
 * An amount of money as plain text for sentences: whole from 100 on, two decimals below, groups of three digits with a
 * comma, as in the tables of the terminal. The gap before the currency does not break.
 *
 * @example amountText(12345.6, 'EUR') // '12,346 EUR'
 */
export function amountText(amount: number, currency = ''): string {
  const size = Math.abs(amount);
  const digits = size >= 100 || Number.isInteger(size) ? size.toFixed(0) : size.toFixed(2);
  const grouped = digits.replace(/\B(?=(\d{3})+(?!\d))(?<!\.\d*)/g, ',');
  const sign = amount < 0 && Number(digits) !== 0 ? '-' : '';
  return `${sign}${grouped}${currency === '' ? '' : `\u00A0${currency}`}`;
}
