/** parts.csv: what a part brings, how many are wanted, in which ratio, and the good share. */
import type { Part } from '../core/model/cell.js';
import { yesNoColumn } from './choice-column.js';
import { optional } from './column.js';
import { inBackticks } from './in-backticks.js';
import { checkReference, type KnownNames } from './known-names.js';
import { nameColumn } from './name-column.js';
import { numberColumn } from './number-column.js';
import { quantities } from './quantities.js';
import { firstOfEach } from './repeated-rows.js';
import { reportCell, reportTable, type Sheet } from './sheet.js';
import { recordOf, type TypedRow, typedRows } from './typed-rows.js';

export const partColumns = {
  part: nameColumn('part of routes.csv'),
  contribution: optional(
    numberColumn(
      'money',
      'contribution of one more good part: its price less what varies with it, such as material',
      quantities.money,
    ),
    null,
  ),
  per_shift: optional(numberColumn('parts', 'demand per shift', quantities.partsWanted), null),
  per_week: optional(
    numberColumn(
      'parts',
      'demand per week, however many shifts it has; in place of per_shift',
      quantities.partsWanted,
    ),
    null,
  ),
  ratio: optional(
    numberColumn('parts', 'share in which parts are made together', {
      words: 'parts',
      min: 0.001,
      max: 1_000_000,
    }),
    null,
  ),
  yield_pct: optional(numberColumn('%', 'good share of the parts made', quantities.perCent), 100),
  unattended: optional(
    yesNoColumn('whether it is taken in from the infeed also while nobody is there'),
    true,
  ),
} as const;

type PartRow = TypedRow<typeof partColumns>;

/** @param routed the parts that have a route */
export function readParts(sheet: Sheet, routed: KnownNames<true>): Part[] {
  const rows = firstOfEach(sheet, typedRows(sheet, partColumns), 'PAR01', ['part']);
  for (const { row, values } of rows)
    checkReference(sheet, row, { code: 'VAL10', column: 'part', name: values.part }, routed);
  for (const { row, values } of rows)
    if (values.per_shift !== null && values.per_week !== null)
      reportCell(sheet, row, 'per_week', 'PAR03', () => ({
        text: `${inBackticks(values.part)} has a demand per shift and one per week`,
        help: 'Give one of the two, and leave the other empty.',
      }));
  if (rows.length === sheet.rows.length) checkRatios(sheet, rows, routed);
  return rows.map((row) => {
    const { perWeek, unattended, ...part } = recordOf(row);
    return {
      ...part,
      ...(perWeek === null ? {} : { perWeek }),
      ...(unattended ? {} : { unattended: false }),
    };
  });
}

/** A ratio is given for all parts or for none. */
function checkRatios(sheet: Sheet, rows: readonly PartRow[], routed: KnownNames<true>): void {
  const withRatio = rows.filter((r) => r.values.ratio !== null);
  if (withRatio.length === 0) return;
  const help = 'Give every part a ratio, or none.';
  const given = inBackticks(withRatio[0]!.values.part);
  const saying = (part: string) => ({
    text: `${inBackticks(part)} has no ratio, but ${given} has one`,
    help,
  });
  for (const { row, values } of rows)
    if (values.ratio === null) reportCell(sheet, row, 'ratio', 'PAR02', () => saying(values.part));
  const listed = new Set(rows.map((r) => r.values.part));
  for (const part of routed?.keys() ?? [])
    if (part !== '' && !listed.has(part)) reportTable(sheet, { code: 'PAR02', ...saying(part) }, 'ratio');
}
