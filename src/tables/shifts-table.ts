/** shifts.csv: patterns of shifts through the week. */
import type { Shift } from '../core/model/cell.js';
import { reportCell, type Sheet } from './sheet.js';
import { type ShiftRow, shiftColumns } from './shift-columns.js';
import { checkBreaks, checkOverlaps, onClockOf } from './shift-rules.js';
import { typedRows } from './typed-rows.js';

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

function shiftOf({ values, at }: ShiftRow): Shift {
  const { startMin, endMin } = onClockOf(values.start, { startMin: values.start, endMin: values.end });
  const breaks = values.breaks.map((span) => onClockOf(startMin, span));
  return {
    pattern: values.pattern,
    shift: values.shift,
    days: values.days,
    startMin,
    endMin,
    breaks: breaks.sort((a, b) => a.startMin - b.startMin),
    ...(values.breaks_stop ? { breaksStop: true } : {}),
    attended: values.attended,
    operators: values.operators ?? (values.attended ? 1 : 0),
    labourPerH: values.labour_per_h,
    at,
  };
}

function checkOperators(sheet: Sheet, { row, values }: ShiftRow): void {
  if (values.attended || !values.operators) return;
  reportCell(sheet, row, 'operators', 'SHI05', () => ({
    severity: 'warning',
    text: `found operators ${values.operators} in an unattended shift: they are paid, but stops wait for attended hours`,
    help: 'Set attended to yes, or operators to 0.',
  }));
}
