/** Reads all tables of a cell and gathers every complaint in one run. */
import type { Cell, Robot, Route, Station } from '../core/model/cell.js';
import type { Complaint } from '../core/model/complaint.js';
import { checkCapacities, withCapacities } from './capacity-rules.js';
import { changeoverColumns, readChangeovers } from './changeovers-table.js';
import type { Columns } from './column.js';
import { type ComplaintList, complaintList, type ReadAs } from './complaint-list.js';
import { costColumns, readCosts } from './costs-table.js';
import { inBackticks } from './in-backticks.js';
import { jobColumns, readJobs } from './jobs-table.js';
import { knownParts, knownStations } from './known-names.js';
import { nameHelp } from './nearest-name.js';
import { keyedTable } from './overrides/keyed-tables.js';
import { partColumns, readParts } from './parts-table.js';
import { type Need, readSheet } from './read-sheet.js';
import type { TableReader } from './references.js';
import { readRobot, robotColumns } from './robot-table.js';
import { routeColumns } from './route-columns.js';
import { readRoutes } from './routes-table.js';
import { readSetups, setupColumns } from './setups-table.js';
import { reportCell, reportTable, type Sheet } from './sheet.js';
import { shiftColumns } from './shift-columns.js';
import { readShifts } from './shifts-table.js';
import { readSignals, signalColumns } from './signals-table.js';
import { readStations, stationColumns } from './stations-table.js';
import { readStops, stopColumns } from './stops-table.js';
import { besideFiles, tableFiles } from './table-formats.js';
import type { TableMemory } from './table-memory.js';
import { checkTimes } from './time-rules.js';
import { checkTravel } from './travel-rules.js';
import { readTravel, travelColumns } from './travel-table.js';
import { readVariation, variationColumns } from './variation-table.js';

/** Texts of the tables by file name, such as `routes.csv`. */
export type Tables = Readonly<Record<string, string>>;

export interface Inspection {
  /** The cell; null when there is an error. */
  readonly cell: Cell | null;
  /** Errors and warnings of all tables, by file, line and column. */
  readonly complaints: Complaint[];
  /** What was read as something else than it says; nothing is wrong with it. */
  readonly readAs: readonly ReadAs[];
}

/**
 * @param tables texts by file name; names that do not end in .csv or that begin with a dot are passed over
 * @param unread known tables that are there but could not be read, already complained of: nothing is said about them
 * @param memory what was read before, where tables are read over and over
 */
export function inspectTables(
  tables: Tables,
  unread: readonly string[] = [],
  memory: TableMemory | null = null,
): Inspection {
  const list = complaintList(unread);
  reportUnknownTables(list, tables);
  const sheetOf = (file: string, columns: Columns, need: Need = 'none'): Sheet | null => {
    if (Object.hasOwn(tables, file)) return readSheet(list, file, tables[file]!, columns, need);
    if (need !== 'none' && !unread.includes(file)) reportMissingTable(list, tables, file);
    return null;
  };
  const isThere = (file: string): boolean => Object.hasOwn(tables, file) || unread.includes(file);
  const cell = readTables(list, tableReader(tables), sheetOf, isThere, rememberedRows(list, tables, memory));
  const isWhole = cell !== null && !list.hasError();
  return { cell: isWhole ? cell : null, complaints: list.sorted(), readAs: list.notes() };
}

/** Reads a table once more for its names alone: what is wrong with it is told elsewhere. */
function tableReader(tables: Tables): TableReader {
  return (file) => {
    const format = keyedTable(file);
    if (format === undefined || !Object.hasOwn(tables, file)) return null;
    return readSheet(complaintList(), file, tables[file]!, format.columns, 'none');
  };
}

type SheetOf = (file: string, columns: Columns, need?: Need) => Sheet | null;

/** Reads a table, or remembers its rows; `others` are the tables whose names it uses. */
type RowsOf = <T>(file: string, others: readonly string[], read: () => T[]) => T[];

/** Only rows without a complaint are kept, so that each complaint is told in every run. */
function rememberedRows(list: ComplaintList, tables: Tables, memory: TableMemory | null): RowsOf {
  return <T>(file: string, others: readonly string[], read: () => T[]): T[] => {
    if (memory === null) return read();
    const texts = [file, ...others].map((name) => tables[name]);
    const known = memory.recall(file, texts);
    if (known !== null) return known as T[];
    const before = list.told();
    const rows = read();
    if (list.told() === before) memory.keep(file, texts, rows);
    return rows;
  };
}

function readTables(
  list: ComplaintList,
  tableOf: TableReader,
  sheetOf: SheetOf,
  isThere: (file: string) => boolean,
  remembered: RowsOf,
): Cell | null {
  const stationSheet = sheetOf('stations.csv', stationColumns, 'rows');
  const routeSheet = sheetOf('routes.csv', routeColumns, 'rows');
  const robotSheet = sheetOf('robot.csv', robotColumns, 'table');
  const kinds = knownStations(stationSheet, tableOf);
  const routed = knownParts(routeSheet, tableOf);
  const rows = <T>(file: string, columns: Columns, read: (sheet: Sheet) => T[], others: string[] = []): T[] =>
    remembered(file, others, () => {
      const sheet = sheetOf(file, columns);
      return sheet ? read(sheet) : [];
    });
  const named = ['stations.csv'];
  const stations = stationSheet ? readStations(stationSheet) : [];
  const routes = routeSheet ? readRoutes(routeSheet, kinds) : [];
  const robot = robotSheet ? readRobot(robotSheet) : null;
  const shifts = rows('shifts.csv', shiftColumns, (sheet) => readShifts(sheet));
  const others = {
    travel: rows('travel.csv', travelColumns, (sheet) => readTravel(sheet, kinds), named),
    parts: rows('parts.csv', partColumns, (sheet) => readParts(sheet, routed), ['routes.csv']),
    shifts,
    stops: rows('stops.csv', stopColumns, (sheet) => readStops(sheet, kinds), named),
    variation: rows('variation.csv', variationColumns, (sheet) => readVariation(sheet, kinds), named),
    changeovers: rows(
      'changeovers.csv',
      changeoverColumns,
      (sheet) => readChangeovers(sheet, kinds, list.hasError('shifts.csv') ? [] : shifts),
      [...named, 'shifts.csv'],
    ),
    setups: rows('setups.csv', setupColumns, (sheet) => readSetups(sheet, kinds), named),
    jobs: rows('jobs.csv', jobColumns, (sheet) => readJobs(sheet, routed), ['routes.csv']),
    signals: rows('signals.csv', signalColumns, (sheet) => readSignals(sheet, kinds), named),
    costs: rows('costs.csv', costColumns, (sheet) => readCosts(sheet)),
  };
  if (!stationSheet || !routeSheet) return null;
  checkCapacities(routeSheet, stations, routes);
  if (!list.hasError('routes.csv')) checkVisits(stationSheet, stations, routes);
  if (robot === null) return null;
  const cell = { stations: withCapacities(stations, routes), routes, robot, ...others };
  checkWays(list, cell, isThere('travel.csv') ? 'travel.csv' : 'robot.csv');
  if (!list.hasError()) checkTimes(routeSheet, cell);
  return cell;
}

/** Travel is judged only where the tables that give it are sound: else one cause would be reported many times. */
function checkWays(
  list: ComplaintList,
  cell: Pick<Cell, 'stations' | 'routes' | 'travel'> & { robot: Robot },
  file: string,
): void {
  const sources = ['stations.csv', 'routes.csv', 'robot.csv', 'travel.csv'];
  if (!sources.some((source) => list.hasError(source))) checkTravel(list, cell, file);
}

function reportUnknownTables(list: ComplaintList, tables: Tables): void {
  for (const file of Object.keys(tables)) {
    if (tableFiles.includes(file) || besideFiles.includes(file) || !isTableName(file)) continue;
    const text = `${inBackticks(file)} is not a table of a cell and is not read`;
    const help = nameHelp(file, tableFiles, 'tables');
    reportTable({ list, file }, { code: 'TAB02', severity: 'warning', text, help });
  }
}

/** Files that look like tables: hidden ones and other endings do not. */
export function isTableName(file: string): boolean {
  return /\.csv$/i.test(file) && !file.startsWith('.');
}

function reportMissingTable(list: ComplaintList, tables: Tables, file: string): void {
  const near = Object.keys(tables).find((name) => name.toLowerCase() === file);
  const help = near
    ? `Rename ${inBackticks(near)}.`
    : 'Add it to the folder; `roundsman init` writes a filled-in example.';
  reportTable({ list, file }, { code: 'TAB01', text: 'the table is needed and is not there', help });
}

function checkVisits(sheet: Sheet, stations: readonly Station[], routes: readonly Route[]): void {
  const visited = new Set(routes.flatMap((route) => route.steps.flatMap((step) => step.stations)));
  const rows = new Map(sheet.rows.map((row) => [row.line, row]));
  for (const station of stations) {
    const row = rows.get(station.at?.line ?? 0);
    if (visited.has(station.name) || !row) continue;
    reportCell(sheet, row, 'station', 'STA04', () => ({
      severity: 'warning',
      text: `no route visits ${inBackticks(station.name)}`,
      help: 'Name it in a step of routes.csv, or take the row out.',
    }));
  }
}
