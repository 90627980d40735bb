/** Turns the rows of a sheet into typed rows by the columns of its table; zod holds the shape of a row. */
import * as z from 'zod';
import type { Place } from '../core/model/place.js';
import type { Column, Columns, RowOf } from './column.js';
import type { ComplaintList, Fault } from './complaint-list.js';
import type { NumberStyle } from './reading.js';
import { cellText, reportCell, type Sheet, type SheetRow } from './sheet.js';

/** A typed row with the way back to its place. */
export interface TypedRow<C extends Columns> {
  readonly values: RowOf<C>;
  readonly row: SheetRow;
  readonly at: Place;
}

/**
 * Reads every row; a row with a fault is reported and left out.
 * @param sheet a sheet; where a needed column is missing its rows are checked and none is returned
 */
export function typedRows<C extends Columns>(list: ComplaintList, sheet: Sheet, columns: C): TypedRow<C>[] {
  const names = Object.keys(columns);
  const present = names.filter((name) => sheet.columns.has(name) || !columns[name]!.needed);
  const shape = rowShape(columns, present, { decimalComma: sheet.delimiter === ';' });
  const typed: TypedRow<C>[] = [];
  for (const row of sheet.rows) {
    const cells: Record<string, string> = {};
    for (const name of present) cells[name] = cellText(sheet, row, name);
    const result = shape.safeParse(cells);
    if (!result.success) reportIssues(list, sheet, row, result.error.issues);
    else if (present.length === names.length) typed.push(typedRow<C>(sheet, row, result.data));
  }
  return typed;
}

function typedRow<C extends Columns>(sheet: Sheet, row: SheetRow, values: unknown): TypedRow<C> {
  return { values: values as RowOf<C>, row, at: { file: sheet.file, line: row.line } };
}

type RowShape = ReturnType<typeof newRowShape>;

/** Shapes are costly to build, and there is one for each table and way of writing numbers. */
const shapes = new WeakMap<Columns, Map<string, RowShape>>();

function rowShape(columns: Columns, present: readonly string[], style: NumberStyle): RowShape {
  const ofTable = shapes.get(columns) ?? new Map<string, RowShape>();
  shapes.set(columns, ofTable);
  const key = `${style.decimalComma} ${present.join()}`;
  const shape = ofTable.get(key) ?? newRowShape(columns, present, style);
  ofTable.set(key, shape);
  return shape;
}

function newRowShape(columns: Columns, present: readonly string[], style: NumberStyle) {
  return z.object(Object.fromEntries(present.map((name) => [name, cellShape(columns[name]!, style)])));
}

/** The shape of one cell: text in, value out; the fault travels in the issue's parameters. */
function cellShape<T>(column: Column<T>, style: NumberStyle) {
  return z.string().transform((text, context): T => {
    if (text === '' && !column.needed) return column.blank as T;
    const reading =
      text === '' ? ({ ok: false, fault: emptyFault(column) } as const) : column.read(text, style);
    if (reading.ok) return reading.value;
    context.addIssue({ code: 'custom', message: reading.fault.text, params: { fault: reading.fault } });
    return z.NEVER;
  });
}

function emptyFault(column: Pick<Column<unknown>, 'allowed'>): Fault {
  return { code: 'VAL01', text: `found nothing, expected ${column.allowed}`, help: null };
}

function reportIssues(
  list: ComplaintList,
  sheet: Sheet,
  row: SheetRow,
  issues: readonly z.core.$ZodIssue[],
): void {
  for (const issue of issues) {
    if (issue.code !== 'custom') throw new Error(`unexpected issue of a cell's shape: ${issue.message}`);
    const fault = issue.params?.fault as Fault;
    reportCell(list, sheet, row, String(issue.path[0]), fault.code, () => fault);
  }
}
