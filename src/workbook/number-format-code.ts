/** A number format as the code that .xlsx files carry. @example numberFormatCode({ digits: 2, unit: 'EUR' }) // '#,##0.00 "EUR"' */
import type { NumberFormat } from './workbook.js';

export function numberFormatCode({ digits, percent = false, unit = '' }: NumberFormat): string {
  const number = `#,##0${digits > 0 ? `.${'0'.repeat(digits)}` : ''}`;
  const after = unit === '' ? '' : ` "${unit.replaceAll('"', "''")}"`;
  return percent ? `${number}%` : `${number}${after}`;
}
