// Change detectors: the whole text of each renderer in each situation, drawn from stored results, so that a change of
// the search does not touch them. Refresh with `npx vitest run tests/render/golden.test.ts -u` and read what changed.
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { CostCaseFound } from '../../src/core/cost/result.js';
import type { ScheduleFound, ScheduleInfeasible } from '../../src/core/schedule/result.js';
import type { ShiftPatterns } from '../../src/core/shifts/shift-patterns.js';
import type { SizeResult } from '../../src/core/size/size-cell.js';
import type { SizeStudy } from '../../src/core/size/size-study.js';
import { renderCostCase, renderTooLittle } from '../../src/render/cost-case.js';
import { renderNoSchedule } from '../../src/render/no-schedule.js';
import { renderSchedule } from '../../src/render/schedule.js';
import { renderShifts } from '../../src/render/shifts.js';
import { renderSize } from '../../src/render/size.js';
import { plainStyle } from '../../src/render/text-style.js';

/** Every table and the chart. */
const whole = { ...plainStyle, full: true, chart: true };

const stored = <T>(name: string): T =>
  JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8')) as T;
const golden = (text: string, name: string): Promise<void> =>
  expect(text).toMatchFileSnapshot(`golden/${name}`);

describe('a schedule', () => {
  test.each([
    ['demo', 'not proven, many visits, machines set the pace'],
    ['wash-line', 'proven, a held step, one machine sets the pace'],
    ['two-hands', 'two hands'],
    ['robot-bound', 'the robot sets the pace'],
  ])('%s: %s', async (name) => {
    await golden(renderSchedule(stored<ScheduleFound>(name), whole), `schedule-${name}.txt`);
  });

  test('wide, plain characters, colour', async () => {
    const style = { colour: true, columns: 140, ascii: true, full: true, chart: true };
    await golden(renderSchedule(stored<ScheduleFound>('demo'), style), 'schedule-demo-wide-ascii-colour.txt');
  });

  test('none: infeasible', async () => {
    await golden(renderNoSchedule(stored<ScheduleInfeasible>('no-schedule'), whole), 'no-schedule.txt');
  });
});

test('shift patterns', async () => {
  await golden(renderShifts(stored<ShiftPatterns>('demo-shifts'), 'EUR', whole), 'shifts-demo.txt');
});

test('sizing from figures, with money', async () => {
  await golden(renderSize(stored<SizeResult>('figures-size'), '', whole), 'size-figures.txt');
});

test('sizing with stops and scatter, and where the answer changes', async () => {
  await golden(renderSize(stored<SizeStudy>('size-stops'), '', whole), 'size-stops.txt');
});

test('the cost case', async () => {
  const result = stored<CostCaseFound>('demo-cost');
  await golden(renderCostCase(result, whole), 'cost-case-demo.txt');
});

test('too little for a cost case', () => {
  const missing = [
    { item: 'box_price', file: 'costs.csv', neededFor: ['the capital for boxes', 'the cash flows'] },
    { item: 'changeovers.csv', file: 'changeovers.csv', neededFor: ['every saving'] },
  ];
  const text = renderTooLittle({ status: 'too little data', missing, recommendation: '' }, whole);
  expect(text).toBe(`Too little data to say; no results. Missing:
- box_price in costs.csv: needed for the capital for boxes, the cash flows
- changeovers.csv: needed for every saving
`);
});
