/** shifts.csv: patterns of shifts through the week. */
import type { Shift } from '../core/model/cell.js';
import { reportCell, type Sheet } from './sheet.js';
import { type ShiftRow, shiftColumns } from './shift-columns.js';
import { checkBreaks, checkOverlaps, onClockOf } from './shift-rules.js';
import { recordOf, typedRows } from './typed-rows.js';

export function readShifts(sheet: Sheet): Shift[] {
  const rows = typedRows(sheet, shiftColumns);
  const shifts = rows.map(shiftOf);
  rows.forEach((row, i) => {
    checkBreaks(sheet, row, shifts[i]!);
    checkOperators(sheet, row);
  });
  checkOverlaps(sheet, rows, shifts);
  return shifts;
}

function shiftOf(row: ShiftRow): Shift {
  const { start, end, breaksStop, ...shift } = recordOf(row);
  const { startMin, endMin } = onClockOf(start, { startMin: start, endMin: end });
  const breaks = shift.breaks
    .map((span) => onClockOf(startMin, span))
    .sort((a, b) => a.startMin - b.startMin);
  const operators = shift.operators ?? (shift.attended ? 1 : 0);
  return { ...shift, startMin, endMin, breaks, ...(breaksStop ? { breaksStop } : {}), operators };
}

function checkOperators(sheet: Sheet, { row, values }: ShiftRow): void {
  if (values.attended || !values.operators) return;
  reportCell(sheet, row, 'operators', 'SHI05', () => ({
    severity: 'warning',
    text: `found operators ${values.operators} in an unattended shift: they are paid, but stops wait for attended hours`,
    help: 'Set attended to yes, or operators to 0.',
  }));
}
