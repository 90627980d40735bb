// What any sequence could gain at most is one figure, whoever asks for it: no question leaves the closer limit out.
import { expect, test } from 'vitest';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../src/core/schedule/bound/rate-bound.js';
import { goalOf } from '../../src/core/schedule/plan/weights.js';
import type { ScheduleFound } from '../../src/core/schedule/result.js';
import { percentText } from '../../src/render/numbers.js';
import { data, freshFolder, run } from '../cli/run-in.js';
import { deepTest } from '../support/size.js';
import { unlikeCell, unlikeMachines } from '../support/unlike-cells.js';
import { jsonOf } from './json-of.js';

test('with what a second brings and without, and while the page still works out what changes bring', () => {
  const cell = unlikeCell(unlikeMachines(1, 5));
  let early: ScheduleFound | null = null;
  const found = (options: object): ScheduleFound =>
    bestSchedule(cell, { nodeLimit: 5000, ...options }, (first) => {
      early = first;
    }) as ScheduleFound;
  const whole = found({});
  expect(whole.gapPct).toBeGreaterThan(0);
  expect(early!.gapPct).toBe(whole.gapPct);
  expect(found({ improvements: false }).gapPct).toBe(whole.gapPct);
  const rates = rateBound(cell, goalOf(cell));
  const perS = cell.routes.reduce(
    (sum, { part, steps }) => sum + whole.partsPerPeriod[part]! * steps[1]!.cycleS,
    0,
  );
  expect(rates.found && rates.valuePerS).toBeGreaterThan((1.001 * perS) / whole.boundS);
});

deepTest('the demonstration: short answer, schedule, sweep, report', async () => {
  const cwd = freshFolder();
  const { gapPct } = await jsonOf(cwd, 'schedule', data('demo'));
  expect(gapPct).toBeGreaterThan(0);
  const report = await jsonOf(cwd, 'report', data('demo'), '--out', 'report', '--workers', '1');
  expect(report.schedule.gapPct).toBe(gapPct);
  const swept = await jsonOf(
    cwd,
    'sweep',
    data('demo'),
    '--sweep',
    'parts.bushing.contribution=2.1:2.2:0.1',
    '--figure',
    'schedule.gapPct',
    '--workers',
    '1',
  );
  expect(JSON.stringify(swept)).toContain(String(gapPct));
  const text = async (...words: string[]): Promise<string> => (await run(words)).out.replace(/\s+/g, ' ');
  expect(await text(data('demo'))).toContain(`at most ${percentText(gapPct)} more`);
  expect(await text('schedule', data('demo'))).toContain(`at most ${percentText(gapPct)}`);
});
