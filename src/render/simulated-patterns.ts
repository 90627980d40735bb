/** Simulated shift patterns and their differences as text. */
import pc from 'picocolors';
import type { PatternComparison } from '../core/compare/compare-patterns.js';
import { numberText } from './numbers.js';
import type { TextStyle } from './text-style.js';
import { textTable } from './text-table.js';

const right = (heading: string) => ({ heading, align: 'right' as const });

export function renderSimulatedPatterns(result: PatternComparison, style: TextStyle): string {
  const bound = (value: number | null, digits = 1): string =>
    value === null ? '-' : numberText(value, digits);
  const patterns = textTable(
    [{ heading: 'pattern' }, right('parts\na shift'), right('parts\na week'), right('from'), right('to')],
    result.patterns.map(({ pattern, partsPerShift, partsPerWeek: w }) => [
      pattern,
      numberText(partsPerShift.mean, 1),
      numberText(w.mean, 1),
      bound(w.ciLow),
      bound(w.ciHigh),
    ]),
    style,
  );
  const differences = textTable(
    [
      { heading: 'parts a week, first less second' },
      right('mean'),
      right('from'),
      right('to'),
      { heading: '' },
    ],
    result.differences.map(({ a, b, partsPerWeek: d, clear }) => [
      `${a} less ${b}`,
      numberText(d.mean, 1),
      bound(d.ciLow),
      bound(d.ciHigh),
      clear ? 'clear' : 'no clear difference',
    ]),
    style,
  );
  const title = pc.createColors(style.colour).bold('Simulated, with stops and scatter, under the same luck');
  return `\n${title}\n${patterns}\n${result.differences.length === 0 ? '' : `\n${differences}\n`}`;
}
