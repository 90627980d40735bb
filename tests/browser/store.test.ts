// The page's state without a browser: whatever is typed, no answer is kept for tables with an error, a newer change ends
// the older work, and undo brings back what was there.
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { asker } from '../../src/browser/engine/asker.js';
import type { Asked, Said } from '../../src/browser/engine/messages.js';
import { gridOf } from '../../src/browser/grid/grid.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { answerTo, keepAnswering, opened, QUESTIONS } from '../../src/browser/state/answers.js';
import { withCells, withoutRow } from '../../src/browser/state/edit-tables.js';
import { beginWith, changeTables, desk, drag, errors, redo, undo } from '../../src/browser/state/store.js';

/** A worker that answers at once, or never. */
class PlayedWorker {
  onmessage: ((event: { data: Said }) => void) | null = null;
  onerror: ((event: { message: string }) => void) | null = null;
  readonly asked: Asked[] = [];
  isEnded = false;
  constructor(private readonly answers: boolean) {}
  postMessage(asked: Asked): void {
    this.asked.push(asked);
    if (this.answers) this.answer(asked);
  }
  answer({ id, question }: Asked): void {
    const result = { fields: {}, assumptions: [], warnings: [] };
    const said = { id, kind: 'answer', question, stage: 'whole', result, html: '', schedule: null } as const;
    this.onmessage?.({ data: { ...said, isNone: false } });
    this.onmessage?.({ data: { id, kind: 'done', question } });
  }
  terminate(): void {
    this.isEnded = true;
  }
}

const first = { name: 'cell', tables: firstCell({ cyclesS: [100, 80], loadS: 5, unloadS: 4 }), variants: [] };

beforeAll(() => {
  opened.value = new Set(QUESTIONS);
  keepAnswering(() => new PlayedWorker(true) as unknown as Worker);
});

test('random edits never throw, and tables with an error never keep an answer', () => {
  const step = fc.record({
    what: fc.constantFrom('type', 'type', 'type', 'remove', 'undo', 'redo', 'drag'),
    file: fc.constantFrom('stations.csv', 'routes.csv', 'robot.csv'),
    row: fc.nat(6),
    column: fc.nat(8),
    value: fc.oneof(
      fc.string(),
      fc.constantFrom('', '1', '-5', '1e9', 'machine', 'raw_rack', 'machine_1|machine_2', '2'),
    ),
  });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
      beginWith(first);
      for (const { what, file, row, column, value } of steps) {
        const grid = gridOf(desk.value.tables, file);
        const line = grid?.rows[row]?.line ?? null;
        const name = grid?.columns[column % grid.columns.length]?.name ?? '';
        const typed = () => withCells(desk.value.tables, file, line, { [name]: value });
        if (what === 'undo') undo();
        else if (what === 'redo') redo();
        else if (what === 'drag') drag(grid === null ? null : typed());
        else if (what === 'remove' && line !== null)
          changeTables((now) => withoutRow(now, file, line), 'removed');
        else if (grid !== null) changeTables(typed, 'typed');
        for (const question of QUESTIONS) {
          const { said } = answerTo(question);
          if (errors.value.length > 0) expect(said, question).toBeNull();
        }
        if (errors.value.length === 0) expect(answerTo('schedule').said).not.toBeNull();
      }
    }),
  );
});

test('as many steps taken back as were made give the first desk again', () => {
  beginWith(first);
  for (let k = 1; k <= 20; k++)
    changeTables((now) => withCells(now, 'routes.csv', 3, { cycle_s: String(100 + k) }), 'typed');
  expect(desk.value).not.toEqual(first);
  for (let k = 0; k < 20; k++) undo();
  expect(desk.value).toBe(first);
});

const wanted = { question: 'schedule', known: null } as unknown as Omit<Asked, 'id'>;

test('a newer question ends the worker that is busy with the older one, whose answers are not heard', () => {
  const workers: PlayedWorker[] = [];
  const heard: Said[] = [];
  const hire = (): Worker => {
    workers.push(new PlayedWorker(false));
    return workers.at(-1) as unknown as Worker;
  };
  const ask = asker(hire, (said) => heard.push(said));
  ask.ask(wanted);
  ask.ask(wanted);
  expect(workers.map(({ isEnded }) => isEnded)).toEqual([true, false]);
  workers[0]!.answer(workers[0]!.asked[0]!);
  expect(heard).toEqual([]);
  workers[1]!.answer(workers[1]!.asked[0]!);
  expect(heard.map(({ kind }) => kind)).toEqual(['answer', 'done']);
  ask.ask(wanted);
  expect(workers).toHaveLength(2);
});

test('while something is dragged the newest place waits for the answer on its way, and none is ended', () => {
  const worker = new PlayedWorker(false);
  const ask = asker(
    () => worker as unknown as Worker,
    () => undefined,
  );
  for (let k = 0; k < 4; k++) ask.ask({ ...wanted, rateOnly: true });
  expect(worker.asked).toHaveLength(1);
  worker.answer(worker.asked[0]!);
  expect(worker.asked).toHaveLength(2);
  expect(worker.isEnded).toBe(false);
});
