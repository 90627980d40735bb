/** Simulated shift patterns and their differences as text. */
import pc from 'picocolors';
import type { PatternComparison } from '../core/compare/compare-patterns.js';
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
      right('parts\na week'),
      right('from'),
      right('to'),
    ],
    rows: patterns.map(({ pattern, partsPerShift, partsPerWeek: w }) => [
      pattern,
      numberText(partsPerShift.mean, 1),
      numberText(w.mean, 1),
      bound(w.ciLow),
      bound(w.ciHigh),
    ]),
  };
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
