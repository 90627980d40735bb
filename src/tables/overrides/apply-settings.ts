/**
 * Single cells changed from outside the tables, written `routes.p.2.cycle_s=200`: the table, what names the row, the
 * column, the value. The change is made in the table's text, so that every rule about tables holds for it as well.
 */

import type { Complaint } from '../../core/model/complaint.js';
import { costItems } from '../../core/model/cost-items.js';
import type { ComplaintCode } from '../complaint-codes.js';
import { complain } from '../complaint-list.js';
import { inBackticks } from '../in-backticks.js';
import { nameHelp } from '../nearest-name.js';
import {
  changeableColumns,
  type KeyedTable,
  keyedTables,
  pathForm,
  robotSettingNames,
} from './keyed-tables.js';
import { type LayeredTables, type Origin, originKey } from './layered-tables.js';
import {
  addRow,
  type DraftRow,
  draftCell,
  draftIn,
  draftText,
  keyOf,
  namesIn,
  newDraft,
  sameKey,
  samePiece,
  setCells,
  type TableDraft,
} from './table-draft.js';

/** A change in its parts. */
export interface Setting {
  /** As it was given. */
  readonly text: string;
  readonly path: string;
  readonly value: string;
}

interface Fault {
  readonly code: ComplaintCode;
  readonly text: string;
  readonly help: string | null;
  /** The faulty piece of the path. */
  readonly piece: string;
}

const PLACE = 'command line';
const FORM =
  'Write the table, what names the row, the column and the value: `routes.<part>.<step>.cycle_s=200`.';

/** @param layers tables to change; @param settings texts such as `robot.hands=2`, the last of two for one cell is refused */
export function applySettings(layers: LayeredTables, settings: readonly string[]): LayeredTables {
  const drafts = new Map<string, TableDraft | null>();
  const origins = new Map<string, Origin>(layers.origins);
  const complaints: Complaint[] = [...layers.complaints];
  const notes: string[] = [...layers.notes];
  const done = new Set<string>();
  for (const text of settings) {
    const outcome = applyOne(layers, drafts, text);
    if (outcome === null) continue;
    if ('code' in outcome) {
      complaints.push(complaintOf(text, outcome));
      continue;
    }
    const { draft, row, column, value, before } = outcome;
    const key = originKey(draft.table.file, row.line, column);
    if (done.has(key)) complaints.push(complaintOf(text, twice(text)));
    done.add(key);
    origins.set(key, originOf(text, value));
    if (outcome.isNew) origins.set(originKey(draft.table.file, row.line), originOf(text, value));
    notes.push(noteOf(text, before, draft.table.file, layers));
  }
  const tables: Record<string, string> = { ...layers.tables };
  for (const [file, draft] of drafts) if (draft) tables[file] = draftText(draft);
  return { ...layers, tables, origins, complaints, notes };
}

/** Splits a change at the sign between path and value. */
export function splitSetting(text: string): Setting | null {
  const parts = /^\s*([^=]+?)\s*=\s*(.*?)\s*$/s.exec(text);
  return parts ? { text, path: parts[1]!, value: parts[2]! } : null;
}

interface Change {
  readonly draft: TableDraft;
  readonly row: DraftRow;
  readonly column: string;
  readonly value: string;
  readonly before: string;
  readonly isNew: boolean;
}

function fault(code: ComplaintCode, piece: string, text: string, help: string | null): Fault {
  return { code, piece, text, help };
}

const CONTROL = /\p{Cc}/u;

/** A line break in it would make two rows of one. */
function controlFault(value: string, at: number): Fault {
  const code = value.codePointAt(at)!.toString(16).toUpperCase().padStart(4, '0');
  const text = `found the control character U+${code} at position ${at + 1} of the value, expected a value on one line`;
  return fault('SET07', value, text, 'Write the value without line breaks and tabs.');
}

/** The change made, or what is wrong with it; null where its table is unreadable, of which others complain. */
function applyOne(
  layers: LayeredTables,
  drafts: Map<string, TableDraft | null>,
  text: string,
): Change | Fault | null {
  const setting = splitSetting(text);
  const control = setting === null ? null : CONTROL.exec(setting.value);
  if (control !== null) return controlFault(setting!.value, control.index);
  if (setting === null)
    return fault('SET01', text, `found ${inBackticks(text)}, expected a path, \`=\` and a value`, FORM);
  const [name = ''] = setting.path.split('.');
  const table = keyedTables.find((t) => t.name === name);
  if (!table) return unknownTable(name);
  const target = targetOf(table, setting.path);
  if ('code' in target) return target;
  const draft = openDraft(layers, drafts, table, target.column);
  if (draft === null) return null;
  const found = rowFor(layers, draft, target.key);
  if ('code' in found) return found;
  const before = draftCell(draft, found.row, target.column);
  setCells(draft, found.row, { [target.column]: setting.value });
  return { draft, ...found, column: target.column, value: setting.value, before };
}

function unknownTable(name: string): Fault {
  const names = keyedTables.map((t) => t.name);
  const help = nameHelp(name, names, 'tables');
  return fault('SET02', name, `found ${inBackticks(name)}, expected the name of a table`, help);
}

/** The key (as one text, because names may hold dots) and the column of a path. */
function targetOf(table: KeyedTable, path: string): { key: string; column: string } | Fault {
  const rest = path.slice(table.name.length + 1);
  if (table.only !== undefined && rest !== '') return { key: rest, column: table.only };
  const dot = rest.lastIndexOf('.');
  if (dot <= 0)
    return fault('SET01', path, `found the path ${inBackticks(path)}, expected \`${pathForm(table)}\``, null);
  const column = rest.slice(dot + 1);
  const columns = changeableColumns(table);
  if (columns.includes(column)) return { key: rest.slice(0, dot), column };
  if (table.keys.includes(column)) {
    const text = `\`${column}\` names the row and cannot be changed from outside`;
    return fault('SET04', column, text, `Columns to change: ${columns.join(', ')}.`);
  }
  const text = `found ${inBackticks(column)}, expected a column of ${table.file}`;
  return fault('SET04', column, text, nameHelp(column, columns, 'columns'));
}

function openDraft(
  layers: LayeredTables,
  drafts: Map<string, TableDraft | null>,
  table: KeyedTable,
  column: string,
): TableDraft | null {
  const there = drafts.get(table.file);
  if (there !== undefined) return there;
  const draft = draftFrom(layers, table, column);
  drafts.set(table.file, draft);
  return draft;
}

function draftFrom(layers: LayeredTables, table: KeyedTable, column: string): TableDraft | null {
  if (layers.unread.includes(table.file)) return null;
  const isThere = Object.hasOwn(layers.tables, table.file);
  return isThere ? draftIn(layers.tables, table) : newDraft(table, [...table.keys, column]);
}

function rowFor(
  layers: LayeredTables,
  draft: TableDraft,
  key: string,
): { row: DraftRow; isNew: boolean } | Fault {
  const keys = draft.rows.map((row) => ({ row, key: keyOf(draft, row) }));
  const fitting = keys.filter((k) => isNamed(key, k.key));
  if (fitting.length === 1) return { row: fitting[0]!.row, isNew: false };
  if (fitting.length > 1) return ambiguous(draft.table, key, fitting.length);
  const possible = possibleKeys(layers, draft.table).find((k) => isNamed(key, k));
  if (!possible)
    return unknownRow(draft, key, [...keys.map((k) => k.key), ...possibleKeys(layers, draft.table)]);
  const row = addRow(draft);
  setCells(draft, row, Object.fromEntries(draft.table.keys.map((column, i) => [column, possible[i]!])));
  return { row, isNew: true };
}

function isNamed(text: string, key: readonly string[]): boolean {
  return text === key.join('.') || sameKey(text.split('.'), key);
}

/** Rows that a table may lack and that can be told from the others: their other cells are then at their defaults. */
function possibleKeys(layers: LayeredTables, table: KeyedTable): string[][] {
  if (table.name === 'robot') return robotSettingNames.map((name) => [name]);
  if (table.name === 'costs') return costItems.map((item) => [item.name]);
  if (table.name === 'parts') return namesIn(layers.tables, 'routes.csv', 'part').map((name) => [name]);
  const stations = (): string[] => namesIn(layers.tables, 'stations.csv', 'station');
  if (table.name === 'changeovers') return stations().map((name) => [name]);
  if (table.name !== 'travel') return [];
  const names = stations();
  return names.flatMap((from) => names.filter((to) => to !== from).map((to) => [from, to]));
}

function ambiguous(table: KeyedTable, key: string, count: number): Fault {
  const text = `${inBackticks(key)} names ${count} rows of ${table.file}, expected one`;
  return fault('SET06', key, text, 'Change the table itself, or give the rows names of their own.');
}

/** Names the first piece of the key that is not known. */
function unknownRow(draft: TableDraft, key: string, known: readonly string[][]): Fault {
  const { table } = draft;
  const pieces = key.split('.');
  if (pieces.length !== table.keys.length) {
    const text = `found ${inBackticks(key)}, expected \`${table.keys.map((k) => `<${k}>`).join('.')}\` of a row of ${table.file}`;
    const names = known.map((k) => k.join('.'));
    return fault('SET03', key, text, nameHelp(key, names, 'rows'));
  }
  let fitting = known;
  for (const [i, piece] of pieces.entries()) {
    const next = fitting.filter((k) => samePiece(k[i]!, piece));
    if (next.length > 0) {
      fitting = next;
      continue;
    }
    const names = [...new Set(fitting.map((k) => k[i]!))].filter((n) => n !== '');
    const of =
      i === 0 ? `of ${table.file}` : `of ${inBackticks(pieces.slice(0, i).join('.'))} in ${table.file}`;
    const help =
      names.length === 0 ? `There is no ${table.file} with rows to change.` : helpWith(piece, names);
    const wanted = table.name === 'travel' ? 'station' : table.keys[i];
    return fault('SET03', piece, `found ${inBackticks(piece)}, expected a ${wanted} ${of}`, help);
  }
  throw new Error(`the row ${key} of ${table.file} is there and was not found`);
}

/** A number is no misspelling of another one, so the numbers there are are listed. */
function helpWith(piece: string, names: readonly string[]): string | null {
  const isNumber = piece !== '' && Number.isFinite(Number(piece));
  return isNumber ? `There are ${names.slice(0, 10).join(', ')}.` : nameHelp(piece, names, 'names');
}

function twice(text: string): Fault {
  return fault(
    'SET05',
    text,
    `${inBackticks(splitSetting(text)!.path)} is set twice`,
    'Keep one of the two.',
  );
}

function complaintOf(given: string, { code, text, help, piece }: Fault): Complaint {
  const start = Math.max(0, given.indexOf(piece));
  const excerpt = { text: given, start, end: start + piece.length };
  return complain(code, PLACE, text, help, { excerpt });
}

function originOf(text: string, value: string): Origin {
  const start = text.lastIndexOf(value);
  return { file: PLACE, line: null, excerpt: { text, start, end: start + value.length } };
}

function noteOf(text: string, before: string, table: string, layers: LayeredTables): string {
  const { path, value } = splitSetting(text)!;
  const file = layers.files.get(table) ?? table;
  const then = before === '' ? `${file} gives none` : `${file} has ${before}`;
  const isThere = Object.hasOwn(layers.tables, table);
  return `${path} is ${value === '' ? 'left empty' : value}, as the command line says; ${isThere ? then : `there is no ${file}`}.`;
}
