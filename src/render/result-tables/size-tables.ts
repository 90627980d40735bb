/** How many machines, as tables: machine by machine, the closed forms, how the answer moves, where it changes. */
import type { BreakSide } from '../../core/size/size-break-points.js';
import type { CsvValue } from '../csv.js';
import type { ShownSize } from '../size.js';
import { filledTable, type ResultTable } from './result-table.js';

export const SIZE_TABLES = [
  'size.csv',
  'closed-forms.csv',
  'size-sensitivity.csv',
  'size-changes-at.csv',
] as const;

export function sizeTables(result: ShownSize): ResultTable[] {
  return [
    ...filledTable('size.csv', sizeRows(result), {
      money: ['cost_per_part', 'contribution_per_h', 'simulated_cost_per_part'],
      chart: {
        kind: 'line',
        title: 'Parts an hour by number of machines',
        of: 'machines',
        values: ['parts_per_h'],
      },
    }),
    ...filledTable('closed-forms.csv', formRows(result), {
      chart: {
        kind: 'line',
        title: 'Parts an hour by the best sequence and the closed forms',
        of: 'machines',
        values: FORM_COLUMNS.slice(1),
      },
    }),
    ...filledTable('size-sensitivity.csv', sensitivityRows(result)),
    ...filledTable('size-changes-at.csv', changeRows(result)),
  ];
}

function sizeRows({ rows, recommended }: ShownSize): CsvValue[][] {
  return [
    [
      'machines',
      'parts_per_h',
      'parts_per_shift',
      'robot_pct',
      'machines_pct',
      'wait_robot_pct',
      'cost_per_part',
      'contribution_per_h',
      'proven',
      'recommended',
      'simulated_parts_per_shift',
      'simulated_low',
      'simulated_high',
      'simulated_wait_robot_pct',
      'simulated_stopped_pct',
      'more_parts_per_h',
      'wait_busy_robot_pct',
      'machine_names',
    ],
    ...rows.map((r) => [
      r.machines,
      r.partsPerH,
      r.partsPerShift,
      r.robotUtilizationPct,
      r.machineUtilizationPct,
      r.waitRobotPct,
      r.costPerPart,
      r.contributionPerH,
      r.proven,
      r.machines === recommended?.machines,
      r.simulated?.partsPerShift.mean ?? null,
      r.simulated?.partsPerShift.ciLow ?? null,
      r.simulated?.partsPerShift.ciHigh ?? null,
      r.simulated?.waitRobotPct ?? null,
      r.simulated?.stoppedPct ?? null,
      r.marginalPartsPerH,
      r.waitBusyPct,
      r.machineNames.join(', '),
    ]),
  ];
}

const FORM_COLUMNS = [
  'machines',
  'best_sequence_per_h',
  'synchronous_per_h',
  'random_per_h',
  'wright_per_h',
  'exponential_times_per_h',
  'constant_service_per_h',
];

function formRows({ closedForm: form, rows }: ShownSize): CsvValue[][] {
  if (form === null) return [];
  const lists = [form.synchronous, form.random, form.wright, form.finiteSource, form.constantService];
  return [
    FORM_COLUMNS,
    ...rows.map(({ machines, partsPerH }) => [
      machines,
      partsPerH,
      ...lists.map((list) => list.rows.find((row) => row.machines === machines)?.partsPerH ?? null),
    ]),
  ];
}

function sensitivityRows({ sensitivity }: ShownSize): CsvValue[][] {
  return [
    ['all_times_of', 'change_pct', 'machines', 'parts_per_h'],
    ...sensitivity.map((s) => [s.element, s.changePct, s.machines, s.partsPerH]),
  ];
}

function changeRows({ breakPoints }: ShownSize): CsvValue[][] {
  const side = (s: BreakSide | null): CsvValue[] => [
    s?.value ?? null,
    s?.changePct ?? null,
    s?.machines ?? null,
  ];
  const of = (name: string) => [`${name}_value`, `${name}_change_pct`, `${name}_machines`];
  return [
    ['input', 'unit', 'now', ...of('below'), ...of('above')],
    ...breakPoints.map((p) => [p.element, p.unit, p.value, ...side(p.below), ...side(p.above)]),
  ];
}
