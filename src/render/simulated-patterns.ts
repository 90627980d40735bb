/** Simulated shift patterns and their differences as text. */
import pc from 'picocolors';
import type { PatternComparison } from '../core/compare/compare-patterns.js';
import type { ShiftParts } from '../core/simulate/simulation-result.js';
import { numberText } from './numbers.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

export function renderSimulatedPatterns(result: PatternComparison, style: TextStyle): string {
  const title = pc
    .createColors(style.colour)
    .bold('Simulated, with downtime, variation and changeovers, with the same random numbers');
  const differences =
    result.differences.length === 0 ? '' : `\n${printTable(patternDifferenceTable(result), style)}\n`;
  return `\n${title}\n${printTable(simulatedPatternTable(result), style)}\n${differences}`;
}

function bound(value: number | null): string {
  return value === null ? '-' : numberText(value, 1);
}

export function simulatedPatternTable({ patterns }: PatternComparison): TableData {
  return {
    columns: [
      { heading: 'pattern' },
      right('parts\na shift'),
      right('P10'),
      right('P50'),
      right('P90'),
      right('parts\na week'),
      right('from'),
      right('to'),
    ],
    rows: patterns.flatMap(({ pattern, partsPerShift, partsPerWeek: w, byShift }) => [
      [pattern, ...shiftCells(partsPerShift), numberText(w.mean, 1), bound(w.ciLow), bound(w.ciHigh)],
      ...(byShift.length > 1
        ? byShift.map((s) => [`${pattern}, ${s.shift}`, ...shiftCells(s.partsPerShift.total!), '', '', ''])
        : []),
    ]),
  };
}

function shiftCells({ mean, p10, p50, p90 }: ShiftParts): string[] {
  return [numberText(mean, 1), ...[p10, p50, p90].map((q) => numberText(q))];
}

export function patternDifferenceTable({ differences }: PatternComparison): TableData {
  return {
    columns: [
      { heading: 'parts a week, first less second' },
      right('mean'),
      right('from'),
      right('to'),
      { heading: '' },
    ],
    rows: differences.map(({ a, b, partsPerWeek: d, clear }) => [
      `${a} less ${b}`,
      numberText(d.mean, 1),
      bound(d.ciLow),
      bound(d.ciHigh),
      clear ? 'clear' : 'no clear difference',
    ]),
  };
}
