/** Takt against what comes out, for each pattern and each part with a demand. */
import pc from 'picocolors';
import type { PatternPerformance } from '../core/performance/pattern-performance.js';
import { numberText } from './numbers.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

/** @returns the section, or an empty text where no part has a demand */
export function renderPerformance(patterns: readonly PatternPerformance[], style: TextStyle): string {
  const table = taktTable(patterns);
  if (table === null) return '';
  return `\n${pc.createColors(style.colour).bold('Takt')}\n${printTable(table, style)}\n`;
}

/** @returns null where no part has a demand */
export function taktTable(patterns: readonly PatternPerformance[]): TableData | null {
  const rows = patterns.flatMap(({ pattern, takt }) =>
    takt.map((t) => [
      pattern,
      t.part,
      numberText(t.taktS, 1),
      t.actualS === null ? '-' : numberText(t.actualS, 1),
      t.isMet ? 'met' : 'not met',
    ]),
  );
  if (rows.length === 0) return null;
  const columns = [
    { heading: 'pattern' },
    { heading: 'part' },
    right('takt s\n(open time over demand)'),
    right('open time\nfor a good part s'),
    { heading: 'demand' },
  ];
  return { columns, rows };
}
