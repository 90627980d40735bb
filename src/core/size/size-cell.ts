/**
 * How many machines one robot can tend, as one answer: the table of rates, waiting and money, the number that pays best,
 * and how that choice moves. The closed forms stand beside it as a cross-check.
 */
import { type ClosedForm, closedForm } from './closed-form.js';
import type { Stage } from './copies.js';
import { type GrownCell, grownCell, type SizeOptions } from './grown-cell.js';
import type { Growth } from './growth.js';
import { machineTimes } from './machine-times.js';
import type { Recommendation } from './recommend.js';
import type { SizeSensitivity } from './sensitivity.js';
import type { BreakSide, SizeBreakPoint } from './size-break-points.js';
import { movesOf, type SizeMoves } from './size-moves.js';
import type { RowContext, SizeRow } from './size-row.js';
import type { CellSolver } from './size-search.js';

export interface SizeResult {
  readonly rows: readonly SizeRow[];
  /** null where no row could be had; the warnings say why. */
  readonly recommended: Recommendation | null;
  /** null where the closed forms do not apply; the assumptions say why. */
  readonly closedForm: ClosedForm | null;
  readonly sensitivity: readonly SizeSensitivity[];
  /** Where the choice changes, by input; empty where sensitivity was not asked for. */
  readonly breakPoints: readonly SizeBreakPoint[];
  /** The input whose change tips the choice soonest, as a sentence; null where none of them does. */
  readonly tipping: string | null;
  readonly way: Growth['way'];
  /** Machines that the cell has already; 0 where it is made up of figures. */
  readonly owned: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/**
 * @param options figures or a cell
 * @param solve finds the best order of a cell
 * @throws RangeError where an option is out of range or names what is not there
 */
export function sizeCell(options: SizeOptions, solve: CellSolver): SizeResult {
  const grown = grownCell(options, solve);
  return sizeResult(options, grown, movesOf(options, grown, solve));
}

/** The whole answer from the rows and how it moves, in the order of `MOVED_INPUTS`. */
export function sizeResult(options: SizeOptions, grown: GrownCell, moves: readonly SizeMoves[]): SizeResult {
  const { rows, recommended, stages, context, way, owned, warnings } = grown;
  const form = formOf(stages, rows, context);
  const breakPoints = moves.flatMap((move) => move.breakPoints);
  return {
    rows,
    recommended,
    closedForm: form.closedForm,
    sensitivity: moves.flatMap((move) => move.sensitivity),
    breakPoints,
    tipping: tippingText(breakPoints),
    way,
    owned,
    assumptions: [...assumptionsOf(options, way, context), ...form.notes],
    warnings,
  };
}

/** The closed forms, with the mean times of the largest cell. */
function formOf(
  stages: readonly Stage[],
  rows: readonly SizeRow[],
  context: RowContext,
): { closedForm: ClosedForm | null; notes: string[] } {
  const largest = stages.at(-1);
  if (!largest) return { closedForm: null, notes: [] };
  const found = machineTimes(largest.cell);
  if (found.times === null)
    return { closedForm: null, notes: [`The closed forms do not apply: ${found.reason}.`] };
  const machines = largest.cell.stations.filter((s) => largest.machines.includes(s.name));
  const others = largest.cell.stations.filter((s) => !largest.machines.includes(s.name));
  const costOf = (stations: typeof machines): number => stations.reduce((sum, s) => sum + s.costPerH, 0);
  const costs = {
    robotPerH: context.labourPerH + largest.cell.robot.costPerH + costOf(others),
    machinePerH: costOf(machines) / machines.length,
  };
  const notes = found.alike
    ? []
    : ['The machines are not alike; the closed forms use the mean of their times, so they are rough.'];
  return {
    closedForm: closedForm(
      found.times,
      rows.map((r) => r.machines),
      costs,
    ),
    notes,
  };
}

function assumptionsOf(options: SizeOptions, growthWay: Growth['way'], context: RowContext): string[] {
  const way = {
    identical: 'All machines are alike, and the robot takes the same time between any two stations.',
    'from a list':
      'Machines are added one at a time; a part is left out until every step of its route has a machine. A machine that is there costs its hourly rate whether it is used or not.',
    'by copies': 'Every machine is needed for every part, so the whole set comes first.',
  }[growthWay];
  const copies =
    'identical' in options
      ? []
      : [
          'Beyond the machines that the cell has, each row adds one more like one of them (`#2` in its name): of those that bring something the one that brings most while the robot keeps up, reached from its twin in the time to its nearest neighbour.',
        ];
  const shift =
    context.pattern === null
      ? `No shifts are given: parts per shift are the steady rate times a shift of ${context.shiftH} hours.`
      : `Parts per shift and labour come from the pattern ${context.pattern}.`;
  const labour =
    'identical' in options || context.pattern !== null
      ? []
      : ['No shifts are given, so no labour is in the cost of a part.'];
  return [
    way,
    ...copies,
    'Each row is the best repeating order found for that number of machines; random stops are not in it.',
    'Cost per part is that of robot, stations and people for an hour over the good parts of an hour; margin per hour is the contribution of what is sold of them less these costs: no more than parts.csv asks for.',
    shift,
    ...labour,
  ];
}

interface Tip {
  readonly point: SizeBreakPoint;
  readonly side: BreakSide;
}

const NAMES: Readonly<Record<SizeBreakPoint['element'], string>> = {
  cycle: 'machine cycle time',
  load: 'load times',
  unload: 'unload times',
  travel: 'travel times',
  contribution: 'contribution of a part',
  'machine cost': 'cost of a machine hour',
  'robot cost': 'cost of a robot hour',
  labour: 'cost of people',
  'allowed waiting': 'highest acceptable waiting',
};

/** @returns null where no input tips it within the limits looked at */
function tippingText(points: readonly SizeBreakPoint[]): string | null {
  if (points.length === 0) return null;
  const tips = points.flatMap((point): Tip[] =>
    [point.below, point.above].flatMap((side) => (side === null ? [] : [{ point, side }])),
  );
  const nearest = tips.reduce<Tip | null>(
    (best, tip) =>
      best === null || Math.abs(tip.side.changePct) < Math.abs(best.side.changePct) - 1e-9 ? tip : best,
    null,
  );
  const [{ fromPct, toPct }] = points as [SizeBreakPoint];
  if (nearest === null)
    return `No input alone changes the choice, each tried from ${fromPct}% to +${toPct}%.`;
  const { point, side } = nearest;
  const value = side.value === null ? '' : ` (${Number(side.value.toPrecision(4))}${unitText(point.unit)})`;
  const kind = point.unit === 's' ? ['longer', 'shorter'] : ['higher', 'lower'];
  const change = `${Math.abs(side.changePct).toFixed(1)}% ${side.changePct > 0 ? kind[0] : kind[1]}`;
  const count = side.machines === 1 ? 'one machine' : `${side.machines} machines`;
  return `Most sensitive input: ${NAMES[point.element]}. At ${change}${value}: ${count}.`;
}

function unitText(unit: SizeBreakPoint['unit']): string {
  if (unit === 's') return ' s';
  if (unit === '%') return '%';
  return unit === 'money/h' ? ' an hour' : '';
}
