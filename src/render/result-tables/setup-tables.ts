/** The order of jobs on each machine as tables. */
import type { SetupOrders } from '../../core/setups/setup-orders.js';
import type { ResultTable } from './result-table.js';

export const SETUP_TABLES = ['setup-minutes.csv', 'setup-order.csv'] as const;

export function setupTables({ stations }: SetupOrders): ResultTable[] {
  return [
    {
      file: 'setup-minutes.csv',
      rows: [
        ['station', 'jobs', 'setup_min', 'as_listed_min', 'least_possible_min', 'proven'],
        ...stations.map((s) => [
          s.station,
          s.order.length,
          s.minutes,
          s.asListedMinutes,
          s.boundMinutes,
          s.proven,
        ]),
      ],
      chart: {
        kind: 'column',
        title: 'Set-up minutes: best order and order of the table',
        of: 'station',
        values: ['setup_min', 'as_listed_min'],
      },
    },
    {
      file: 'setup-order.csv',
      rows: [
        ['station', 'place', 'from', 'to', 'setup_min'],
        ...stations.flatMap((s) =>
          s.steps.map((step, i) => [s.station, i + 1, step.from, step.to, step.minutes]),
        ),
      ],
    },
  ];
}
