/** Points, boxes, current and cable losses as tables. */
import type { PointsResult } from '../../core/io/points.js';
import { type Column, figures, fileTable, readTable, words } from '../columns.js';
import type { TableData } from '../text-table.js';
import type { ResultTable } from './result-table.js';

export const POINT_TABLES = ['points.csv', 'point-warnings.csv'] as const;

export function pointTables({ stations }: PointsResult): ResultTable[] {
  return [
    ...fileTable('points.csv', POINTS, stations, {
      chart: {
        kind: 'stacked column',
        title: 'Points by station',
        of: 'station',
        values: ['inputs', 'outputs'],
      },
    }),
    ...fileTable(
      'point-warnings.csv',
      WARNINGS,
      stations.flatMap(({ station, warnings }) => warnings.map((warning) => ({ station, warning }))),
    ),
  ];
}

const POINTS: readonly Column<PointsResult['stations'][number]>[] = [
  words('station', 'station', (s) => s.station),
  figures('inputs', 'inputs', 0, (s) => s.inputs),
  figures('outputs', 'outputs', 0, (s) => s.outputs),
  figures('boxes', 'boxes', 0, (s) => s.boxes, { isShown: () => true }),
  figures('spare_inputs', 'spare\ninputs', 0, (s) => s.spareInputs),
  figures('spare_outputs', 'spare\noutputs', 0, (s) => s.spareOutputs),
  figures('amps', 'supply\nA', 2, (s) => s.amps),
  figures('amps_with_reserve', undefined, 2, (s) => s.ampsWithReserve),
  figures('voltage_drop_pct', 'largest drop\non a cable %', 2, (s) => s.voltageDropPct),
  words('largest_drop_at', undefined, (s) => s.voltageDropAt),
];

export function pointsTable({ stations }: PointsResult): TableData {
  return readTable(POINTS, stations);
}

/** Read as sentences, by `pointsWarnings`. */
const WARNINGS: readonly Column<{ readonly station: string; readonly warning: string }>[] = [
  words('station', undefined, (w) => w.station),
  words('what_to_look_at', undefined, (w) => w.warning),
];
