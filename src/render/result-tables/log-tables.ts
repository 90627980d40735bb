/** A log of signals as tables: cycles, time of the stations, stops, handling, the robot's trips, shifts, damage. */
import type { LogResult, ShiftLog, StationLog, StationTimes, WayLog } from '../../core/log/log-result.js';
import type { MeasureSummary } from '../../core/log/measure.js';
import { LOG_FIGURES_FILE } from '../../tables/table-formats.js';
import { type Column, figures, fileRows, fileTable, readTable, words } from '../columns.js';
import { numberText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import { visibleText } from '../visible-text.js';
import type { ResultTable } from './result-table.js';

/** Of a time measured many times, in the order of a file. A row without the time shows that it lacks. */
function measuredColumns<Row>(of: (row: Row) => MeasureSummary | null) {
  const column = (
    name: string,
    heading: string | undefined,
    digits: number,
    value: (m: MeasureSummary) => number | null,
    more: Pick<Column<Row>, 'text'> = {},
  ): Column<Row> =>
    figures(
      name,
      heading,
      digits,
      (row) => {
        const m = of(row);
        return m === null ? null : value(m);
      },
      { isShown: () => true, ...more },
    );
  return {
    n: column('n', 'times', 0, (m) => m.n),
    mean: column('mean_s', 'mean', 1, (m) => m.mean),
    sd: column('sd_s', 'std.\ndev.', 2, (m) => m.sd),
    interval: column('ci_low_s', '±', 1, (m) => m.ciLow, {
      text: (row) => numberText(of(row)!.ciHigh! - of(row)!.mean, 1),
    }),
    high: column('ci_high_s', undefined, 1, (m) => m.ciHigh),
    min: column('min_s', undefined, 1, (m) => m.min),
    p10: column('p10_s', 'P10', 1, (m) => m.p10),
    p50: column('p50_s', undefined, 1, (m) => m.p50),
    p90: column('p90_s', 'P90', 1, (m) => m.p90),
    max: column('max_s', undefined, 1, (m) => m.max),
    total: column('total_s', undefined, 1, (m) => m.total),
  };
}

/** Of the workbook; the first one is the CSV file too. */
export function logTables(result: LogResult): ResultTable[] {
  const { stations, shifts } = result;
  return [
    measuredTable(result),
    ...fileTable(
      'station-times.csv',
      [STATION, FINISHES, PER_HOUR, ...HOURS, FAULTS, ...MTBF],
      stations.filter(isOfOne),
    ),
    // Not `shifts`: beside the sheets of a cell it would be taken for one of them.
    ...fileTable('shifts-worked.csv', SHIFT, shifts),
  ];
}

/** Every measured time, one row each. */
export function measuredTable({ stations, robot }: LogResult): ResultTable {
  const timed = (station: string, part: string, times: object) =>
    Object.entries(times).map(([element, m]: [string, MeasureSummary | null]) => ({
      station,
      to: '',
      part,
      element,
      m,
    }));
  const rows = [
    ...stations.flatMap(({ station, times, byPart }) => [
      ...timed(station, '', times),
      ...byPart.flatMap(({ part, ...own }) => timed(station, part, own)),
    ]),
    ...(robot?.ways ?? []).map((w) => ({
      ...{ station: w.from, to: w.to, part: '', m: w.times },
      element: w.loaded ? 'travel loaded' : 'travel empty',
    })),
  ];
  const measured = rows.filter(({ m }) => m !== null);
  return { file: LOG_FIGURES_FILE, rows: fileRows(MEASURED, measured) };
}

export function cycleTable({ stations }: LogResult): TableData {
  const [cycle, wait] = [measuredOf('cycle'), measuredOf('waitRobot')];
  const { n, mean, interval, sd, p10, p90 } = cycle;
  return readTable(
    [
      ...[STATION, { ...n, heading: 'cycles' }, mean, interval, sd, p10, p90],
      ...[{ ...wait.mean, heading: 'blocked\nmean' }, { ...wait.p90, heading: 'blocked\nP90' }, PER_HOUR],
    ],
    stations.filter((s) => s.finishes > 0 || s.times.cycle !== null),
  );
}

/** Hours in the file; people see their share of the covered time. */
export function shareTable({ stations }: LogResult): TableData {
  return readTable(
    [STATION, ...HOURS],
    stations.filter((s) => isOfOne(s) && s.times.cycle !== null),
  );
}

export function stopTable({ stations }: LogResult): TableData {
  const minutes = (time: keyof StationTimes, heading: string): Column<StationLog> => ({
    ...measuredOf(time).mean,
    heading,
    text: ({ times }) => numberText(times[time]!.mean / 60, 1),
  });
  return readTable(
    [
      ...[STATION, FAULTS, ...MTBF, minutes('stop', 'MTTR\nmin'), minutes('response', 'response\nmin')],
      ...[minutes('repair', 'repair\nmin'), PLANNED, minutes('pause', 'mean\nmin')],
    ],
    stations.filter(({ times }) => times.stop !== null || times.pause !== null),
  );
}

export function handlingTable({ stations }: LogResult): TableData {
  const withHalf = (time: keyof StationTimes, heading: string): Column<StationLog> => ({
    ...measuredOf(time).mean,
    heading,
    text: ({ times }) => {
      const { mean, ciHigh } = times[time]!;
      return `${numberText(mean, 2)}${ciHigh === null ? '' : ` ± ${numberText(ciHigh - mean, 2)}`}`;
    },
  });
  return readTable(
    [
      ...[STATION, withHalf('load', 'load'), withHalf('unload', 'unload')],
      ...[withHalf('ready', 'door opens'), withHalf('close', 'door closes')],
    ],
    stations.filter(({ times: t }) => t.load !== null || t.unload !== null),
  );
}

export function tripTable(trips: readonly WayLog[]): TableData {
  return readTable(TRIPS, trips);
}

export function shiftTable(shifts: readonly ShiftLog[]): TableData {
  return readTable(SHIFT, shifts);
}

export function damageTable({ damage }: LogResult): TableData {
  return readTable(DAMAGE, damage);
}

/** The station holds a number of parts that is known, so that its hours can be told apart. */
function isOfOne({ shares }: StationLog): boolean {
  return shares !== null;
}

function measuredOf(time: keyof StationTimes) {
  return measuredColumns<StationLog>((s) => s.times[time]);
}

interface Measured {
  readonly station: string;
  readonly to: string;
  readonly part: string;
  readonly element: string;
  readonly m: MeasureSummary | null;
}

const MEASURED: readonly Column<Measured>[] = [
  words('station', undefined, (row) => row.station),
  words('to', undefined, (row) => row.to),
  words('part', undefined, (row) => row.part),
  words('element', undefined, (row) => row.element),
  ...Object.values(measuredColumns<Measured>((row) => row.m)),
];

const STATION = words<StationLog>('station', 'station', (s) => s.station);
const FINISHES = figures<StationLog>('finishes', undefined, 0, (s) => s.finishes);
const PER_HOUR = figures<StationLog>('finishes_per_h', 'cycles\nper h', 1, (s) => s.finishesPerH);

/** Of the covered time; what a station with room for several parts does counts for each of them. */
const HOURS: readonly Column<StationLog>[] = (
  [
    ['working_h', 'working\n%', 'processingS'],
    ['down_h', 'down\n%', 'stoppedS'],
    ['planned_stop_h', 'planned\nstop %', 'pausedS'],
    ['blocked_h', 'blocked\n%', 'waitRobotS'],
    ['robot_and_doors_h', 'robot and\ndoors %', 'handlingS'],
    ['empty_or_unknown_h', 'empty or\nunknown %', 'restS'],
  ] as const
).map(([name, heading, key]) =>
  figures(name, heading, 1, ({ shares }) => shares![key] / 3600, {
    text: ({ shares }) => {
      const all = Object.values(shares!).reduce((sum, s) => sum + s, 0);
      return numberText((100 * shares![key]) / Math.max(1e-9, all), 1);
    },
  }),
);

const always = () => true;
const FAULTS = figures<StationLog>('faults', 'faults', 0, (s) => s.stopRate?.stops ?? s.times.stop?.n ?? 0);
const MTBF: readonly Column<StationLog>[] = [
  figures('mtbf_h', 'MTBF\nh', 2, (s) => s.stopRate?.mtbfH ?? null, { isShown: always }),
  figures('mtbf_low_h', 'interval', 2, (s) => s.stopRate?.ciLow ?? null, {
    isShown: always,
    text: ({ stopRate }) => {
      const low = numberText(stopRate!.ciLow, 2);
      return stopRate!.ciHigh === null ? `above ${low}` : `${low} to ${numberText(stopRate!.ciHigh, 2)}`;
    },
  }),
  figures('mtbf_high_h', undefined, 2, (s) => s.stopRate?.ciHigh ?? null),
];
const PLANNED = figures<StationLog>('planned_stops', 'planned\nstops', 0, (s) => s.times.pause?.n ?? 0);

const trip = measuredColumns<WayLog>((w) => w.times);
const hundredths = (column: Column<WayLog>): Column<WayLog> => ({ ...column, digits: 2 });
const TRIPS: readonly Column<WayLog>[] = [
  words('from', 'from', (w) => w.from),
  words('to', 'to', (w) => w.to),
  words('loaded', 'robot', (w) => w.loaded, {
    text: ({ loaded, attended }) =>
      `${loaded ? 'with a part' : 'empty'}${attended === null ? '' : attended ? ', attended' : ', unattended'}`,
  }),
  ...[trip.n, hundredths(trip.mean), hundredths(trip.p90)],
];

const SHIFT: readonly Column<ShiftLog>[] = [
  words('date', 'date', (s) => s.date),
  words('shift', 'shift', (s) => s.shift),
  figures('worked_h', 'worked\nh', 1, (s) => s.hours),
  figures('covered_pct', 'covered\n%', 0, (s) => s.coveredPct),
  figures('parts', 'parts', 0, (s) => s.parts),
  words('whole', 'whole', (s) => s.isWhole),
];

const DAMAGE: readonly Column<LogResult['damage'][number]>[] = [
  figures('count', 'count', 0, (d) => d.count),
  words('kind', 'what', (d) => d.kind),
  words('of', 'of', (d) => d.what, { text: (d) => visibleText(d.what) }),
  figures('first_line', 'first line', 0, (d) => d.firstLine, { text: (d) => `${d.firstLine}` }),
];
