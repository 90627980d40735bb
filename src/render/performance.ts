/** Takt against what comes out, for each pattern and each part with a demand. */
import pc from 'picocolors';
import type { PatternPerformance } from '../core/performance/pattern-performance.js';
import { taktTable } from './result-tables/shift-tables.js';
import type { TextStyle } from './text-style.js';
import { printTable } from './text-table.js';

/** @returns the section, or an empty text where no part has a demand */
export function renderPerformance(patterns: readonly PatternPerformance[], style: TextStyle): string {
  const table = taktTable(patterns);
  if (table === null) return '';
  return `\n${pc.createColors(style.colour).bold('Takt')}\n${printTable(table, style)}\n`;
}
