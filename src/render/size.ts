/** How many machines, as text: the answer, the table, the closed forms beside it, how the answer moves. */
import type { ClosedForm } from '../core/size/closed-form.js';
import type { BreakSide, SizeBreakPoint } from '../core/size/size-break-points.js';
import type { SizeResult } from '../core/size/size-cell.js';
import type { SizeRow } from '../core/size/size-row.js';
import type { SizeStudy, StudiedRow } from '../core/size/size-study.js';
import { countText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import { sectionsIn } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

/** A result with or without its simulated rows. */
export interface ShownSize extends SizeResult, Partial<Pick<SizeStudy, 'simulation' | 'withStops'>> {
  readonly rows: readonly StudiedRow[];
}

export function renderSize(result: ShownSize, currency: string, style: TextStyle): string {
  const section = sectionsIn(style);
  if (result.recommended === null)
    return 'No feasible sequence for any number of machines. Run `schedule` for the reason.\n';
  return [
    `${sizeAnswer(result, style)}\n`,
    section(
      `Machine by machine, constant times${currency === '' ? '' : ` (money in ${currency})`}`,
      [printTable(sizeTable(result), style), paragraph(sizeNotes(result).join(' '), style.columns)].join(
        '\n',
      ),
    ),
    ...(style.full ? [section('With downtime and variation', simulatedPart(result, style))] : []),
    ...(result.closedForm === null || !style.full
      ? []
      : [
          section(
            'Parts an hour by the closed forms',
            `${printTable(closedFormTable(result.closedForm, result.rows), style)}\n${paragraph(closedFormNote(result.closedForm), style.columns)}`,
          ),
        ]),
    ...(result.sensitivity.length === 0 || !style.full
      ? []
      : [section('Sensitivity to times (±10%)', printTable(sizeSensitivityTable(result), style))]),
    ...(result.breakPoints.length === 0 || !style.full
      ? []
      : [
          section(
            'Where the answer changes',
            `${printTable(breakPointTable(result), style)}\n${paragraph(breakPointNote(result), style.columns)}`,
          ),
        ]),
  ].join('\n');
}

function simulatedPart(result: ShownSize, style: TextStyle): string {
  const table = simulatedTable(result);
  const note = paragraph(simulatedNote(result), style.columns);
  return table === null ? note : `${printTable(table, style)}\n${note}`;
}

/** The answer in plain sentences. */
export function sizeAnswer(result: ShownSize, style: TextStyle): string {
  return sizeSentences(result, style.full === true)
    .map((text) => paragraph(text, style.columns))
    .join('\n');
}

/** What the recommended number makes, why it is that one, and how close the next is. */
export function sizeSentences(result: ShownSize, full = true): string[] {
  const { recommended, rows, owned } = result;
  if (recommended === null)
    return ['No feasible sequence for any number of machines. Run `schedule` for the reason.'];
  const row = rows.find((r) => r.machines === recommended.machines)!;
  const wait =
    recommended.largestUnderWait === null
      ? 'Even with the fewest machines, waiting for the busy robot exceeds the highest acceptable share.'
      : `Up to ${countText(recommended.largestUnderWait, 'machine')}, waiting for the busy robot stays within the highest acceptable share.`;
  return [
    `${countText(row.machines, 'machine')}: ${numberText(row.partsPerH, 1)} parts an hour, robot busy ${numberText(row.robotUtilizationPct)}%, machines working ${numberText(row.machineUtilizationPct)}% and blocked ${numberText(row.waitRobotPct, 1)}% of the time (${numberText(row.waitBusyPct, 1)}% by the busy robot).`,
    recommended.reason,
    ...(recommended.nextBest ? [recommended.nextBest.text] : []),
    ...(recommended.measure === 'waiting for the robot' || owned > 0 || !full ? [] : [wait]),
    ...(result.withStops ? [result.withStops.text] : []),
    ...(result.tipping ? [result.tipping] : []),
  ];
}

export function sizeTable(result: ShownSize): TableData {
  const { rows } = result;
  const hasCost = rows.some((row) => row.costPerPart !== null);
  const hasContribution = rows.some((row) => row.contributionPerH !== null);
  return {
    columns: [
      right('machines'),
      right('parts\nan h'),
      right('more\nan h'),
      right('parts\na\nshift'),
      ...SHARE_COLUMNS,
      right('by\nbusy\nrobot %'),
      ...moneyColumns(hasCost, hasContribution),
    ],
    rows: rows.map((row) => [
      `${row.machines}${row.machines === result.recommended?.machines ? ' *' : '  '}`,
      numberText(row.partsPerH, 1),
      row.marginalPartsPerH === null ? '' : numberText(row.marginalPartsPerH, 1),
      numberText(row.partsPerShift, 1),
      ...shareCells(row),
      numberText(row.waitBusyPct, 1),
      ...moneyCells(row, hasCost, hasContribution),
    ]),
  };
}

/** What stands under the table of machines. */
export function sizeNotes({ way, rows }: ShownSize): string[] {
  const added = way === 'from a list' ? [`Added in this order: ${orderAdded(rows).join(', ')}.`] : [];
  const parts = new Set(rows.map((row) => Object.keys(row.partsPerHByPart).join()));
  const unlike =
    parts.size > 1
      ? ['Rows that make different parts are not compared by parts an hour; compare contribution.']
      : [];
  return ['* recommended.', ...added, ...unlike];
}

/** The rows with stops and scatter; null where they were not simulated. */
export function simulatedTable({ rows, withStops }: ShownSize): TableData | null {
  const simulated = rows.flatMap((row) =>
    row.simulated === undefined ? [] : [{ ...row, ...row.simulated }],
  );
  if (simulated.length === 0) return null;
  const hasCost = simulated.some((row) => row.costPerPart !== null);
  const hasContribution = simulated.some((row) => row.contributionPerH !== null);
  return {
    columns: [
      right('machines'),
      right('parts\na\nshift'),
      right('±'),
      ...SHARE_COLUMNS,
      right('stopped\n%'),
      ...moneyColumns(hasCost, hasContribution),
    ],
    rows: simulated.map((row) => [
      `${row.machines}${row.machines === withStops?.recommended.machines ? ' *' : '  '}`,
      numberText(row.partsPerShift.mean, 1),
      halfWidth(row.partsPerShift),
      ...shareCells(row),
      numberText(row.stoppedPct, 1),
      ...moneyCells({ ...row, costPerPart: row.costPerPart?.mean ?? null }, hasCost, hasContribution),
    ]),
  };
}

/** What stands under the simulated rows, or why there are none. */
export function simulatedNote({ rows, simulation }: ShownSize): string {
  if (simulation === undefined) return 'The rows were not simulated.';
  if (simulation.program === null) return simulation.reason ?? '';
  const runs = rows.find((row) => row.simulated !== undefined)?.simulated?.replications ?? 0;
  return `* recommended with downtime and variation; ±: 95% confidence. ${countText(runs, 'run')} of each row, robot program \`${simulation.program}\`, seed ${simulation.seed}.`;
}

function halfWidth({ mean, ciHigh }: { mean: number; ciHigh: number | null }): string {
  return ciHigh === null ? '-' : numberText(ciHigh - mean, 1);
}

function orderAdded(rows: readonly SizeRow[]): string[] {
  let before: readonly string[] = [];
  return rows.map((row) => {
    const added = row.machineNames.filter((name) => !before.includes(name));
    before = row.machineNames;
    return added.join(' with ');
  });
}

const SHARE_COLUMNS = [right('robot\nbusy %'), right('working\n%'), right('blocked\n%')];

function shareCells(
  row: Pick<SizeRow, 'robotUtilizationPct' | 'machineUtilizationPct' | 'waitRobotPct'>,
): string[] {
  return [row.robotUtilizationPct, row.machineUtilizationPct, row.waitRobotPct].map((pct) =>
    numberText(pct, 1),
  );
}

function moneyColumns(hasCost: boolean, hasContribution: boolean): TableData['columns'] {
  return [
    ...(hasCost ? [right('cost a\npart')] : []),
    ...(hasContribution ? [right('contri-\nbution\nan h')] : []),
  ];
}

function moneyCells(
  row: Pick<SizeRow, 'costPerPart' | 'contributionPerH'>,
  hasCost: boolean,
  hasContribution: boolean,
): string[] {
  return [
    ...(hasCost ? [moneyOrDash(row.costPerPart)] : []),
    ...(hasContribution ? [moneyOrDash(row.contributionPerH)] : []),
  ];
}

function moneyOrDash(amount: number | null): string {
  return amount === null ? '-' : numberText(amount, 2);
}

export function closedFormTable(form: ClosedForm, rows: readonly SizeRow[]): TableData {
  const at = (list: readonly { machines: number; partsPerH: number }[], machines: number): string => {
    const row = list.find((r) => r.machines === machines);
    return row ? numberText(row.partsPerH, 1) : '-';
  };
  return {
    columns: [
      right('machines'),
      right('best\nsequence'),
      right('synchronous\nservicing'),
      right('random\nservicing'),
      right('Wright'),
      right('exponential\ntimes'),
      right('constant\nservice'),
    ],
    rows: rows.map(({ machines, partsPerH }) => [
      `${machines}`,
      numberText(partsPerH, 1),
      at(form.synchronous.rows, machines),
      at(form.random.rows, machines),
      at(form.wright.rows, machines),
      at(form.finiteSource.rows, machines),
      at(form.constantService.rows, machines),
    ]),
  };
}

/** What the closed forms say in a sentence. */
export function closedFormNote(form: ClosedForm): string {
  return `By synchronous servicing, (load + run) / (load + walk), one robot keeps up with ${numberText(form.synchronous.idealMachines, 2)} machines. The closed forms are a cross-check: with random times the true rate lies below that of the best sequence.`;
}

export function sizeSensitivityTable(result: ShownSize): TableData {
  return {
    columns: [
      { heading: 'all times of' },
      right('change %'),
      right('machines\nto choose'),
      right('parts an hour\nthen'),
    ],
    rows: result.sensitivity.map((s) => [
      s.element,
      s.changePct > 0 ? `+${s.changePct}` : `${s.changePct}`,
      `${s.machines}`,
      numberText(s.partsPerH, 1),
    ]),
  };
}

export function breakPointTable({ breakPoints }: ShownSize): TableData {
  return {
    columns: [
      { heading: 'input' },
      right('now'),
      right('below'),
      right('best\nnumber'),
      right('above'),
      right('best\nnumber'),
    ],
    rows: breakPoints.map((point) => [
      point.element,
      point.value === null ? 'several' : withUnit(point.value, point.unit),
      ...sideCells(point, point.below),
      ...sideCells(point, point.above),
    ]),
  };
}

/** Between which limits the inputs were tried, and how sure the changes are. */
export function breakPointNote({ breakPoints, recommended }: ShownSize): string {
  const [first] = breakPoints;
  if (first === undefined || recommended === null) return '';
  const sides = breakPoints.flatMap(({ below, above }) => [below, above]);
  const unsure = sides.some((side) => side?.proven === false)
    ? ' About (~): a search on one side came to its limit, and a better order may move the value.'
    : '';
  return `Each input alone is tried from ${first.fromPct}% to +${first.toPct}% of what it is; - means no change in that range. Every change is checked by new searches on both sides of it.${unsure}`;
}

function sideCells({ unit }: SizeBreakPoint, side: BreakSide | null): string[] {
  if (side === null) return ['-', ''];
  const about = side.proven ? '' : '~';
  const pct = `${about}${side.changePct > 0 ? '+' : ''}${numberText(side.changePct, 1)}%`;
  return [side.value === null ? pct : `${withUnit(side.value, unit)} (${pct})`, `${side.machines}`];
}

/** Money goes without a unit: its currency stands above the table of machines. */
function withUnit(value: number, unit: SizeBreakPoint['unit']): string {
  const short = `${Number(value.toPrecision(4))}`;
  if (unit === 'money') return short;
  if (unit === '%') return `${short}%`;
  return unit === 'money/h' ? `${short} an h` : `${short} ${unit}`;
}
