/** How many machines, as text: the answer, the table, the closed forms beside it, how the answer moves. */
import pc from 'picocolors';
import type { ClosedForm } from '../core/size/closed-form.js';
import type { SizeResult } from '../core/size/size-cell.js';
import type { SizeRow } from '../core/size/size-row.js';
import { countText, numberText } from './numbers.js';
import { paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, type TableData } from './text-table.js';

const right = (heading: string) => ({ heading, align: 'right' as const });

export function renderSize(result: SizeResult, currency: string, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const section = (title: string, body: string) => `${paint.bold(title)}\n${body}\n`;
  if (result.recommended === null) return 'There is no number of machines for which a sequence was found.\n';
  return [
    `${sizeAnswer(result, style)}\n`,
    section(
      `Machine by machine${currency === '' ? '' : ` (money in ${currency})`}`,
      [
        printTable(sizeTable(result), style),
        ...sizeNotes(result).map((note) => paragraph(note, style.columns)),
      ].join('\n'),
    ),
    ...(result.closedForm === null
      ? []
      : [
          section(
            'Parts an hour by the closed forms',
            `${printTable(closedFormTable(result.closedForm, result.rows), style)}\n${paragraph(closedFormNote(result.closedForm), style.columns)}`,
          ),
        ]),
    ...(result.sensitivity.length === 0
      ? []
      : [section('How the answer moves with the times', printTable(sizeSensitivityTable(result), style))]),
  ].join('\n');
}

/** The answer in plain sentences. */
export function sizeAnswer(result: SizeResult, style: TextStyle): string {
  return sizeSentences(result)
    .map((text) => paragraph(text, style.columns))
    .join('\n');
}

/** What the recommended number makes, why it is that one, and how close the next is. */
export function sizeSentences(result: SizeResult): string[] {
  const { recommended, rows } = result;
  if (recommended === null) return ['There is no number of machines for which a sequence was found.'];
  const row = rows.find((r) => r.machines === recommended.machines)!;
  const wait =
    recommended.largestUnderWait === null
      ? 'Even with the fewest machines they wait for the robot for more than the stated share of the time.'
      : `Up to ${countText(recommended.largestUnderWait, 'machine')} the machines wait for the robot no more than the stated share of the time.`;
  return [
    `${countText(row.machines, 'machine')}: ${numberText(row.partsPerH, 1)} parts an hour, robot busy ${numberText(row.robotUtilizationPct)} %, machines at work ${numberText(row.machineUtilizationPct)} % and waiting for the robot ${numberText(row.waitRobotPct, 1)} % of the time.`,
    recommended.reason,
    ...(recommended.nextBest ? [recommended.nextBest.text] : []),
    ...(recommended.measure === 'waiting for the robot' ? [] : [wait]),
  ];
}

export function sizeTable(result: SizeResult): TableData {
  const { rows } = result;
  const hasCost = rows.some((row) => row.costPerPart !== null);
  const hasContribution = rows.some((row) => row.contributionPerH !== null);
  return {
    columns: [
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
    rows: rows.map((row) => [
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
  };
}

/** What stands under the table of machines. */
export function sizeNotes({ way, rows }: SizeResult): string[] {
  const added = way === 'from a list' ? [`Added in this order: ${orderAdded(rows).join(', ')}.`] : [];
  return ['* recommended', ...added];
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

export function closedFormTable(form: ClosedForm, rows: readonly SizeRow[]): TableData {
  const at = (list: readonly { machines: number; partsPerH: number }[], machines: number): string => {
    const row = list.find((r) => r.machines === machines);
    return row ? numberText(row.partsPerH, 1) : '-';
  };
  return {
    columns: [
      right('machines'),
      right('best\nsequence'),
      right('in turn,\nno luck'),
      right('random\ncalls'),
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

export function sizeSensitivityTable(result: SizeResult): TableData {
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
