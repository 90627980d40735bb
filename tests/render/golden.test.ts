// Change detectors: the whole text of each renderer in each situation, drawn from stored results, so that a change of
// the search does not touch them. Refresh with `npx vitest run tests/render/golden.test.ts -u` and read what changed.
import { describe, expect, test } from 'vitest';
import { renderCostCase, renderTooLittle } from '../../src/render/cost-case.js';
import { renderNoSchedule } from '../../src/render/no-schedule.js';
import { renderSchedule } from '../../src/render/schedule.js';
import { renderShifts } from '../../src/render/shifts.js';
import { renderSize } from '../../src/render/size.js';
import { plainStyle } from '../../src/render/text-style.js';
import { stored } from './stored-results.js';

/** Every table and the chart. */
const whole = { ...plainStyle, full: true, chart: true };

const golden = (text: string, name: string): Promise<void> =>
  expect(text).toMatchFileSnapshot(`golden/${name}`);

describe('a schedule', () => {
  test.each([
    ['demo', 'not proven, many visits, machines set the pace'],
    ['wash-line', 'proven, a held step, one machine sets the pace'],
    ['two-hands', 'two hands'],
    ['robot-bound', 'the robot sets the pace'],
  ] as const)('%s: %s', async (name, _situation) => {
    await golden(renderSchedule(stored(name), 'EUR', whole), `schedule-${name}.txt`);
  });

  test('wide, plain characters, colour', async () => {
    const style = { colour: true, columns: 140, ascii: true, full: true, chart: true };
    await golden(renderSchedule(stored('demo'), 'EUR', style), 'schedule-demo-wide-ascii-colour.txt');
  });

  test('none: infeasible', async () => {
    await golden(renderNoSchedule(stored('no-schedule'), whole), 'no-schedule.txt');
  });
});

test('shift patterns', async () => {
  await golden(
    renderShifts(stored('demo-shifts'), { performance: [], simulated: null }, 'EUR', whole),
    'shifts-demo.txt',
  );
});

test('sizing from figures, with money', async () => {
  await golden(renderSize(stored('figures-size'), '', whole), 'size-figures.txt');
});

test('sizing with stops and scatter, and where the answer changes', async () => {
  await golden(renderSize(stored('size-stops'), '', whole), 'size-stops.txt');
});

test('the cost case', async () => {
  const result = stored('demo-cost');
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
