/** Points, boxes, current and cable losses as tables. */
import type { PointsResult } from '../../core/io/points.js';
import { filledTable, type ResultTable } from './result-table.js';

export const POINT_TABLES = ['points.csv', 'point-warnings.csv'] as const;

export function pointTables({ stations }: PointsResult): ResultTable[] {
  return [
    ...filledTable(
      'points.csv',
      [
        [
          'station',
          'inputs',
          'outputs',
          'boxes',
          'spare_inputs',
          'spare_outputs',
          'amps',
          'amps_with_reserve',
          'voltage_drop_pct',
          'largest_drop_at',
        ],
        ...stations.map((s) => [
          s.station,
          s.inputs,
          s.outputs,
          s.boxes,
          s.spareInputs,
          s.spareOutputs,
          s.amps,
          s.ampsWithReserve,
          s.voltageDropPct,
          s.voltageDropAt,
        ]),
      ],
      {
        chart: {
          kind: 'stacked column',
          title: 'Points by station',
          of: 'station',
          values: ['inputs', 'outputs'],
        },
      },
    ),
    ...filledTable('point-warnings.csv', [
      ['station', 'what_to_look_at'],
      ...stations.flatMap((s) => s.warnings.map((text) => [s.station, text])),
    ]),
  ];
}
