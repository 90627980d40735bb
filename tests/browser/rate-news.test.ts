// What the status line says of the rate after a change: once, when the new rate is known, against the one before.
import { expect, test } from 'vitest';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { keepAnswering } from '../../src/browser/state/answers.js';
import { withCells } from '../../src/browser/state/edit-tables.js';
import { keepRateNews, newsText, rateNews } from '../../src/browser/state/rate-news.js';
import { beginWith, changeTables, redo, status, undo } from '../../src/browser/state/store.js';

test('the difference in words', () => {
  expect(newsText(40, null)).toBe('Output 40.0 parts/h.');
  expect(newsText(40, 52.25)).toBe('Output 40.0 parts/h, 12.3 less than before.');
  expect(newsText(40.12, 40)).toBe('Output 40.1 parts/h, 0.12 more than before.');
  expect(newsText(40, 40)).toBe('Output 40.0 parts/h, as before.');
  expect(newsText(null, 40)).toBe('No sequence can be repeated.');
});

test('a wrong value is said at once; undo and redo say what they take back and do again', () => {
  keepAnswering(() => ({ onmessage: null, onerror: null, postMessage: () => {}, terminate: () => {} }));
  keepRateNews();
  beginWith({ name: 'cell', tables: firstCell({ cyclesS: [100], loadS: 5, unloadS: 4 }), variants: [] });
  expect(rateNews.value).toBe('');
  changeTables((now) => withCells(now, 'routes.csv', 3, { cycle_s: 'long' }), 'cycle_s is long.');
  expect([status.value, rateNews.value]).toEqual(['cycle_s is long.', 'No results: 1 error.']);
  undo();
  expect([status.value, rateNews.value]).toEqual(['Undone: cycle_s is long.', '']);
  undo();
  expect(status.value).toBe('Undone: cycle_s is long.');
  redo();
  expect(status.value).toBe('Done again: cycle_s is long.');
});
