/** A cell of a workbook as the text that the column of a table reads. */
import type { GridCell } from './grid.js';

/** What the column takes: clock times, seconds, free text, or whatever else. */
export type CellUse = 'clock' | 'seconds' | 'text' | 'other';

/** @returns one line of text; what is wrong with the cell is told by whoever asks */
export function cellWords(cell: GridCell, use: CellUse): string {
  switch (cell.kind) {
    case 'text':
      return cell.text.replace(/\s*[\r\n]+\s*/g, ' ').trim();
    case 'number':
      // A time of day whose format was lost.
      if (use === 'clock' && cell.value >= 0 && cell.value < 1)
        return timeWords(Math.round(cell.value * 86_400), false, use);
      return cell.isPercent ? `${shortNumber(cell.value * 100)}%` : shortNumber(cell.value);
    case 'boolean':
      return cell.value ? 'TRUE' : 'FALSE';
    case 'time':
      return timeWords(cell.seconds, cell.hasSeconds, use);
    case 'date':
    case 'error':
      return cell.text;
    case 'no result':
      return `=${cell.formula}`;
  }
}

/** The fifteen digits that office programs show and keep: 0.1 + 0.2 is 0.3. */
function shortNumber(value: number): string {
  return String(Number(value.toPrecision(15)));
}

/** Among seconds a time of day is told whole, so that it is asked about; elsewhere as people write it. */
function timeWords(seconds: number, hasSeconds: boolean, use: CellUse): string {
  const sign = seconds < 0 ? '-' : '';
  const size = Math.abs(seconds);
  const two = (n: number): string => String(n).padStart(2, '0');
  const [h, min, s] = [Math.floor(size / 3600), Math.floor((size % 3600) / 60), size % 60];
  const isWhole = use === 'clock' ? s > 0 : use === 'seconds' || hasSeconds || s > 0;
  return `${sign}${two(h)}:${two(min)}${isWhole ? `:${two(s)}` : ''}`;
}
