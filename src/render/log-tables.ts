/** What a log says as tables for a spreadsheet: every measured time, the time of the stations, the shifts. */
import type { LogResult } from '../core/log/log-result.js';
import type { MeasureSummary } from '../core/log/measure.js';
import type { CsvForm } from '../core/model/csv-form.js';
import { LOG_FIGURES_FILE } from '../tables/table-formats.js';
import type { Workbook } from '../workbook/workbook.js';
import { type CsvValue, csvText } from './csv.js';
import { logAnswer } from './log.js';
import { tablesBook } from './tables-book.js';

export const LOG_BOOK = 'log-figures.xlsx';

/** The answer, and the tables one sheet each. */
export function logBook(result: LogResult): Workbook {
  const tables = [
    { file: LOG_FIGURES_FILE, rows: logRows(result) },
    { file: 'station-times.csv', rows: shareRows(result) },
    // Not `shifts`: beside the sheets of a cell it would be taken for one of them.
    { file: 'shifts-worked.csv', rows: shiftRows(result) },
  ];
  return tablesBook(
    'What the log says',
    [...logAnswer(result), ...result.warnings],
    tables.filter(({ rows }) => rows.length > 1),
  );
}

/** Hours of the covered time; what a station with room for several parts does counts for each of them. */
function shareRows({ stations }: LogResult): CsvValue[][] {
  const head = [
    'station',
    'finishes',
    'finishes_per_h',
    'working_h',
    'down_h',
    'planned_stop_h',
    'blocked_h',
  ];
  return [
    [...head, 'robot_and_doors_h', 'empty_or_unknown_h', 'faults', 'mtbf_h'],
    ...stations.flatMap(({ station, finishes, finishesPerH, shares, stopRate }): CsvValue[][] =>
      shares === null
        ? []
        : [
            [
              station,
              finishes,
              finishesPerH,
              shares.processingS / 3600,
              shares.stoppedS / 3600,
              shares.pausedS / 3600,
              shares.waitRobotS / 3600,
              shares.handlingS / 3600,
              shares.restS / 3600,
              stopRate?.stops ?? null,
              stopRate?.mtbfH ?? null,
            ],
          ],
    ),
  ];
}

function shiftRows({ shifts }: LogResult): CsvValue[][] {
  return [
    ['date', 'shift', 'worked_h', 'covered_pct', 'parts', 'whole'],
    ...shifts.map((s) => [s.date, s.shift, s.hours, s.coveredPct, s.parts, s.isWhole]),
  ];
}

const COLUMNS = [
  'station',
  'to',
  'part',
  'element',
  'n',
  'mean_s',
  'sd_s',
  'ci_low_s',
  'ci_high_s',
  'min_s',
  'p10_s',
  'p50_s',
  'p90_s',
  'max_s',
  'total_s',
] as const;

/** Every measured time, one row each. */
function logRows({ stations, robot }: LogResult): CsvValue[][] {
  const rows = stations.flatMap(({ station, times, byPart }) => [
    ...Object.entries(times).map(([element, m]) =>
      csvRow([station, '', '', element], m as MeasureSummary | null),
    ),
    ...byPart.flatMap(({ part, ...own }) =>
      Object.entries(own).map(([element, m]) => csvRow([station, '', part, element], m)),
    ),
  ]);
  const ways = (robot?.ways ?? []).map((w) =>
    csvRow([w.from, w.to, '', w.loaded ? 'travel loaded' : 'travel empty'], w.times),
  );
  return [[...COLUMNS], ...[...rows, ...ways].flat()];
}

export function logCsv(result: LogResult, form: CsvForm): string {
  return csvText(logRows(result), 4, form);
}

function csvRow(names: readonly string[], m: MeasureSummary | null): CsvValue[][] {
  if (m === null) return [];
  const { n, mean, sd, ciLow, ciHigh, min, p10, p50, p90, max, total } = m;
  return [[...names, n, mean, sd, ciLow, ciHigh, min, p10, p50, p90, max, total]];
}
