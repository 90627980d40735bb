// Change detector: a study of readings as text, in two situations. Refresh with `npx vitest run tests/render/readings.test.ts -u`.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { defaultReadingsOptions, studyReadings } from '../../src/core/readings/study-readings.js';
import { renderReadings } from '../../src/render/readings.js';
import { readingsCsv } from '../../src/render/readings-files.js';
import { plainStyle } from '../../src/render/text-style.js';
import { readReadings } from '../../src/tables/readings-table.js';

const text = readFileSync(new URL('../../data/starter/readings.csv', import.meta.url), 'utf8');
const readings = readReadings('readings.csv', text).readings!;

test('robot and machine times', async () => {
  const view = { study: studyReadings(readings, null), options: defaultReadingsOptions, folder: null };
  await expect(renderReadings(view, plainStyle)).toMatchFileSnapshot('golden/readings-starter.txt');
});

test('rated readings with an allowance', async () => {
  const options = { ...defaultReadingsOptions, allowance: { pct: 12, basis: 'work' } as const };
  const rated = readings.slice(0, 30).map((r, i) => ({ ...r, ratingPct: 90 + (i % 3) * 10 }));
  const view = { study: studyReadings(rated, null, options), options, folder: null };
  await expect(renderReadings(view, plainStyle)).toMatchFileSnapshot('golden/readings-rated.txt');
});

test('the figures as CSV: one row an element, as many cells as headings', () => {
  const [header, ...rows] = readingsCsv(studyReadings(readings, null)).trim().split('\n');
  expect(rows).toHaveLength(6);
  for (const row of rows) expect(row.split(',')).toHaveLength(header!.split(',').length);
});
