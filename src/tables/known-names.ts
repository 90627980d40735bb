/** The names that other tables may refer to, and the check of a reference against them. */
import { STATION_KINDS, type StationKind } from '../core/model/cell.js';
import type { ComplaintList, Fault } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import { nameHelp } from './nearest-name.js';
import { cellText, reportCell, type Sheet, type SheetRow } from './sheet.js';

/** Names with what is known of each; null where their table could not be read, so that nothing can be checked. */
export type KnownNames<T> = ReadonlyMap<string, T> | null;

/** Every station named in stations.csv, also in rows with other faults; the kind is null where it is faulty. */
export function knownStations(sheet: Sheet | null): KnownNames<StationKind | null> {
  if (!sheet?.isWhole || sheet.rows.length === 0) return null;
  const kindOf = (row: SheetRow) =>
    STATION_KINDS.find((kind) => kind === cellText(sheet, row, 'kind')) ?? null;
  return new Map(sheet.rows.map((row) => [cellText(sheet, row, 'station'), kindOf(row)]));
}

/** Every part named in routes.csv. */
export function knownParts(sheet: Sheet | null): KnownNames<true> {
  if (!sheet?.isWhole || sheet.rows.length === 0) return null;
  return new Map(sheet.rows.map((row) => [cellText(sheet, row, 'part'), true]));
}

interface Reference {
  readonly code: 'VAL09' | 'VAL10';
  readonly column: string;
  readonly name: string;
  readonly span?: Fault['span'];
}

/** @returns true where the name is known, or where that cannot be told: a table or a character could not be read */
export function checkReference(
  list: ComplaintList,
  sheet: Sheet,
  row: SheetRow,
  reference: Reference,
  known: KnownNames<unknown>,
): boolean {
  const { code, column, name, span } = reference;
  if (known === null || known.has(name) || name.includes('\uFFFD')) return true;
  reportCell(list, sheet, row, column, code, () => referenceFault(code, name, [...known.keys()], span));
  return false;
}

/** Names that a mistyped one is compared with: more than any table within the limits holds. */
const NAMES_COMPARED = 1000;

function referenceFault(
  code: 'VAL09' | 'VAL10',
  name: string,
  known: readonly string[],
  span: Fault['span'],
) {
  const [what, table] = code === 'VAL09' ? ['station', 'stations.csv'] : ['part', 'routes.csv'];
  const near = known.filter((n) => n !== '').slice(0, NAMES_COMPARED);
  const text = `found ${inBackticks(name)}, expected a ${what} of ${table}`;
  const help = nameHelp(name, near, `${what}s`);
  return span ? { text, help, span } : { text, help };
}
