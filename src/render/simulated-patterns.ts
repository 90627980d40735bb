/** Simulated shift patterns and their differences as text. */
import pc from 'picocolors';
import type { PatternComparison } from '../core/compare/compare-patterns.js';
import { patternDifferenceTable, simulatedPatternTable } from './result-tables/shift-tables.js';
import type { TextStyle } from './text-style.js';
import { printTable } from './text-table.js';

export function renderSimulatedPatterns(result: PatternComparison, style: TextStyle): string {
  const title = pc
    .createColors(style.colour)
    .bold('Simulated, with downtime, variation and changeovers, with the same random numbers');
  const differences =
    result.differences.length === 0
      ? ''
      : `\n${printTable(patternDifferenceTable(result.differences), style)}\n`;
  return `\n${title}\n${printTable(simulatedPatternTable(result), style)}\n${differences}`;
}
