/** Where the stations are, as stations.csv says, and the tables with one of them elsewhere. */
import { STATION_KINDS, type StationKind } from '../../core/model/cell.js';
import type { Tables } from '../../tables/inspect-tables.js';
import { sheetIn } from '../../tables/overrides/table-draft.js';
import { cellText } from '../../tables/sheet.js';
import { stationColumns } from '../../tables/stations-table.js';
import { withCells, withRows } from '../state/edit-tables.js';

export interface Placed {
  readonly name: string;
  readonly kind: StationKind;
  /** Line of stations.csv. */
  readonly line: number;
  /** null where no place is given. */
  readonly at: Spot | null;
}

/** Metres; y grows away from the reader, as seen from above. */
export interface Spot {
  readonly xM: number;
  readonly yM: number;
}

const FILE = 'stations.csv';

/** Every station that has a name and a kind; what is wrong with the others, their cells say. */
export function placedStations(tables: Tables): Placed[] {
  const sheet = sheetIn(tables, FILE);
  if (sheet === null) return [];
  const style = { decimalComma: sheet.delimiter === ';' };
  const metres = (text: string): number | null => {
    const reading = text === '' ? null : stationColumns.x_m.read(text, style);
    return reading?.ok ? reading.value : null;
  };
  return sheet.rows.flatMap((row) => {
    const name = cellText(sheet, row, 'station');
    const kind = STATION_KINDS.find((word) => word === cellText(sheet, row, 'kind').toLowerCase());
    if (name === '' || kind === undefined) return [];
    const [xM, yM] = [metres(cellText(sheet, row, 'x_m')), metres(cellText(sheet, row, 'y_m'))];
    return [{ name, kind, line: row.line, at: xM === null || yM === null ? null : { xM, yM } }];
  });
}

/** To the millimetre: what a floor is measured to. */
function metresText(metres: number, decimalComma: boolean): string {
  const text = String(Math.round(metres * 1000) / 1000 + 0);
  return decimalComma ? text.replace('.', ',') : text;
}

export function withPlace(tables: Tables, line: number, { xM, yM }: Spot): Tables {
  const decimalComma = sheetIn(tables, FILE)?.delimiter === ';';
  return withCells(tables, FILE, line, {
    x_m: metresText(xM, decimalComma),
    y_m: metresText(yM, decimalComma),
  });
}

/** Places on a circle for the stations that have none. */
export function withPlacesForAll(tables: Tables, radiusM: number): Tables {
  const without = placedStations(tables).filter(({ at }) => at === null);
  const decimalComma = sheetIn(tables, FILE)?.delimiter === ';';
  const changes = without.map(({ line }, k) => {
    const angle = (2 * Math.PI * k) / without.length;
    const [xM, yM] = [radiusM * Math.sin(angle), radiusM * Math.cos(angle)].map(
      (m) => Math.round(m * 10) / 10,
    );
    return { line, values: { x_m: metresText(xM!, decimalComma), y_m: metresText(yM!, decimalComma) } };
  });
  return withRows(tables, FILE, changes);
}

/** @param stepM 0 for none */
export function snapped({ xM, yM }: Spot, stepM: number): Spot {
  if (stepM === 0) return { xM, yM };
  const to = (metres: number): number => Math.round(metres / stepM) * stepM;
  return { xM: to(xM), yM: to(yM) };
}
