// The work behind the page's answers on cells edited at random: whatever the tables allow is answered in words and
// finite figures, and nothing throws. What the tables do not allow never comes to it.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { answers } from '../../src/browser/engine/answers.js';
import { noAnswer, workedSchedule } from '../../src/browser/engine/schedule-answer.js';
import { gridOf } from '../../src/browser/grid/grid.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { withCells, withoutRow } from '../../src/browser/state/edit-tables.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import type { Block, InnerBlock } from '../../src/render/document/blocks.js';
import { blocksHtml } from '../../src/render/document/document-html.js';
import { inspectTables, type Tables } from '../../src/tables/inspect-tables.js';
import { quickTables } from '../support/quick-shop.js';
import { atSize } from '../support/size.js';

const QUESTIONS = atSize(
  ['shifts', 'costcase', 'io'] as const,
  ['shifts', 'simulate', 'costcase', 'io', 'size'] as const,
);

const edit = fc.record({
  file: fc.nat(20),
  row: fc.nat(40),
  column: fc.nat(12),
  value: fc.constantFrom('', '0', '0.5', '1', '2', '7.5', '60', '400', 'no', 'yes', 'machine'),
  removes: fc.constantFrom(false, false, false, true),
});

type Edit = typeof edit extends fc.Arbitrary<infer T> ? T : never;

/** The tables after those edits that leave them without an error. */
function edited(tables: Tables, edits: readonly Edit[]): Tables {
  const files = Object.keys(tables).filter((file) => gridOf(tables, file) !== null);
  return edits.reduce((now, { file, row, column, value, removes }) => {
    const name = files[file % files.length]!;
    const grid = gridOf(now, name);
    const line = grid?.rows[row % Math.max(1, grid.rows.length)]?.line;
    const field = grid?.columns[column % grid.columns.length]?.name;
    if (line === undefined || line === null || field === undefined) return now;
    const next = removes ? withoutRow(now, name, line) : withCells(now, name, line, { [field]: value });
    return inspectTables(next).cell === null ? now : next;
  }, tables);
}

test('every question of a cell edited at random is answered in words and finite figures', async () => {
  const starts = [firstCell({ cyclesS: [100, 80], loadS: 5, unloadS: 4 }), quickTables()];
  let worked = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...starts),
      fc.array(edit, { minLength: 1, maxLength: 6 }),
      async (start, edits) => {
        const tables = edited(start, edits);
        const { cell } = inspectTables(tables);
        expect(cell).not.toBeNull();
        const outcome = bestSchedule(cell!, { improvements: false });
        const schedule = 'order' in outcome ? workedSchedule(cell!, outcome) : noAnswer(outcome);
        for (const question of ['schedule', ...QUESTIONS] as const) {
          const { result, blocks } =
            question === 'schedule'
              ? schedule
              : await answers[question]({
                  cell: cell!,
                  files: Object.keys(tables),
                  outcome: () => outcome,
                  onProgress: () => undefined,
                });
          const shown = blocksHtml(blocks.filter(isWithin), question).replace(/<[^>]*>/g, ' ');
          expect(shown, question).not.toMatch(/\b(NaN|undefined|Infinity|null)\b|\[object/);
          // What is not finite would be written as null, and read as none.
          expect(notFinite(result.fields), question).toEqual([]);
          worked += 1;
        }
      },
    ),
    { numRuns: atSize(1, 3, 25) },
  );
  expect(worked).toBeGreaterThan(0);
});

const isWithin = (block: Block): block is InnerBlock => block.kind !== 'section';

function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}
