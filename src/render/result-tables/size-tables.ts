/** How many machines, as tables: machine by machine, the closed forms, how the answer moves, where it changes. */
import type { ClosedForm } from '../../core/size/closed-form.js';
import type { BreakSide, SizeBreakPoint } from '../../core/size/size-break-points.js';
import type { SizeResult } from '../../core/size/size-cell.js';
import type { SizeRow } from '../../core/size/size-row.js';
import type { SizeStudy, StudiedRow } from '../../core/size/size-study.js';
import { type Column, declared, figures, fileTable, readTable, words } from '../columns.js';
import { numberText, signedText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

/** A result with or without its simulated rows. */
export interface ShownSize extends SizeResult, Partial<Pick<SizeStudy, 'simulation' | 'withStops'>> {
  readonly rows: readonly StudiedRow[];
}

/** The number of machines, marked where it is the one to choose. */
function machines(chosen: number | undefined): Column<StudiedRow> {
  return figures('machines', 'machines', 0, (row) => row.machines, {
    text: (row) => `${row.machines}${row.machines === chosen ? ' *' : '  '}`,
  });
}

function constantColumns({ recommended }: ShownSize): Column<StudiedRow>[] {
  return [
    machines(recommended?.machines),
    figures('parts_per_h', 'parts\nan h', 1, (row) => row.partsPerH),
    figures('more_parts_per_h', 'more\nan h', 1, (row) => row.marginalPartsPerH, { none: '' }),
    figures('parts_per_shift', 'parts\na\nshift', 1, (row) => row.partsPerShift),
    figures('robot_pct', 'robot\nbusy %', 1, (row) => row.robotUtilizationPct),
    figures('machines_pct', 'working\n%', 1, (row) => row.machineUtilizationPct),
    figures('wait_robot_pct', 'blocked\n%', 1, (row) => row.waitRobotPct),
    figures('wait_busy_robot_pct', 'by\nbusy\nrobot %', 1, (row) => row.waitBusyPct),
    figures('cost_per_part', 'cost a\npart', 2, (row) => row.costPerPart, { isMoney: true }),
    figures('margin_per_h', 'margin\nan h', 2, (row) => row.contributionPerH, {
      isMoney: true,
    }),
    words('proven', undefined, (row) => row.proven),
    words('recommended', undefined, (row) => row.machines === recommended?.machines),
    words('machine_names', undefined, (row) => row.machineNames.join(', ')),
  ];
}

export function sizeTable(result: ShownSize): TableData {
  return readTable(constantColumns(result), result.rows);
}

/** Empty in a file where the row was not simulated. */
const SIMULATED: readonly Column<StudiedRow>[] = [
  figures(
    'simulated_parts_per_shift',
    'parts\na\nshift',
    1,
    ({ simulated: s }) => s?.partsPerShift.mean ?? null,
  ),
  figures('simulated_low', '±', 1, ({ simulated: s }) => s?.partsPerShift.ciLow ?? null, {
    text: ({ simulated: s }) => numberText(s!.partsPerShift.mean - s!.partsPerShift.ciLow!, 1),
  }),
  figures('simulated_high', undefined, 1, ({ simulated: s }) => s?.partsPerShift.ciHigh ?? null),
  figures('simulated_robot_pct', 'robot\nbusy %', 1, ({ simulated: s }) => s?.robotUtilizationPct ?? null),
  figures('simulated_machines_pct', 'working\n%', 1, ({ simulated: s }) => s?.machineUtilizationPct ?? null),
  figures('simulated_wait_robot_pct', 'blocked\n%', 1, ({ simulated: s }) => s?.waitRobotPct ?? null),
  figures('simulated_stopped_pct', 'down\n%', 1, ({ simulated: s }) => s?.stoppedPct ?? null),
  figures('simulated_cost_per_part', 'cost a\npart', 2, ({ simulated: s }) => s?.costPerPart?.mean ?? null, {
    isMoney: true,
  }),
  figures('simulated_margin_per_h', 'margin\nan h', 2, ({ simulated: s }) => s?.contributionPerH ?? null, {
    isMoney: true,
  }),
];

/** The rows with stops and variation; null where they were not simulated. */
export function simulatedTable({ rows, withStops }: ShownSize): TableData | null {
  const simulated = rows.filter((row) => row.simulated !== undefined);
  if (simulated.length === 0) return null;
  return readTable([machines(withStops?.recommended.machines), ...SIMULATED], simulated);
}

function formColumns(form: ClosedForm): Column<SizeRow>[] {
  const by = (
    name: string,
    heading: string,
    list: readonly { readonly machines: number; readonly partsPerH: number }[],
  ): Column<SizeRow> =>
    figures(name, heading, 1, (row) => list.find((r) => r.machines === row.machines)?.partsPerH ?? null);
  return [
    figures('machines', 'machines', 0, (row) => row.machines),
    figures('best_sequence_per_h', 'best\nsequence', 1, (row) => row.partsPerH),
    by('synchronous_per_h', 'synchronous\nservicing', form.synchronous.rows),
    by('random_per_h', 'random\nservicing', form.random.rows),
    by('wright_per_h', 'Wright', form.wright.rows),
    by('exponential_times_per_h', 'exponential\ntimes', form.finiteSource.rows),
    by('constant_service_per_h', 'constant\nservice', form.constantService.rows),
  ];
}

export function closedFormTable(form: ClosedForm, rows: readonly SizeRow[]): TableData {
  return readTable(formColumns(form), rows);
}

const SENSITIVITY: readonly Column<ShownSize['sensitivity'][number]>[] = [
  words('all_times_of', 'all times of', (s) => s.element),
  figures('change_pct', 'change %', 0, (s) => s.changePct, { text: (s) => signedText(s.changePct) }),
  figures('machines', 'machines\nto choose', 0, (s) => s.machines),
  figures('parts_per_h', 'parts an hour\nthen', 1, (s) => s.partsPerH),
];

export const sizeSensitivityTable = declared(
  'size-sensitivity.csv',
  SENSITIVITY,
  ({ sensitivity }: ShownSize) => sensitivity,
);

const BREAK_POINTS: readonly Column<SizeBreakPoint>[] = [
  words('input', 'input', (p) => p.element),
  words('unit', undefined, (p) => p.unit),
  figures('now', 'now', 1, (p) => p.value, { none: 'several', text: (p) => withUnit(p.value!, p.unit) }),
  ...sideColumns('below', (p) => p.below),
  ...sideColumns('above', (p) => p.above),
];

/** Where the choice changes on one side, and the number to choose there. */
function sideColumns(
  side: 'below' | 'above',
  of: (p: SizeBreakPoint) => BreakSide | null,
): Column<SizeBreakPoint>[] {
  return [
    figures(`${side}_change_pct`, side, 1, (p) => of(p)?.changePct ?? null, {
      isShown: () => true,
      text: (p) => sideText(p, of(p)!),
    }),
    figures(`${side}_value`, undefined, 1, (p) => of(p)?.value ?? null),
    figures(`${side}_machines`, 'best\nnumber', 0, (p) => of(p)?.machines ?? null, {
      isShown: () => true,
      none: '',
    }),
  ];
}

export const breakPointTable = declared(
  'size-changes-at.csv',
  BREAK_POINTS,
  ({ breakPoints }: ShownSize) => breakPoints,
);

function sideText({ unit }: SizeBreakPoint, { proven, changePct, value }: BreakSide): string {
  const pct = `${proven ? '' : '~'}${signedText(changePct, 1)}%`;
  return value === null ? pct : `${withUnit(value, unit)} (${pct})`;
}

/** Money goes without a unit: its currency is over the table of machines. */
function withUnit(value: number, unit: SizeBreakPoint['unit']): string {
  const short = `${Number(value.toPrecision(4))}`;
  if (unit === 'money') return short;
  if (unit === '%') return `${short}%`;
  return unit === 'money/h' ? `${short} an h` : `${short} ${unit}`;
}

export const SIZE_TABLES = ['size.csv', 'closed-forms.csv', sizeSensitivityTable.file, breakPointTable.file];

export function sizeTables(result: ShownSize): ResultTable[] {
  const { rows, closedForm: form } = result;
  const ofForm = form === null ? [] : formColumns(form);
  const drawnForms = ofForm.slice(1).map(({ name }) => name);
  return [
    ...fileTable(
      'size.csv',
      [...constantColumns(result), ...SIMULATED],
      rows,
      drawn('line', 'Parts an hour by number of machines', 'machines', ['parts_per_h']),
    ),
    ...fileTable(
      'closed-forms.csv',
      ofForm,
      form === null ? [] : rows,
      drawn('line', 'Parts an hour by the best sequence and the closed forms', 'machines', drawnForms),
    ),
    ...sizeSensitivityTable.inFile(result),
    ...breakPointTable.inFile(result),
  ];
}
