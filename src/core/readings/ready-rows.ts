/** Rows for the tables of a cell, made from readings and ready to paste. */
import { mean as meanOf } from 'simple-statistics';
import type { Cell, Route, Station, Step } from '../model/cell.js';
import { travelLookup } from '../model/travel.js';
import type { Scatter } from './pooled-scatter.js';
import { rowFigure, rowParameters } from './row-figures.js';
import type { StepOfRoute } from './table-time.js';
import type { TimedAtStation, TimedElement } from './timed-element.js';

export interface ReadyTable {
  readonly file: string;
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** An element with a time for a row. */
export interface MeasuredTime {
  readonly timed: TimedElement;
  readonly meanS: number;
  readonly sdS: number | null;
  /** Steps that it belongs to, where a cell is given. */
  readonly steps: readonly StepOfRoute[];
}

/**
 * @param cell the cell whose rows are filled in with the measured times; without one the rows hold what was measured, and
 * empty cells for the rest
 * @returns the tables that get rows, each with at least one
 */
export function readyRows(
  measured: readonly MeasuredTime[],
  scatters: readonly Scatter[],
  cell: Cell | null,
): ReadyTable[] {
  const tables: ReadyTable[] = [
    { file: 'stations.csv', ...stationRows(measured, cell) },
    { file: 'routes.csv', header: ROUTE_HEADER, rows: cell ? routeRows(measured) : bareRouteRows(measured) },
    { file: 'robot.csv', header: ['setting', 'value'], rows: robotRows(measured) },
    { file: 'travel.csv', header: ['from', 'to', 'empty_s', 'loaded_s'], rows: travelRows(measured, cell) },
    {
      file: 'variation.csv',
      header: ['station', 'element', 'distribution', 'a', 'b', 'c'],
      rows: scatters.map(variationRow),
    },
  ];
  return tables.filter((table) => table.rows.length > 0);
}

function variationRow({ station, element, fit }: Scatter): string[] {
  const perUnit = element === 'repair' || element === 'response' ? 60 : 1;
  return [
    station,
    element,
    fit.distribution,
    ...rowParameters(fit.distribution, fit.parameters, perUnit, fit.sd),
  ];
}

const ROUTE_HEADER = [
  'part',
  'step',
  'stations',
  'cycle_s',
  'load_s',
  'unload_s',
  'max_wait_s',
  'parts_per_cycle',
  'every',
];
const AT_STEP = ['cycle', 'load', 'unload'] as const;
const STEP_FIELD = { cycle: 'cycleS', load: 'loadS', unload: 'unloadS' } as const;

function routeRows(measured: readonly MeasuredTime[]): string[][] {
  const steps = new Map<Step, Route>();
  for (const { steps: own } of measured) for (const { route, step } of own) steps.set(step, route);
  const inOrder = [...steps].sort(([a, ra], [b, rb]) => (ra.part === rb.part ? a.step - b.step : 0));
  return inOrder.map(([step, route]) => [
    route.part,
    String(step.step),
    step.stations.join('|'),
    ...AT_STEP.map((what) => stepCell(measured, step, what)),
    step.maxWaitS === null ? '' : String(step.maxWaitS),
    orBlank(step.partsPerCycle, 1),
    orBlank(step.everyParts, 1),
  ]);
}

/** The measured time; of alternative stations the mean of those that were timed; else what the table has. */
function stepCell(measured: readonly MeasuredTime[], step: Step, what: (typeof AT_STEP)[number]): string {
  const own = measured.filter(
    (m) => m.timed.kind === 'station' && m.timed.what === what && m.steps.some((s) => s.step === step),
  );
  if (own.length === 0) return orBlank(step[STEP_FIELD[what]], 0);
  return rowFigure(meanOf(own.map((m) => m.meanS)), own[0]!.sdS);
}

function orBlank(value: number, blank: number): string {
  return value === blank ? '' : String(value);
}

/** Without a cell: one row for each station and part, the step left empty. */
function bareRouteRows(measured: readonly MeasuredTime[]): string[][] {
  const keyOf = ({ timed }: MeasuredTime): string | null =>
    timed.kind === 'station' && AT_STEP.some((what) => what === timed.what)
      ? JSON.stringify([timed.part ?? '', timed.station])
      : null;
  const keys = [...new Set(measured.map(keyOf))].filter((key) => key !== null);
  return keys.map((key) => {
    const [part, station] = JSON.parse(key) as [string, string];
    const own = measured.filter((m) => keyOf(m) === key);
    return [part, '', station, ...AT_STEP.map((what) => figureOf(own, what)), '', '', ''];
  });
}

function figureOf(measured: readonly MeasuredTime[], what: TimedAtStation): string {
  const own = measured.find((m) => m.timed.kind === 'station' && m.timed.what === what);
  return own === undefined ? '' : rowFigure(own.meanS, own.sdS);
}

function stationRows(
  measured: readonly MeasuredTime[],
  cell: Cell | null,
): Pick<ReadyTable, 'header' | 'rows'> {
  const names = namesOf(measured, ['ready', 'close', 'repair'], cell);
  const at = (name: string) => measured.filter((m) => m.timed.kind === 'station' && m.timed.station === name);
  if (cell !== null)
    return {
      header: STATION_HEADER,
      rows: names.map((name) => stationRow(at(name), cell.stations.find((s) => s.name === name)!)),
    };
  return {
    header: ['station', 'ready_s', 'close_s', 'mttr_min'],
    rows: names.map((name) => {
      const own = at(name);
      return [name, figureOf(own, 'ready'), figureOf(own, 'close'), repairMin(own)];
    }),
  };
}

const STATION_HEADER = [
  'station',
  'kind',
  'x_m',
  'y_m',
  'capacity',
  'ready_s',
  'close_s',
  'cost_per_h',
  'mtbf_h',
  'mttr_min',
];

/** A time to repair without a time between stops makes no row. */
function namesOf(
  measured: readonly MeasuredTime[],
  whats: readonly TimedAtStation[],
  cell: Cell | null,
): string[] {
  const hasStops = (name: string): boolean =>
    cell === null || cell.stations.some((s) => s.name === name && s.mtbfH !== null);
  const names = measured.flatMap(({ timed }) => {
    if (timed.kind !== 'station' || !whats.includes(timed.what)) return [];
    return timed.what === 'repair' && !hasStops(timed.station) ? [] : [timed.station];
  });
  return [...new Set(names)];
}

function stationRow(own: readonly MeasuredTime[], station: Station): string[] {
  const text = (value: number | null): string => (value === null ? '' : String(value));
  return [
    station.name,
    station.kind,
    text(station.xM),
    text(station.yM),
    text(station.capacityParts),
    figureOf(own, 'ready') || orBlank(station.readyS, 0),
    figureOf(own, 'close') || orBlank(station.closeS, 0),
    orBlank(station.costPerH, 0),
    text(station.mtbfH),
    station.mtbfH === null ? '' : repairMin(own) || text(station.mttrMin),
  ];
}

function repairMin(own: readonly MeasuredTime[]): string {
  const repair = own.find((m) => m.timed.kind === 'station' && m.timed.what === 'repair');
  return repair === undefined ? '' : rowFigure(repair.meanS / 60, (repair.sdS ?? 0) / 60);
}

function robotRows(measured: readonly MeasuredTime[]): string[][] {
  return measured
    .filter(({ timed }) => timed.kind === 'index')
    .map(({ meanS, sdS }) => ['index_s', rowFigure(meanS, sdS)]);
}

function travelRows(measured: readonly MeasuredTime[], cell: Cell | null): string[][] {
  const ways = measured.flatMap((m) => (m.timed.kind === 'travel' ? [{ ...m, way: m.timed }] : []));
  const pairs = [...new Set(ways.map(({ way }) => JSON.stringify([way.from, way.to])))];
  const lookup = cell === null ? null : travelLookup(cell);
  return pairs.map((pair) => {
    const [from, to] = JSON.parse(pair) as [string, string];
    const timeOf = (loaded: boolean): string => {
      const own = ways.find(({ way }) => way.from === from && way.to === to && way.loaded === loaded);
      if (own !== undefined) return rowFigure(own.meanS, own.sdS);
      const given = lookup?.(from, to);
      return given ? rowFigure(loaded ? given.loadedS : given.emptyS, null) : '';
    };
    return [from, to, timeOf(false), timeOf(true)];
  });
}
