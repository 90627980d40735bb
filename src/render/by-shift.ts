/** Good parts by the name of the shift, so that days and nights are not hidden in one mean. */
import { listText } from '../core/model/list-text.js';
import { numberText } from './numbers.js';

export interface NamedShift {
  readonly shift: string;
  /** Mean of the shifts of that name. */
  readonly parts: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** Shifts that differ by less than this are alike. */
const ALIKE = 2;

export function byShiftText(shifts: readonly NamedShift[]): string {
  return listText(shifts.map((s) => `${s.shift} ${numberText(s.parts, 1)} (${quantilesText(s)})`));
}

export function quantilesText({ p10, p50, p90 }: Omit<NamedShift, 'shift' | 'parts'>): string {
  if (p90 - p10 < ALIKE) return 'all nearly the same';
  return `P10 ${numberText(p10)}, P50 ${numberText(p50)}, P90 ${numberText(p90)}`;
}
