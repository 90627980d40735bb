/** Differences of pairs that met the same luck, each with its interval about a line at no difference. */

import { scaleLinear } from 'd3-scale';
import type { PatternComparison } from '../../core/compare/compare-patterns.js';
import type { Estimate } from '../../core/simulate/simulation-result.js';
import { tableBlock } from '../document/table-block.js';
import { numberText } from '../numbers.js';
import { differenceTable, type ShownDifference } from '../result-tables/comparison-tables.js';
import { patternDifferenceTable } from '../result-tables/shift-tables.js';
import { shortened } from '../shortened.js';
import type { TableData } from '../text-table.js';
import { AXIS_BELOW, axisBelow, tickDigits } from './axes.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { namedRows } from './named-rows.js';
import { circle, label, stroke } from './svg.js';
import { textWidth } from './text-width.js';

const BAR = 11;
const PAIRS_SHOWN = 30;

export interface PairDifference {
  readonly a: string;
  readonly b: string;
  /** a less b. */
  readonly difference: Estimate;
  /** The interval leaves out 0, all pairs taken together. */
  readonly clear: boolean;
}

export function cellDifferenceChart({
  differences,
}: {
  readonly differences: readonly ShownDifference[];
}): ChartOrReason {
  return differenceChart(
    differences.map(({ a, b, partsPerShift, clear }) => ({ a, b, difference: partsPerShift, clear })),
    'good parts a shift',
    differenceTable(differences),
  );
}

export function patternDifferenceChart({
  differences,
}: Pick<PatternComparison, 'differences'>): ChartOrReason {
  return differenceChart(
    differences.map(({ a, b, partsPerWeek, clear }) => ({ a, b, difference: partsPerWeek, clear })),
    'good parts a week',
    patternDifferenceTable(differences),
  );
}

/** @param unit what is counted, such as `good parts a shift` */
function differenceChart(all: readonly PairDifference[], unit: string, table: TableData): ChartOrReason {
  if (all.length === 0) return noChart('There are no two to compare, so no difference can be shown.');
  const pairs = all.slice(0, PAIRS_SHOWN);
  const left = all.length - pairs.length;
  const alone = all.some(({ difference }) => difference.ciLow === null);
  return chartOf({
    title: titleOf(all, unit),
    description: pairs.map((pair) => `${pair.a} less ${pair.b}: ${amountText(pair)}`).join('; '),
    note: `${alone ? 'Dot: the difference of one run each; one run gives no interval.' : 'Dot: mean difference with the same random numbers; line: its interval. A difference is clear where the intervals, drawn wide enough for all pairs to hold together, leave out 0 by more than a better sequence could add.'}${left > 0 ? ` ${left} more pairs are in the table.` : ''}`,
    data: tableBlock(`Differences with the same random numbers, ${unit}`, table),
    draw: (width) => drawing(pairs, unit, width),
  });
}

const SHORT = 26;

function titleOf(all: readonly PairDifference[], unit: string): string {
  const clear = all.filter((pair) => pair.clear);
  const size = ({ difference }: PairDifference) => Math.abs(difference.mean);
  const most = (clear.length > 0 ? clear : all).reduce((a, b) => (size(b) > size(a) ? b : a));
  const [more, less] = most.difference.mean >= 0 ? [most.a, most.b] : [most.b, most.a];
  const said = `${shortened(more, SHORT)} makes ${numberText(size(most), 1)} ${unit.replace('good parts', 'more good parts')} than ${shortened(less, SHORT)}`;
  if (clear.length === 0)
    return all.length === 1
      ? `No clear difference between ${shortened(most.a, SHORT)} and ${shortened(most.b, SHORT)} in ${unit}`
      : `None of the ${all.length} pairs differs clearly in ${unit}`;
  if (all.length === 1) return said;
  return `${clear.length === all.length ? `${all.length === 2 ? 'Both' : `All ${all.length}`} pairs differ clearly` : `${clear.length} of ${all.length} pairs ${clear.length === 1 ? 'differs' : 'differ'} clearly`}; ${said}`;
}

const plus = (value: number): string => `${value > 0.05 ? '+' : ''}${numberText(value, 1)}`;

function amountText({ difference: { mean, ciLow, ciHigh }, clear }: PairDifference): string {
  if (ciLow === null || ciHigh === null) return plus(mean);
  return `${plus(mean)} (${plus(ciLow)} to ${plus(ciHigh)})${clear ? '' : ', not clear'}`;
}

function drawing(pairs: readonly PairDifference[], unit: string, width: number): Drawing {
  const isWide = width === WIDE;
  const names = pairs.map(({ a, b }) => `${shortened(a, SHORT)} less ${shortened(b, SHORT)}`);
  // Beside the bars on a wide page, at the end of the name's line on a narrow one.
  const amounts = pairs.map(amountText);
  const amountWidth = Math.max(...amounts.map((text) => textWidth(text, 12)));
  const rows = namedRows(names, width, {
    top: 6,
    bar: BAR,
    right: isWide ? 210 : 8,
    mostName: 250,
    nameRight: amountWidth + 10,
  });
  const ends = pairs.flatMap(({ difference: d }) => [d.mean, d.ciLow ?? d.mean, d.ciHigh ?? d.mean]);
  const span = Math.max(0, ...ends) - Math.min(0, ...ends);
  const room = span * 0.05 || 1;
  const x = scaleLinear([Math.min(0, ...ends) - room, Math.max(0, ...ends) + room], [rows.x0, rows.x1]);
  const bottom = 6 + rows.height + 2;
  const count = isWide ? 6 : 4;
  const digits = tickDigits(x, count);
  const axis = { scale: x, count, text: (v: number) => numberText(v, digits), title: `difference, ${unit}` };
  return {
    height: bottom + AXIS_BELOW,
    content: [
      ...axisBelow(axis, 4, bottom),
      // On a narrow page clear of the amounts, which stand above the bars.
      ...(isWide
        ? [stroke(x(0), 4, x(0), bottom, 'thin')]
        : pairs.map((_, k) => stroke(x(0), rows.middle(k) - BAR / 2, x(0), rows.middle(k) + BAR, 'thin'))),
      ...pairs.flatMap((pair, k) => [
        rows.name(k),
        interval(pair, rows.middle(k), x),
        isWide
          ? label(amounts[k]!, rows.x1 + 12, rows.middle(k) + 4, 'figure')
          : label(amounts[k]!, width, rows.middle(k) - BAR, 'tick over', 'end'),
      ]),
    ],
  };
}

function interval({ difference, clear }: PairDifference, y: number, x: (v: number) => number): string {
  const { mean, ciLow, ciHigh } = difference;
  const dot = circle(x(mean), y, 4.5, clear ? 'full' : 'mark');
  if (ciLow === null || ciHigh === null) return dot;
  const ends = [ciLow, ciHigh].map((end) => stroke(x(end), y - BAR / 2, x(end), y + BAR / 2, 'line'));
  return `${stroke(x(ciLow), y, x(ciHigh), y, 'line interval')}${ends.join('')}${dot}`;
}
