// What holds of every chart, from stored results and from results that are out of the ordinary.
import { describe, expect, test } from 'vitest';
import { cellDifferenceChart, patternDifferenceChart } from '../../../src/render/charts/difference-chart.js';
import { lossChart } from '../../../src/render/charts/loss-chart.js';
import { utilizationChart } from '../../../src/render/charts/utilization-chart.js';
import { weekChart } from '../../../src/render/charts/week-chart.js';
import { caseView } from '../../../src/render/cost-document/case-view.js';
import { cashFlowBlock } from '../../../src/render/cost-document/cash-flow-block.js';
import { crossingBlock } from '../../../src/render/cost-document/crossing-block.js';
import { tornadoBlock } from '../../../src/render/cost-document/tornado-block.js';
import { valueBlock } from '../../../src/render/cost-document/value-block.js';
import { localeNumbers } from '../../../src/render/document/locale-numbers.js';
import { STORED_SCHEDULES, stored } from '../stored-results.js';
import { drawn, expectSound } from './drawings.js';

const { patterns } = stored('demo-shifts');
const { study } = stored('demo-simulation');
const money = (name: 'demo-cost' | 'taxed-cost' | 'harness-cost', locale: string) =>
  caseView(stored(name), localeNumbers(locale, 'EUR'));

describe('from stored results', () => {
  test.each(STORED_SCHEDULES)('%s: the time of robot and stations', (name) => {
    expectSound(drawn(utilizationChart(stored(name), null)));
  });

  test('planned and simulated', () => {
    expectSound(drawn(utilizationChart(stored('demo'), study.result)));
  });

  test('weeks and losses', () => {
    expectSound(drawn(weekChart(patterns)));
    for (const pattern of patterns) expectSound(drawn(lossChart(pattern)));
  });

  test.each([
    ['demo-cost', 'en'],
    ['taxed-cost', 'de-DE'],
    ['harness-cost', 'en-US'],
  ] as const)('%s: money', (name, locale) => {
    const view = money(name, locale);
    for (const block of [crossingBlock(view), cashFlowBlock(view), tornadoBlock(view), valueBlock(view)])
      expectSound(drawn(block));
  });

  test('differences of cells and patterns', () => {
    const partsPerShift = { mean: 4, ciLow: 3, ciHigh: 5 };
    expectSound(
      drawn(cellDifferenceChart({ differences: [{ a: 'a', b: 'b', partsPerShift, clear: true }] })),
    );
    const partsPerWeek = { mean: 0, ciLow: null, ciHigh: null };
    expectSound(
      drawn(patternDifferenceChart({ differences: [{ a: 'a', b: 'b', partsPerWeek, clear: false }] })),
    );
  });
});

describe('where there is nothing to draw, a sentence says why', () => {
  const noHours = { ...patterns[0]!, ceilingPerWeek: { total: 0 }, partsPerWeek: { total: 0 } };
  const view = money('demo-cost', 'en');
  test.each([
    ['no patterns', weekChart([]), 'Fill in shifts.csv.'],
    ['no open hours', lossChart(noHours), 'one shift has no open hours'],
    ['one cell', cellDifferenceChart({ differences: [] }), 'no two to compare'],
    [
      'nothing in doubt',
      tornadoBlock({ ...view, result: { ...view.result, tornado: [], tornadoOfChoice: null } }),
      'No cost item has a low and a high',
    ],
  ])('%s', (_, block, words) => {
    expect(block).toMatchObject({ kind: 'paragraph', text: expect.stringContaining(words) });
  });
});
