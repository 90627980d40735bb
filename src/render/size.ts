/** How many machines, as text: the answer, the table, the closed forms beside it, how the answer moves. */
import pc from 'picocolors';
import type { ClosedForm } from '../core/size/closed-form.js';
import type { SizeResult } from '../core/size/size-cell.js';
import type { SizeRow } from '../core/size/size-row.js';
import { countText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { textTable } from './text-table.js';

const right = (heading: string) => ({ heading, align: 'right' as const });

export function renderSize(result: SizeResult, currency: string, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const section = (title: string, body: string) => `${paint.bold(title)}\n${body}\n`;
  if (result.recommended === null) return 'There is no number of machines for which a sequence was found.\n';
  return [
    `${sizeAnswer(result, style)}\n`,
    section(
      `Machine by machine${currency === '' ? '' : ` (money in ${currency})`}`,
      sizeTable(result, style),
    ),
    ...(result.closedForm === null
      ? []
      : [section('Parts an hour by the closed forms', formTable(result.closedForm, result.rows, style))]),
    ...(result.sensitivity.length === 0
      ? []
      : [section('How the answer moves with the times', sensitivityTable(result, style))]),
  ].join('\n');
}

/** The answer in plain sentences. */
export function sizeAnswer(result: SizeResult, style: TextStyle): string {
  const { recommended, rows } = result;
  if (recommended === null) return 'There is no number of machines for which a sequence was found.';
  const row = rows.find((r) => r.machines === recommended.machines)!;
  const wait =
    recommended.largestUnderWait === null
      ? 'Even with the fewest machines they wait for the robot for more than the stated share of the time.'
      : `Up to ${countText(recommended.largestUnderWait, 'machine')} the machines wait for the robot no more than the stated share of the time.`;
  const lines = [
    `${countText(row.machines, 'machine')}: ${numberText(row.partsPerH, 1)} parts an hour, robot busy ${numberText(row.robotUtilizationPct)} %, machines at work ${numberText(row.machineUtilizationPct)} % and waiting for the robot ${numberText(row.waitRobotPct, 1)} % of the time.`,
    recommended.reason,
    ...(recommended.nextBest ? [recommended.nextBest.text] : []),
    ...(recommended.measure === 'waiting for the robot' ? [] : [wait]),
  ];
  return lines.map((line) => paragraph(line, style.columns)).join('\n');
}

function sizeTable(result: SizeResult, style: TextStyle): string {
  const { rows } = result;
  const hasCost = rows.some((row) => row.costPerPart !== null);
  const hasContribution = rows.some((row) => row.contributionPerH !== null);
  const table = textTable(
    [
      right('machines'),
      right('parts\nan h'),
      right('more\nan h'),
      right('parts\na shift'),
      right('robot\nbusy %'),
      right('at\nwork %'),
      right('wait for\nrobot %'),
      ...(hasCost ? [right('cost a\npart')] : []),
      ...(hasContribution ? [right('contribu-\ntion an h')] : []),
    ],
    rows.map((row) => [
      `${row.machines}${row.machines === result.recommended?.machines ? ' *' : '  '}`,
      numberText(row.partsPerH, 1),
      row.marginalPartsPerH === null ? '' : numberText(row.marginalPartsPerH, 1),
      numberText(row.partsPerShift, 1),
      numberText(row.robotUtilizationPct, 1),
      numberText(row.machineUtilizationPct, 1),
      numberText(row.waitRobotPct, 1),
      ...(hasCost ? [moneyOrDash(row.costPerPart)] : []),
      ...(hasContribution ? [moneyOrDash(row.contributionPerH)] : []),
    ]),
    style,
  );
  const added =
    result.way === 'from a list'
      ? `\n${paragraph(`Added in this order: ${orderAdded(rows).join(', ')}.`, style.columns)}`
      : '';
  return `${table}\n* recommended${added}`;
}

function orderAdded(rows: readonly SizeRow[]): string[] {
  let before: readonly string[] = [];
  return rows.map((row) => {
    const added = row.machineNames.filter((name) => !before.includes(name));
    before = row.machineNames;
    return added.join(' with ');
  });
}

function moneyOrDash(amount: number | null): string {
  return amount === null ? '-' : numberText(amount, 2);
}

function formTable(form: ClosedForm, rows: readonly SizeRow[], style: TextStyle): string {
  const at = (list: readonly { machines: number; partsPerH: number }[], machines: number): string => {
    const row = list.find((r) => r.machines === machines);
    return row ? numberText(row.partsPerH, 1) : '-';
  };
  const table = textTable(
    [
      right('machines'),
      right('best\nsequence'),
      right('in turn,\nno luck'),
      right('random\ncalls'),
      right('Wright'),
      right('exponential\ntimes'),
      right('constant\nservice'),
    ],
    rows.map(({ machines, partsPerH }) => [
      `${machines}`,
      numberText(partsPerH, 1),
      at(form.synchronous.rows, machines),
      at(form.random.rows, machines),
      at(form.wright.rows, machines),
      at(form.finiteSource.rows, machines),
      at(form.constantService.rows, machines),
    ]),
    style,
  );
  const ideal = `By synchronous servicing, (load + run) / (load + walk), one robot keeps up with ${numberText(form.synchronous.idealMachines, 2)} machines. The closed forms are a cross-check: with random times the true rate lies below that of the best sequence.`;
  return `${table}\n${paragraph(ideal, style.columns)}`;
}

function sensitivityTable(result: SizeResult, style: TextStyle): string {
  return textTable(
    [
      { heading: 'all times of' },
      right('change %'),
      right('machines\nto choose'),
      right('parts an hour\nthen'),
    ],
    result.sensitivity.map((s) => [
      s.element,
      s.changePct > 0 ? `+${s.changePct}` : `${s.changePct}`,
      `${s.machines}`,
      numberText(s.partsPerH, 1),
    ]),
    style,
  );
}
