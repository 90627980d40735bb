// What the status line says of the rate after a change: once, when the new rate is known, against the one before.
import { expect, test } from 'vitest';
import type { Hired } from '../../src/browser/engine/asker.js';
import type { Asked } from '../../src/browser/engine/messages.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { keepAnswering } from '../../src/browser/state/answers.js';
import { withCells } from '../../src/browser/state/edit-tables.js';
import { keepRateNews, newsText, rateNews } from '../../src/browser/state/rate-news.js';
import { beginWith, changeTables, redo, status, undo } from '../../src/browser/state/store.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';

test('the difference in words', () => {
  expect(newsText(40, null)).toBe('Output 40.0 parts/h.');
  expect(newsText(40, 52.25)).toBe('Output 40.0 parts/h, 12.3 less than before.');
  expect(newsText(40.12, 40)).toBe('Output 40.1 parts/h, 0.12 more than before.');
  expect(newsText(40, 40)).toBe('Output 40.0 parts/h, as before.');
  expect(newsText(null, 40)).toBe('No sequence can be repeated.');
});

test('each change is followed by what it did, a wrong value by that; undo and redo name the change', () => {
  const asked: Asked[] = [];
  const hired = {
    onmessage: null,
    onerror: null,
    postMessage: (one: Asked) => asked.push(one),
    terminate: () => {},
  };
  const worker: Hired = hired as unknown as Hired;
  keepAnswering((question) => (question === 'schedule' ? worker : { ...worker }));
  keepRateNews();
  const answer = (total: number): void => {
    const { id, question } = asked.at(-1)!;
    const schedule = { partsPerH: { total } } as unknown as ScheduleFound;
    const result = { fields: {}, assumptions: [], warnings: [] };
    const said = { id, kind: 'answer', question, stage: 'found', result, html: '', schedule, isNone: false };
    worker.onmessage!({ data: said } as MessageEvent);
    worker.onmessage!({ data: { id, kind: 'done', question } } as MessageEvent);
  };
  const cycle = (value: string): void =>
    changeTables((now) => withCells(now, 'routes.csv', 3, { cycle_s: value }), `cycle_s is ${value}.`);
  const seen = (): string[] => [status.value, rateNews.value];

  expect(rateNews.value).toBe('');
  beginWith({ name: 'cell', tables: firstCell({ cyclesS: [100], loadS: 5, unloadS: 4 }), variants: [] });
  answer(30);
  expect(rateNews.value).toBe('Output 30.0 parts/h.');
  cycle('90');
  expect(seen()).toEqual(['cycle_s is 90.', '']);
  answer(33);
  expect(seen()).toEqual(['cycle_s is 90.', 'Output 33.0 parts/h, 3.0 more than before.']);
  cycle('long');
  expect(seen()).toEqual(['cycle_s is long.', 'No results: 1 error.']);
  undo();
  expect(seen()).toEqual(['Undone: cycle_s is long.', '']);
  answer(33);
  expect(rateNews.value).toBe('Output 33.0 parts/h, as before.');
  undo();
  expect(status.value).toBe('Undone: cycle_s is 90.');
  redo();
  expect(status.value).toBe('Done again: cycle_s is 90.');
});
