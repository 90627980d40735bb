/** The tables of a cell as they count in a run, row by row with the place of each, for a page that shows its inputs. */
import { keyedTables } from './overrides/keyed-tables.js';
import { type LayeredTables, originKey } from './overrides/layered-tables.js';
import { sheetIn } from './overrides/table-draft.js';

export interface ShownTable {
  readonly file: string;
  /** Columns in which at least one row says something. */
  readonly columns: readonly string[];
  readonly rows: readonly ShownRow[];
}

export interface ShownRow {
  /** Line of the table, with the file where it comes from elsewhere. */
  readonly place: string;
  readonly cells: readonly string[];
}

/** @param layers sound tables with the changes of the run in them */
export function shownTables(layers: LayeredTables): ShownTable[] {
  return keyedTables.flatMap((table) => {
    const sheet = sheetIn(layers.tables, table.file);
    if (sheet === null) return [];
    const used = [...sheet.columns].filter(([, at]) =>
      sheet.rows.some((row) => (row.cells[at] ?? '') !== ''),
    );
    return [
      {
        file: table.file,
        columns: used.map(([name]) => name),
        rows: sheet.rows.map((row) => ({
          place: placeOf(layers, table.file, row.line),
          cells: used.map(([, at]) => row.cells[at] ?? ''),
        })),
      },
    ];
  });
}

function placeOf({ origins, files }: LayeredTables, file: string, line: number): string {
  const origin = origins.get(originKey(file, line));
  const from = origin?.file ?? files.get(file) ?? file;
  const at = origin === undefined ? line : origin.line;
  if (at === null) return from;
  return from === file ? `${at}` : `${from}:${at}`;
}
