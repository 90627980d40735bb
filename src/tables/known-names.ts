/** The names that other tables may refer to, and the check of a reference against them. */
import { STATION_KINDS, type StationKind } from '../core/model/cell.js';
import type { Fault } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import { nameHelp } from './nearest-name.js';
import {
  type ListedOtherwise,
  type NamePlace,
  placesText,
  References,
  type TableReader,
} from './references.js';
import { cellText, reportCell, type Sheet, type SheetRow } from './sheet.js';

/** Names with what is known of each, and who refers to them. */
interface ListedNames<T> extends ReadonlyMap<string, T> {
  readonly references: References;
}

/** null where the table of the names could not be read, so that nothing can be checked. */
export type KnownNames<T> = ListedNames<T> | null;

/** Every station named in stations.csv, also in rows with other faults; the kind is null where it is faulty. */
export function knownStations(sheet: Sheet | null, tableOf: TableReader): KnownNames<StationKind | null> {
  if (!sheet?.isWhole || sheet.rows.length === 0) return null;
  const kindOf = (row: SheetRow) =>
    STATION_KINDS.find((kind) => kind === cellText(sheet, row, 'kind')) ?? null;
  const kinds = new Map(sheet.rows.map((row) => [cellText(sheet, row, 'station'), kindOf(row)]));
  return Object.assign(kinds, { references: new References(tableOf, sheet, 'station') });
}

/** Every part named in routes.csv. */
export function knownParts(sheet: Sheet | null, tableOf: TableReader): KnownNames<true> {
  if (!sheet?.isWhole || sheet.rows.length === 0) return null;
  const parts = new Map(sheet.rows.map((row) => [cellText(sheet, row, 'part'), true as const]));
  return Object.assign(parts, { references: new References(tableOf, sheet, 'part') });
}

interface Reference {
  readonly code: 'VAL09' | 'VAL10';
  readonly column: string;
  readonly name: string;
  readonly span?: Fault['span'];
}

/** Reports a name that is not known; where a table or a character could not be read, that cannot be told. */
export function checkReference(
  sheet: Sheet,
  row: SheetRow,
  reference: Reference,
  known: KnownNames<unknown>,
): void {
  const { code, column, name, span } = reference;
  if (known === null || known.has(name) || name.includes('\uFFFD')) return;
  const { references } = known;
  const listed = [...known.keys()].filter((n) => n !== '').slice(0, NAMES_COMPARED);
  if (!references.isFirst(name)) sheet.list.passOver(sheet.file);
  else {
    const otherwise = references.listedOtherwise(name, listed);
    if (otherwise === null)
      reportCell(sheet, row, column, code, () => {
        const here = { file: sheet.file, line: row.line };
        return { ...unknownFault(code, name, listed, references, here), ...(span ? { span } : {}) };
      });
    else {
      reportListed(otherwise, name, references);
      sheet.list.passOver(sheet.file);
    }
  }
}

/** The name is wrong where it is listed: told there, once, with all that refers to it. */
function reportListed(
  { name: listed, sheet, row }: ListedOtherwise,
  name: string,
  references: References,
): void {
  const there = placesText(references.placesOf(name));
  reportCell(sheet, row, references.column, 'VAL16', () => ({
    text: `nothing refers to ${inBackticks(listed)}, while ${inBackticks(name)} is not in ${sheet.file} and is named on ${there}`,
    help: `Write one name everywhere: ${inBackticks(name)} here, or ${inBackticks(listed)} there.`,
  }));
}

/** Names that a mistyped one is compared with: more than any table within the limits holds. */
const NAMES_COMPARED = 1000;

function unknownFault(
  code: 'VAL09' | 'VAL10',
  name: string,
  listed: readonly string[],
  references: References,
  here: NamePlace,
): Pick<Fault, 'text' | 'help'> {
  const [what, table] = code === 'VAL09' ? ['station', 'stations.csv'] : ['part', 'routes.csv'];
  const others = references
    .placesOf(name)
    .filter(({ file, line }) => file !== here.file || line !== here.line);
  const also = others.length === 0 ? '' : `; also on ${placesText(others)}`;
  return {
    text: `found ${inBackticks(name)}, expected a ${what} of ${table}${also}`,
    help: nameHelp(name, candidates(references, name, listed), `${what}s`),
  };
}

/** Of names equally near, those that nothing refers to yet; all of them where none is near. */
function candidates(references: References, name: string, listed: readonly string[]): readonly string[] {
  const near = references.nearest(name, listed);
  return near.length > 0 ? near : listed;
}
