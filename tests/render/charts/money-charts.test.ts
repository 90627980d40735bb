// Charts of money and numbers of machines: as many marks as figures, each where the scale has it.
import { describe, expect, test } from 'vitest';
import { sizeChart } from '../../../src/render/charts/size-chart.js';
import { caseView } from '../../../src/render/cost-document/case-view.js';
import { cashFlowBlock, flowBlock } from '../../../src/render/cost-document/cash-flow-block.js';
import { valueBlock } from '../../../src/render/cost-document/value-block.js';
import { localeNumbers } from '../../../src/render/document/locale-numbers.js';
import { stored } from '../stored-results.js';
import { drawing, drawn, marks, numberOf, scaleBelow, scaleBeside } from './drawings.js';

const result = stored('demo-cost');
const numbers = localeNumbers('en', 'EUR');
const view = caseView(result, numbers);

describe('cash flow', () => {
  const chart = cashFlowBlock(view, flowBlock(view));
  const svg = drawing(chart);
  const { watched, harness } = view;
  const years = watched.cashFlow.length;

  test('a bar for each way and year, up or down as long as its money', () => {
    const [open, full] = [marks(svg, 'open'), marks(svg, 'full')];
    expect([open.length, full.length]).toEqual([years, years]);
    const perMoney = numberOf(open[1]!, 'height') / Math.abs(harness.cashFlow[1]!);
    harness.cashFlow.forEach((flow, year) => {
      expect(Math.abs(numberOf(open[year]!, 'height') - Math.abs(flow) * perMoney)).toBeLessThan(0.2);
    });
    watched.cashFlow.forEach((flow, year) => {
      expect(Math.abs(numberOf(full[year]!, 'height') - Math.abs(flow) * perMoney)).toBeLessThan(0.2);
    });
  });

  test('the difference is open below the line and full above, the last point of the line its present value', () => {
    const flows = watched.increment!.cashFlow;
    expect(marks(svg, 'loss')).toHaveLength(flows.filter((flow) => flow < 0).length);
    expect(marks(svg, 'gain')).toHaveLength(flows.filter((flow) => flow >= 0).length);
    expect(marks(svg, 'mark')).toHaveLength(years);
    expect(watched.increment!.runningPresentValue.at(-1)).toBeCloseTo(watched.increment!.npv, 6);
    expect(chart.data!.rows.at(-1)!.at(-1)).toBe(numbers.number(watched.increment!.npv));
  });

  test('the title says in which year the money has come back with interest', () => {
    const running = watched.increment!.runningPresentValue;
    const year = running.findIndex((value) => value >= 0);
    expect(chart.title).toBe(
      `The €6,002 more spent on boxes on lathe_2, mill_1, mill_2 at the start is paid back, with interest, in year ${year}`,
    );
  });
});

describe('the spread of the value', () => {
  const spread = (risk: typeof result.risk) =>
    valueBlock({ ...view, result: { ...result, risk, riskOfChoice: risk } });

  test('bars above 0 are full and hold the share that pays', () => {
    // 13 of 100 trials do not pay.
    const histogram = { from: -2000, step: 1000, counts: [5, 8, 40, 30, 17] };
    const risk = { ...result.risk, probabilityPays: 0.87, npv: { ...result.risk.npv, histogram } };
    const svg = drawing(spread(risk));
    const { from, step, counts } = risk.npv.histogram;
    const [pay, not] = [marks(svg, 'gain'), marks(svg, 'loss')];
    expect(pay.length + not.length).toBe(counts.filter((count) => count > 0).length);
    const area = (bars: typeof pay) => bars.reduce((sum, bar) => sum + numberOf(bar, 'height'), 0);
    expect(area(pay) / (area(pay) + area(not))).toBeCloseTo(risk.probabilityPays, 2);
    const x = scaleBelow(svg);
    expect(numberOf(pay[0]!, 'x')).toBeCloseTo(x(0) + 0.5, 0);
    expect(numberOf(not[0]!, 'x')).toBeCloseTo(x(from) + 0.5, 0);
    expect(numberOf(not[0]!, 'width')).toBeCloseTo(x(step) - x(0) - 1, 0);
    expect(svg).toContain('>87.0% pay<');
    expect(svg).toContain('>13.0% do not<');
  });

  test('where all trials pay, no word of others', () => {
    const svg = drawing(valueBlock(view));
    expect(svg).toContain('>&gt;99.9% pay<');
    expect(svg).not.toContain('do not<');
  });

  test('without doubt, or without spread, there is nothing to draw', () => {
    const none = { ...result.risk, items: [] };
    expect(spread(none)).toMatchObject({ kind: 'paragraph' });
    const histogram = { from: 0, step: 500, counts: [10] };
    const alike = { ...result.risk, npv: { ...result.risk.npv, histogram } };
    expect(spread(alike)).toMatchObject({ text: expect.stringContaining('no spread') });
  });
});

describe('the number of machines', () => {
  const size = stored('figures-size');

  test('a point for each number in each panel, the recommended one marked in each', () => {
    const svg = drawing(sizeChart(size, 'EUR'));
    expect(marks(svg, 'panel')).toHaveLength(3);
    expect(marks(svg, 'point')).toHaveLength(3 * size.rows.length);
    expect(svg.match(new RegExp(`>${size.recommended!.machines} recommended<`, 'g'))).toHaveLength(3);
    expect(svg).toContain('>cost per part, EUR<');
  });

  test('points stand at their parts, unproven ones as open squares', () => {
    const rows = size.rows.map((row) => ({ ...row, costPerPart: null, contributionPerH: null }));
    const svg = drawing(sizeChart({ rows, recommended: size.recommended }, ''));
    const y = scaleBeside(svg);
    const points = marks(svg, 'point');
    expect(points.filter(({ name }) => name === 'circle')).toHaveLength(rows.filter((r) => r.proven).length);
    for (const row of rows.filter((r) => r.proven))
      expect(points.some((p) => Math.abs(numberOf(p, 'cy') - y(row.partsPerShift)) < 0.6)).toBe(true);
  });

  test('simulated means with their intervals beside them', () => {
    const rows = size.rows.map((row) => {
      const mean = row.partsPerShift * 0.9;
      return { ...row, simulated: { partsPerShift: { mean, ciLow: mean - 20, ciHigh: mean + 20 } } };
    });
    const chart = drawn(sizeChart({ rows, recommended: null }, ''));
    expect(marks(drawing(chart), 'simulated')).toHaveLength(rows.length);
    expect(chart.note).toContain('simulated means');
  });

  test('no rows: a sentence', () => {
    expect(sizeChart({ rows: [], recommended: null }, '')).toMatchObject({ kind: 'paragraph' });
  });
});
