/** Turns the rows of a sheet into typed rows by the columns of its table. */
import type { Place } from '../core/model/place.js';
import type { Column, Columns, RowOf } from './column.js';
import type { Fault } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import type { NumberStyle, Reading } from './reading.js';
import { refuse } from './reading.js';
import { cellText, noteTaken, reportCell, type Sheet, type SheetRow } from './sheet.js';

/** A typed row with the way back to its place. */
export interface TypedRow<C extends Columns> {
  readonly values: RowOf<C>;
  readonly row: SheetRow;
  readonly at: Place;
}

type Camel<Name extends string> = Name extends `${infer First}_${infer Rest}`
  ? `${First}${Capitalize<Camel<Rest>>}`
  : Name;

type InCamelCase<T> = { [Name in keyof T & string as Camel<Name>]: T[Name] };

/** @example inCamelCase({ cost_per_h: 1 }) // { costPerH: 1 } */
export function inCamelCase<T extends object>(values: T): InCamelCase<T> {
  const named = Object.entries(values).map(([name, value]) => [
    name.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase()),
    value,
  ]);
  return Object.fromEntries(named) as InCamelCase<T>;
}

/** The values under the names that they have in a cell, with their place. */
export function recordOf<C extends Columns>({
  values,
  at,
}: TypedRow<C>): InCamelCase<RowOf<C>> & { at: Place } {
  return { ...inCamelCase(values), at };
}

/**
 * Reads every row; a row with a fault is reported and left out.
 * @param sheet a sheet; where a needed column is missing its rows are checked and none is returned
 */
export function typedRows<C extends Columns>(sheet: Sheet, columns: C): TypedRow<C>[] {
  const names = Object.keys(columns);
  const present = names.filter((name) => sheet.columns.has(name) || !columns[name]!.needed);
  const style = { decimalComma: sheet.delimiter === ';' };
  const blocks = blankBlocks(sheet, columns);
  const typed: TypedRow<C>[] = [];
  for (const row of sheet.rows) {
    const values: Record<string, unknown> = {};
    let isSound = true;
    for (const name of present) {
      const reading = readColumn(columns[name]!, cellText(sheet, row, name), style);
      if (reading.ok) {
        values[name] = reading.value;
        noteTaken(sheet, row, name, reading);
        continue;
      }
      isSound = false;
      const block = name === blocks.column ? blocks.ofRow.get(row) : undefined;
      if (block === undefined) reportCell(sheet, row, name, reading.fault.code, () => reading.fault);
      else if (block.rows[0] === row)
        reportCell(sheet, row, name, 'VAL01', () => sameAsAbove(reading.fault, block));
    }
    if (isSound && present.length === names.length) typed.push(typedRow<C>(sheet, row, values));
  }
  return typed;
}

function typedRow<C extends Columns>(sheet: Sheet, row: SheetRow, values: unknown): TypedRow<C> {
  return { values: values as RowOf<C>, row, at: { file: sheet.file, line: row.line } };
}

function readColumn(column: Column<unknown>, text: string, style: NumberStyle): Reading<unknown> {
  if (text !== '') return column.read(text, style);
  if (column.needed)
    return refuse({ code: 'VAL01', text: `found nothing, expected ${column.allowed}`, help: null });
  return { ok: true, value: column.blank };
}

/** Rows in a run whose first cell is empty, below one in which it is filled. */
interface BlankBlock {
  readonly above: string;
  readonly rows: readonly SheetRow[];
}

interface BlankBlocks {
  /** The first column of the sheet, where it is a needed one. */
  readonly column: string | null;
  readonly ofRow: ReadonlyMap<SheetRow, BlankBlock>;
}

/** People write the first column once for all rows that belong to it. */
function blankBlocks(sheet: Sheet, columns: Columns): BlankBlocks {
  const ofRow = new Map<SheetRow, BlankBlock>();
  const first = [...sheet.columns].sort((a, b) => a[1] - b[1])[0]?.[0];
  if (first === undefined || !columns[first]?.needed) return { column: null, ofRow };
  let above = '';
  let rows: SheetRow[] = [];
  for (const row of sheet.rows) {
    const text = cellText(sheet, row, first);
    if (text === '' && above !== '') {
      rows.push(row);
      ofRow.set(row, { above, rows });
    } else {
      above = text;
      rows = [];
    }
  }
  return { column: first, ofRow };
}

/** One complaint for the whole run, with what is likely meant. */
function sameAsAbove(fault: Fault, { above, rows }: BlankBlock): Fault {
  const last = rows.at(-1)!.line;
  const where = rows.length === 1 ? '' : ` here and down to line ${last}`;
  const each = rows.length === 1 ? 'in this row' : 'in each of these rows';
  return {
    ...fault,
    text: fault.text.replace('found nothing', `found nothing${where}`),
    help: `Is it the same as above, ${inBackticks(above)}? Then write it ${each}, too.`,
  };
}
