/** Points, boxes, current and cable losses as tables. */
import type { PointsResult } from '../../core/io/points.js';
import { type Column, declared, figures, words } from '../columns.js';
import { drawn, type ResultTable } from './result-table.js';

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

export const pointsTable = declared(
  'points.csv',
  POINTS,
  ({ stations }: PointsResult) => stations,
  drawn('stacked column', 'Points by station', 'station', ['inputs', 'outputs']),
);

/** Read as sentences, by `pointsWarnings`. */
const WARNINGS: readonly Column<{ readonly station: string; readonly warning: string }>[] = [
  words('station', undefined, (w) => w.station),
  words('what_to_look_at', undefined, (w) => w.warning),
];

const TABLES = [
  pointsTable,
  declared('point-warnings.csv', WARNINGS, ({ stations }: PointsResult) =>
    stations.flatMap(({ station, warnings }) => warnings.map((warning) => ({ station, warning }))),
  ),
];

export const POINT_TABLES = TABLES.map(({ file }) => file);

export function pointTables(result: PointsResult): ResultTable[] {
  return TABLES.flatMap((table) => table.inFile(result));
}
