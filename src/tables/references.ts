/**
 * Where the other tables refer to the names of one, found out only when a name is not known: then it tells whether the
 * name is wrong where it is used, or where it is listed.
 */

import { firstFew } from '../core/model/first-few.js';
import { listText } from '../core/model/list-text.js';
import { nearestNames } from './nearest-name.js';
import { cellText, type Sheet, type SheetRow } from './sheet.js';

/** Columns by table that name stations, or parts. */
const COLUMNS = {
  station: {
    'routes.csv': ['stations'],
    'travel.csv': ['from', 'to'],
    'stops.csv': ['station'],
    'variation.csv': ['station'],
    'changeovers.csv': ['station'],
    'setups.csv': ['station'],
    'signals.csv': ['station'],
  },
  part: { 'parts.csv': ['part'], 'jobs.csv': ['part'] },
} as const satisfies Record<string, Readonly<Record<string, readonly string[]>>>;

export interface NamePlace {
  readonly file: string;
  readonly line: number;
}

/** A name that is listed and that nothing refers to, so near to one that is missing that the two are one. */
export interface ListedOtherwise {
  readonly name: string;
  readonly sheet: Sheet;
  readonly row: SheetRow;
}

/** A table by its file name; null where there is none, or none that can be read. */
export type TableReader = (file: string) => Sheet | null;

export class References {
  private places: Map<string, NamePlace[]> | null = null;
  private readonly told = new Set<string>();

  /**
   * @param tableOf reads the tables that may refer to the names
   * @param sheet the table that lists the names, in the column `column`
   */
  constructor(
    private readonly tableOf: TableReader,
    private readonly sheet: Sheet,
    readonly column: keyof typeof COLUMNS,
  ) {}

  /** Every place that refers to a name, table by table. */
  placesOf(name: string): readonly NamePlace[] {
    this.places ??= this.found();
    return this.places.get(name) ?? [];
  }

  /** The names nearest to one that is not listed; of those equally near the ones that nothing refers to yet. */
  nearest(name: string, listed: readonly string[]): string[] {
    const near = nearestNames(name, listed);
    const free = near.filter((one) => this.placesOf(one).length === 0);
    return free.length > 0 ? free : near;
  }

  /** The name that is listed in place of this one, where several places refer to this one and none to the other. */
  listedOtherwise(name: string, listed: readonly string[]): ListedOtherwise | null {
    const [near, ...others] = this.nearest(name, listed);
    if (near === undefined || others.length > 0 || this.placesOf(near).length > 0) return null;
    if (this.placesOf(name).length < 2) return null;
    const row = this.sheet.rows.find((one) => cellText(this.sheet, one, this.column) === near);
    return row === undefined ? null : { name: near, sheet: this.sheet, row };
  }

  /** True the first time: one cause is told once. */
  isFirst(name: string): boolean {
    if (this.told.has(name)) return false;
    this.told.add(name);
    return true;
  }

  private found(): Map<string, NamePlace[]> {
    const places = new Map<string, NamePlace[]>();
    for (const [file, columns] of Object.entries(COLUMNS[this.column])) {
      const sheet = this.tableOf(file);
      for (const row of sheet?.rows ?? [])
        for (const name of namesIn(sheet!, row, columns))
          places.set(name, [...(places.get(name) ?? []), { file, line: row.line }]);
    }
    return places;
  }
}

function namesIn(sheet: Sheet, row: SheetRow, columns: readonly string[]): ReadonlySet<string> {
  const texts = columns.flatMap((column) => cellText(sheet, row, column).split('|'));
  return new Set(texts.map((text) => text.trim()).filter((text) => text !== ''));
}

/** Lines of one table that are named one by one. */
const LINES_NAMED = 3;

/** @example 'line 3 of routes.csv, lines 2, 3, 4 and 7 more of setups.csv' */
export function placesText(places: readonly NamePlace[]): string {
  const files = [...new Set(places.map(({ file }) => file))];
  return files
    .map((file) => {
      const lines = places.filter((place) => place.file === file).map(({ line }) => line);
      if (lines.length === 1) return `line ${lines[0]} of ${file}`;
      if (lines.length > LINES_NAMED) return `lines ${firstFew(lines, LINES_NAMED)} of ${file}`;
      return `lines ${listText(lines.map(String))} of ${file}`;
    })
    .join(', ');
}
