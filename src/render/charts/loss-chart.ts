/** From the steady rate all open hours down to the good parts of a week, cause by cause. */

import { scaleLinear } from 'd3-scale';
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import { tableBlock } from '../document/table-block.js';
import { numberText, percentText } from '../numbers.js';
import { lossTable } from '../result-tables/shift-tables.js';
import { shortened } from '../shortened.js';
import { AXIS_BELOW, axisBelow, tickDigits } from './axes.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { namedRows } from './named-rows.js';
import { circle, label, oblong, stroke } from './svg.js';
import { textWidth } from './text-width.js';

const BAR = 13;

/** One step: what stood before it and what it leaves, good parts a week. */
interface Step {
  readonly cause: string;
  readonly before: number;
  readonly after: number;
}

export function lossChart(pattern: ShiftYield): ChartOrReason {
  const ceiling = pattern.ceilingPerWeek.total ?? 0;
  const good = pattern.partsPerWeek.total ?? 0;
  if (!(ceiling > 0))
    return noChart(`${pattern.pattern} has no open hours in which a part could be made, so nothing is lost.`);
  const steps = stepsOf(pattern, ceiling);
  return chartOf({
    title: titleOf(pattern, steps, ceiling, good),
    description: `From ${numberText(ceiling, 1)} parts a week at the steady rate to ${numberText(good, 1)} good parts: ${steps.map(({ cause, before, after }) => `${cause} ${changeText(after - before)}`).join('; ')}.`,
    note: 'Each cause is switched on after those above it. Open bar: parts lost; full bar: parts gained. The scale shows the part of the range in which something happens, so only lengths of bars compare.',
    data: tableBlock(`Where the parts of a week go: ${pattern.pattern}`, lossTable(pattern)),
    draw: (width) => drawing(steps, ceiling, good, width),
  });
}

function stepsOf({ losses }: ShiftYield, ceiling: number): Step[] {
  let level = ceiling;
  return losses.map(({ cause, partsPerWeek }) => {
    const before = level;
    level -= partsPerWeek;
    return { cause, before, after: level };
  });
}

function changeText(change: number): string {
  return `${change > 0.05 ? '+' : ''}${numberText(change, 1)}`;
}

function titleOf({ pattern }: ShiftYield, steps: readonly Step[], ceiling: number, good: number): string {
  const name = shortened(pattern, 28);
  const kept = `${name}: ${numberText(good)} good parts of ${numberText(ceiling)} that the steady rate would make in the week`;
  const worst = steps.reduce<Step | null>(
    (a, b) => (a === null || b.before - b.after > a.before - a.after ? b : a),
    null,
  );
  if (worst === null || worst.before - worst.after < 0.05) return `${kept}; nothing is lost`;
  return `${kept}; most is lost to ${worst.cause}, ${percentText((100 * (worst.before - worst.after)) / ceiling)}`;
}

function drawing(steps: readonly Step[], ceiling: number, good: number, width: number): Drawing {
  const names = ['maximum (steady rate x open hours)', ...steps.map(({ cause }) => cause), 'good parts'];
  const levels = [ceiling, good, ...steps.map(({ after }) => after)];
  const room = 12 + textWidth(numberText(Math.max(...levels), 1));
  const rows = namedRows(names, width, { top: 4, bar: BAR, right: room, mostName: 340 });
  const x = scaleLinear(spanOf(levels), [rows.x0, rows.x1]);
  const bottom = 4 + rows.height + 2;
  const count = width === WIDE ? 5 : 3;
  const digits = tickDigits(x, count);
  const axis = { scale: x, count, text: (v: number) => numberText(v, digits), title: 'good parts a week' };
  const last = names.length - 1;
  return {
    height: bottom + AXIS_BELOW,
    content: [
      ...axisBelow(axis, 4, bottom),
      ...steps.map(({ before }, k) =>
        stroke(x(before), rows.middle(k), x(before), rows.middle(k + 1), 'bare'),
      ),
      stroke(x(good), rows.middle(last - 1), x(good), rows.middle(last), 'bare'),
      ...steps.map((step, k) => stepBar(step, rows.middle(k + 1), x)),
      ...[ceiling, good].map((level, end) => {
        const at = rows.middle(end === 0 ? 0 : last);
        return circle(x(level), at, 5, 'mark');
      }),
      ...names.map((_, k) => rows.name(k)),
      ...[ceiling, ...steps, good].map((row, k) =>
        typeof row === 'number'
          ? label(numberText(row, 1), width, rows.middle(k) + 4, 'strong', 'end')
          : label(changeText(row.after - row.before), width, rows.middle(k) + 4, '', 'end'),
      ),
    ],
  };
}

/** From the least level to the most, with some room; where all are alike, room alone. */
function spanOf(levels: readonly number[]): [number, number] {
  const [least, most] = [Math.min(...levels), Math.max(...levels)];
  const room = (most - least) * 0.06 || Math.max(1, Math.abs(most) * 0.05);
  return [least > 0 ? Math.max(0, least - room) : least - room, most + room];
}

const LEAST_BAR = 1.2;

function stepBar({ before, after }: Step, middle: number, x: (parts: number) => number): string {
  const width = Math.abs(x(after) - x(before));
  if (width < 0.05) return stroke(x(after), middle - BAR / 2, x(after), middle + BAR / 2, 'bare');
  return oblong(
    Math.min(x(before), x(after)),
    middle - BAR / 2,
    Math.max(LEAST_BAR, width),
    BAR,
    after < before ? 'loss' : 'gain',
  );
}
