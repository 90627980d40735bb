/** A comparison as text: the answer, the cells side by side, the differences, what differs in the tables. */
import pc from 'picocolors';
import type { CellComparison, ComparedCell } from '../core/compare/comparison.js';
import type { TableChange } from '../tables/overrides/table-changes.js';
import { numberText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, type TableData } from './text-table.js';

export interface FolderChanges {
  readonly a: string;
  readonly b: string;
  readonly changes: readonly TableChange[];
}

/** Changes listed in a short answer. */
const FEW_CHANGES = 5;

/** Changes listed on a screen; all are in the JSON. */
const MOST_CHANGES = 30;

export function renderComparison(
  result: CellComparison,
  changes: readonly FolderChanges[],
  currency: string,
  style: TextStyle,
): string {
  const paint = pc.createColors(style.colour);
  const money = currency === '' ? '' : ` (money in ${currency})`;
  return [
    `${paragraph(result.recommendation, style.columns)}\n`,
    `${paint.bold(`Side by side${money}`)}\n${printTable(sideBySideTable(result, style.full === true), style)}\n`,
    // Of two cells the answer gives the difference already.
    ...(result.differences.length === (style.full ? 0 : 1) || result.differences.length === 0
      ? []
      : [
          `${paint.bold('Differences in simulated good parts a shift')}\n${printTable(differenceTable(result), style)}\n`,
        ]),
    ...changes.map((of) =>
      style.full || of.changes.length <= FEW_CHANGES
        ? `${paint.bold(`Changes from ${of.a} to ${of.b}`)}\n${changeText(of, style)}\n`
        : `${paragraph(`${numberText(of.changes.length)} values of the tables differ between ${of.a} and ${of.b}: --full`, style.columns)}\n`,
    ),
  ].join('\n');
}

type Row = readonly [heading: string, of: (cell: ComparedCell) => string | null];

/** @param full false: of the shift patterns only those that every cell has, parts a week alone */
export function sideBySideTable(result: CellComparison, full = true): TableData {
  const rows: Row[] = [...scheduleRows(), ...shiftRows(result, full), ...simulatedRows(result)];
  const shown = rows
    .map(([heading, of]) => [heading, ...result.cells.map((cell) => of(cell) ?? '-')])
    .filter((row) => row.slice(1).some((text) => text !== '-'));
  const columns = shortNames(result.cells).map((heading) => ({ heading, align: 'right' as const }));
  return { columns: [{ heading: '' }, ...columns], rows: shown };
}

/** The last folder of each path where that tells them apart; a rule on a line of its own. */
function shortNames(cells: readonly ComparedCell[]): string[] {
  const short = cells.map(({ name }) => {
    const [folder = '', ...rule] = name.split(', ');
    return [
      folder
        .split(/[\\/]/)
        .filter((piece) => piece !== '')
        .at(-1) ?? folder,
      ...rule,
    ].join(',\n');
  });
  return new Set(short).size === short.length ? short : cells.map((cell) => cell.name);
}

function scheduleRows(): Row[] {
  const of =
    (text: (s: Extract<ComparedCell['schedule'], { order: unknown }>) => string): Row[1] =>
    (cell) =>
      'order' in cell.schedule ? text(cell.schedule) : null;
  return [
    ['robot program', (cell) => cell.dispatch],
    ['sequence', (cell) => cell.schedule.status],
    ['parts an hour', of((s) => numberText(s.partsPerH.total!, 2))],
    ['robot cycle, s a part', of((s) => numberText(3600 / s.partsPerH.total!, 1))],
    ['robot busy %', of((s) => numberText(s.robot.utilizationPct, 1))],
    ['bottleneck', of((s) => s.bottleneck.stations.join(', ') || 'robot')],
  ];
}

function shiftRows(result: CellComparison, full: boolean): Row[] {
  const has = (cell: ComparedCell, name: string) =>
    cell.shifts?.patterns.some((p) => p.pattern === name) === true;
  const all = new Set(result.cells.flatMap((c) => c.shifts?.patterns.map((p) => p.pattern) ?? []));
  const names = [...all].filter((name) => full || result.cells.every((cell) => has(cell, name)));
  return names.flatMap((name): Row[] => {
    const of =
      (
        pick: (p: NonNullable<ComparedCell['shifts']>['patterns'][number]) => number | null,
        digits: number,
      ): Row[1] =>
      (cell) => {
        const pattern = cell.shifts?.patterns.find((p) => p.pattern === name);
        const value = pattern ? pick(pattern) : null;
        return value === null ? null : numberText(value, digits);
      };
    const week: Row = [`${name}: parts a week`, of((p) => p.partsPerWeek.total!, 0)];
    if (!full) return [week];
    return [
      [`${name}: parts a shift`, of((p) => p.partsPerShift.total!, 1)],
      week,
      [`${name}: labour a part`, of((p) => p.labourCostPerPart, 2)],
      [`${name}: contribution a week`, of((p) => p.contributionPerWeek, 0)],
    ];
  });
}

function simulatedRows(result: CellComparison): Row[] {
  const when = result.pattern === null ? 'day and night' : result.pattern;
  return [
    [
      `simulated, ${when}: parts a shift`,
      ({ simulated: s }) => {
        if (s === null) return null;
        const { mean, ciHigh } = s.partsPerShift.total!;
        return ciHigh === null
          ? numberText(mean, 1)
          : `${numberText(mean, 1)} ±${numberText(ciHigh - mean, 1)}`;
      },
    ],
    [
      'simulated: robot busy %',
      ({ simulated: s }) => (s === null ? null : numberText(s.robot.utilizationPct.mean, 1)),
    ],
  ];
}

export function differenceTable(result: CellComparison): TableData {
  return {
    columns: [
      { heading: 'first less second' },
      { heading: 'mean', align: 'right' },
      { heading: 'from', align: 'right' },
      { heading: 'to', align: 'right' },
      { heading: '' },
    ],
    rows: result.differences.map(({ a, b, partsPerShift: d, clear }) => [
      `${a} less ${b}`,
      numberText(d.mean, 2),
      d.ciLow === null ? '-' : numberText(d.ciLow, 2),
      d.ciHigh === null ? '-' : numberText(d.ciHigh, 2),
      clear ? 'clear' : 'no clear difference',
    ]),
  };
}

function changeText(of: FolderChanges, style: TextStyle): string {
  const lines = changeLines(of);
  return of.changes.length === 0 ? lines.join('') : bullets(lines, style.columns);
}

/** What differs, cell by cell; a sentence where nothing does. */
export function changeLines({ changes }: FolderChanges): string[] {
  if (changes.length === 0) return ['Nothing: the tables say the same.'];
  const text = (value: string | null): string =>
    value === null ? 'not there' : value === '' ? 'empty' : value;
  const lines = changes
    .slice(0, MOST_CHANGES)
    .map((c) => `${c.table}: ${c.path}: ${text(c.a)}, then ${text(c.b)}`);
  const more =
    changes.length > MOST_CHANGES
      ? [`and ${changes.length - MOST_CHANGES} more, all of which --json lists`]
      : [];
  return [...lines, ...more];
}
