/**
 * A folder that builds on another: a row takes the place of the base's row of the same name, cell by cell for the
 * columns that its table has; rows with new names are added; tables and rows that it does not mention stay as they are
 * in the base. A table named in `whole_tables` of base.csv takes the place of the base's table as a whole.
 */
import type { Complaint } from '../../core/model/complaint.js';
import { complain, complaintList, type ReadAs } from '../complaint-list.js';
import { inBackticks } from '../in-backticks.js';
import type { Tables } from '../inspect-tables.js';
import { nearestName } from '../nearest-name.js';
import { cellExcerpt, type Sheet, type SheetRow } from '../sheet.js';
import { type KeyedTable, keyedTable } from './keyed-tables.js';
import { type LayeredTables, type Origin, originKey } from './layered-tables.js';
import {
  addRow,
  type DraftRow,
  draftIn,
  draftText,
  keyCell,
  keyOf,
  looseSheet,
  sameKey,
  setCells,
  type TableDraft,
} from './table-draft.js';

export interface BaseLink {
  /** Name of the base as base.csv gives it. */
  readonly folder: string;
  /** Tables, by file name, that replace those of the base as a whole. */
  readonly wholeTables: readonly string[];
}

/** @param base the tables of the base, with the places of its own base; @param own those of the folder */
export function mergeBase(base: LayeredTables, own: Tables, link: BaseLink): LayeredTables {
  const tables: Record<string, string> = { ...base.tables };
  const files = new Map(
    [...Object.keys(base.tables), ...base.unread].map((f) => [
      f,
      baseFile(link.folder, base.files.get(f) ?? f),
    ]),
  );
  const origins = new Map(
    [...base.origins].map(([key, o]) => [key, { ...o, file: baseFile(link.folder, o.file) }]),
  );
  const placed = <T extends { readonly file: string }>(list: readonly T[]): T[] =>
    list.map((one) => ({ ...one, file: baseFile(link.folder, one.file) }));
  const complaints = placed(base.complaints);
  const readAs = new Map<string, readonly ReadAs[]>(
    [...base.readAs].map(([file, list]) => [file, placed(list)]),
  );
  const unread = [...base.unread];
  const changes: string[] = [];
  const replaceWhole = (file: string, text: string): void => {
    tables[file] = text;
    files.delete(file);
    readAs.delete(file);
    for (const key of [...origins.keys()]) if (key.startsWith(`${file} `)) origins.delete(key);
  };
  for (const [file, text] of Object.entries(own)) {
    const table = keyedTable(file);
    const inBase = base.tables[file];
    if (!table || inBase === undefined || link.wholeTables.includes(file)) {
      replaceWhole(file, text);
      if (table) changes.push(inBase === undefined ? `${file} is new` : `${file} replaces the whole table`);
      continue;
    }
    const merged = mergeTable(table, inBase, text);
    complaints.push(...merged.complaints);
    if (merged.text === null) {
      unread.push(file);
      continue;
    }
    tables[file] = merged.text;
    readAs.set(file, [...(readAs.get(file) ?? []), ...merged.readAs]);
    for (const [key, origin] of merged.origins) origins.set(key, origin);
    changes.push(`${file} ${changedText(merged)}`);
  }
  const said = changes.length === 0 ? 'nothing is changed' : changes.join('; ');
  const notes = [
    ...notesOf(link.folder, base.notes),
    `${THE_CELL} builds on ${link.folder}: ${said}; all else is as there.`,
  ];
  return { tables, files, origins, readAs, complaints, unread, notes };
}

const THE_CELL = 'The cell';

/** What a cell says of itself, told where it is one of several: by its name. */
export function notesOf(name: string, notes: readonly string[]): string[] {
  return notes.map((text) => text.replace(new RegExp(`^${THE_CELL} `), () => `${name} `));
}

function changedText({ changed, added }: { readonly changed: number; readonly added: number }): string {
  const done = [
    ...(changed > 0 ? [`changes ${rowsText(changed)}`] : []),
    ...(added > 0 ? [`adds ${rowsText(added)}`] : []),
  ];
  return done.length === 0 ? 'changes nothing' : done.join(' and ');
}

function baseFile(folder: string, file: string): string {
  return `${folder.replace(/[/\\]+$/, '')}/${file}`;
}

function rowsText(count: number): string {
  return count === 1 ? '1 row' : `${count} rows`;
}

interface MergedTable {
  /** null where the tables cannot be put together. */
  readonly text: string | null;
  readonly origins: ReadonlyMap<string, Origin>;
  readonly complaints: readonly Complaint[];
  /** Of the header of the folder's own table. */
  readonly readAs: readonly ReadAs[];
  readonly changed: number;
  readonly added: number;
}

function mergeTable(table: KeyedTable, baseText: string, ownText: string): MergedTable {
  const list = complaintList();
  const sheet = looseSheet(list, table, ownText);
  const failed = { text: null, origins: new Map(), readAs: [], changed: 0, added: 0 };
  if (!sheet || list.hasError()) return { ...failed, complaints: list.sorted() };
  const lacking = table.keys.filter((key) => !sheet.columns.has(key));
  if (lacking.length > 0)
    return { ...failed, complaints: [...list.sorted(), lackingKey(table, lacking[0]!)] };
  const draft = draftIn({ [table.file]: baseText }, table);
  // A base that is no table is complained of where the tables are inspected.
  if (draft === null) return { ...failed, text: baseText, complaints: list.sorted() };
  const doubles = doubleRows(draft, sheet);
  if (doubles.length > 0) return { ...failed, complaints: [...list.sorted(), ...doubles] };
  return { ...mergeRows(draft, sheet), complaints: list.sorted(), readAs: list.notes() };
}

function lackingKey(table: KeyedTable, key: string): Complaint {
  const help = `Rows take the place of those of the base by ${table.keys.join(' and ')}; or name the table in whole_tables of base.csv.`;
  return complain('TAB11', table.file, `the needed column ${inBackticks(key)} is missing`, help, {
    column: key,
  });
}

function mergeRows(draft: TableDraft, sheet: Sheet): Omit<MergedTable, 'complaints' | 'readAs'> {
  const origins = new Map<string, Origin>();
  const before = draft.rows.length;
  const known = draft.rows.map((row) => keyOf(draft, row).join('.'));
  let changed = 0;
  for (const row of sheet.rows) {
    const key = ownKey(draft, sheet, row);
    const target = rowsNamed(draft, key)[0] ?? addRow(draft);
    const isNew = draft.rows.indexOf(target) >= before;
    if (!isNew) changed += 1;
    const values = Object.fromEntries(
      [...sheet.columns].map(([column, i]) => [column, plainNumber(sheet, row.cells[i] ?? '')]),
    );
    setCells(draft, target, values);
    const place = { file: sheet.file, line: row.line };
    for (const [column, i] of sheet.columns)
      origins.set(originKey(sheet.file, target.line, column), {
        ...place,
        excerpt: cellExcerpt(sheet, row, i),
      });
    const text = sheet.lines[row.line - 1] ?? '';
    origins.set(originKey(sheet.file, target.line), {
      ...place,
      excerpt: { text, start: 0, end: text.length },
      ...(isNew ? { help: newRowHelp(key.join('.'), known) } : {}),
    });
  }
  return { text: draftText(draft), origins, changed, added: sheet.rows.length - changed };
}

/** A row that lacks something is often one of the base under a wrong name. */
function newRowHelp(name: string, known: readonly string[]): string {
  const near = nearestName(name, known);
  const meant = near === null ? '' : ` Did you mean ${inBackticks(near)}?`;
  return `The base has no row ${inBackticks(name)}, so this is a new one and needs all that a row needs.${meant}`;
}

function ownKey(draft: TableDraft, sheet: Sheet, row: SheetRow): string[] {
  const style = { decimalComma: sheet.delimiter === ';' };
  return draft.table.keys.map((key) =>
    keyCell(draft.table, key, row.cells[sheet.columns.get(key)!] ?? '', style),
  );
}

function rowsNamed(draft: TableDraft, key: readonly string[]): DraftRow[] {
  return draft.rows.filter((row) => sameKey(keyOf(draft, row), key));
}

/** Rows of the folder whose name stands more than once, here or in the base: which of them is meant cannot be told. */
function doubleRows(draft: TableDraft, sheet: Sheet): Complaint[] {
  return sheet.rows.flatMap((row, i) => {
    const key = ownKey(draft, sheet, row);
    const earlier = sheet.rows.slice(0, i).some((r) => sameKey(ownKey(draft, sheet, r), key));
    const inBase = rowsNamed(draft, key).length;
    if (!earlier && inBase < 2) return [];
    const where = earlier ? 'is listed twice here' : `names ${inBase} rows of the base`;
    const column = draft.table.keys[0]!;
    const text = `the row ${inBackticks(key.join('.'))} ${where}, so it is unclear which row it replaces`;
    const help = `Give the whole table and name it in whole_tables of base.csv.`;
    const excerpt = cellExcerpt(sheet, row, sheet.columns.get(column)!);
    return [complain('BAS05', sheet.file, text, help, { line: row.line, column, excerpt })];
  });
}

/** A decimal comma is for tables with semicolons only; the base may have commas. */
function plainNumber(sheet: Sheet, cell: string): string {
  return sheet.delimiter === ';' && /^[+-]?\d+,\d+$/.test(cell) ? cell.replace(',', '.') : cell;
}
