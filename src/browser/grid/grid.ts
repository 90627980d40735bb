/** A table as it is shown and typed into: its known columns, and its rows with their lines in the text. */
import type { Column } from '../../tables/column.js';
import type { Tables } from '../../tables/inspect-tables.js';
import { keyedTable } from '../../tables/overrides/keyed-tables.js';
import { namesIn, sheetIn } from '../../tables/overrides/table-draft.js';
import { cellText } from '../../tables/sheet.js';

export interface GridColumn {
  readonly name: string;
  readonly format: Column<unknown>;
  /** Words that a cell must be one of. */
  readonly choices: readonly string[] | null;
  /** Words that are offered while other ones may be typed. */
  readonly offers: readonly string[];
}

export interface GridRow {
  /** Line of the text, from 1. */
  readonly line: number;
  /** In the order of the columns. */
  readonly cells: readonly string[];
}

/** A row with new values; `line` null for one at the end. */
export interface RowChange {
  readonly line: number | null;
  readonly values: Readonly<Record<string, string>>;
}

export interface EditGrid {
  readonly file: string;
  readonly columns: readonly GridColumn[];
  /** Columns that the header names. */
  readonly given: ReadonlySet<string>;
  readonly rows: readonly GridRow[];
}

export function gridOf(tables: Tables, file: string): EditGrid | null {
  const table = keyedTable(file);
  const sheet = sheetIn(tables, file);
  if (table === undefined || sheet === null) return null;
  const columns = Object.entries(table.columns).map(
    ([name, format]): GridColumn => ({
      name,
      format,
      choices: format.choices ?? null,
      offers: offersOf(tables, file, name),
    }),
  );
  return {
    file,
    columns,
    given: new Set(sheet.columns.keys()),
    rows: sheet.rows.map((row) => ({
      line: row.line,
      cells: columns.map(({ name }) => cellText(sheet, row, name)),
    })),
  };
}

/** Names that other tables give. */
function offersOf(tables: Tables, file: string, column: string): readonly string[] {
  if (column === 'part' && file !== 'routes.csv') return namesIn(tables, 'routes.csv', 'part');
  const isStation = ['stations', 'from', 'to'].includes(column) && file !== 'setups.csv';
  if (isStation || (column === 'station' && file !== 'stations.csv'))
    return namesIn(tables, 'stations.csv', 'station');
  if (file === 'setups.csv' && (column === 'from' || column === 'to'))
    return namesIn(tables, 'routes.csv', 'part');
  return [];
}
