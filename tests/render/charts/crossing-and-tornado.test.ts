// Charts: marks stand where the axes say, and nothing covers anything else.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { caseView } from '../../../src/render/cost-document/case-view.js';
import { crossingBlock, spreadLabels } from '../../../src/render/cost-document/crossing-block.js';
import { tornadoBlock } from '../../../src/render/cost-document/tornado-block.js';
import { localeNumbers } from '../../../src/render/document/locale-numbers.js';
import { stored } from '../stored-results.js';
import { drawing, expectSound, scaleBelow, scaleBeside } from './drawings.js';

const result = stored('demo-cost');
const numbers = localeNumbers('en', 'EUR');
const crossingOf = (of: typeof result) => crossingBlock(caseView(of, numbers));

describe('the crossing chart', () => {
  const svg = drawing(crossingOf(result));

  test('marks the crossing where both lines have its cost, and says so', () => {
    const { crossing, points } = result.cumulativeCost;
    const alone = { ...result, cumulativeCost: { points, crossing } };
    const drawn = drawing(crossingOf(alone));
    const [, cx, cy] = /<circle cx="([\d.]+)" cy="([\d.]+)"/.exec(drawn)!;
    const point = points.find((p) => p.changeovers === crossing)!;
    expect(point.harness).toBeCloseTo(point.box, 6);
    expect(Number(cx)).toBeCloseTo(scaleBelow(drawn)(crossing!), 0);
    expect(Number(cy)).toBeCloseTo(scaleBeside(drawn)(point.box), 0);
    expect(drawn).toContain(`>cross at ${numbers.number(Math.ceil(crossing! - 1e-9))}<`);
    expect(drawn).toContain('>590 planned<');
  });

  test('marks the crossing of the recommended option where that has a line of its own', () => {
    const { points, choiceCrossing } = result.cumulativeCost;
    const { harness } = points.find((p) => p.changeovers === choiceCrossing)!;
    const chart = crossingOf(result)!;
    expectSound(chart);
    const [, cx, cy] = /<circle cx="([\d.]+)" cy="([\d.]+)"/.exec(drawing(chart))!;
    expect(Number(cx)).toBeCloseTo(scaleBelow(drawing(chart))(choiceCrossing!), 0);
    expect(Number(cy)).toBeCloseTo(scaleBeside(drawing(chart))(harness), 0);
  });

  test('has units on both axes, three lines that differ without colour, and their names', () => {
    expect(svg).toContain('>present value of costs, EUR<');
    expect(svg).toContain('>changeovers over 5 years, all machines<');
    expect([...svg.matchAll(/<path d="[^"]+" class="([^"]+)"/g)].map((m) => m[1])).toEqual([
      'line',
      'line dash',
      'line dots',
    ]);
    for (const name of ['move the harness', 'a box on every machine', result.decision])
      expect(svg).toContain(`>${name}<`);
  });

  test('is sound, wide and narrow', () => {
    expectSound(crossingOf(result)!);
  });

  test('there is none where nothing is planned', () => {
    const none = { ...result, cumulativeCost: { points: [], crossing: null } };
    expect(crossingOf(none)).toBeNull();
  });
});

test('the bars of the tornado end at their values, the longer side first', () => {
  const bars = [
    { item: 'a', low: 1, high: 2, npvLow: -50, npvHigh: 400 },
    { item: 'b', low: 3, high: 4, npvLow: 300, npvHigh: 200 },
  ];
  const view = caseView({ ...result, tornadoOfChoice: bars }, numbers);
  const increment = { ...view.watched.increment!, npv: 100 };
  const chart = tornadoBlock({ ...view, watched: { ...view.watched, increment } });
  expectSound(chart);
  const svg = drawing(chart);
  const x = scaleBelow(svg);
  const rects = [
    ...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="15" class="(\w+)"/g),
  ].map(([, left, width, kind]) => ({ from: Number(left), to: Number(left) + Number(width), kind }));
  const expected = [
    { from: x(100), to: x(400), kind: 'full' },
    { from: x(-50), to: x(100), kind: 'open' },
    // Both ends on one side: the longer lies under the shorter.
    { from: x(100), to: x(300), kind: 'open' },
    { from: x(100), to: x(200), kind: 'full' },
  ];
  expect(rects).toHaveLength(4);
  rects.forEach((rect, k) => {
    expect(rect.from).toBeCloseTo(expected[k]!.from, 0);
    expect(rect.to).toBeCloseTo(expected[k]!.to, 0);
    expect(rect.kind).toBe(expected[k]!.kind);
  });
});

test('labels keep their distance and their order', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 6 }),
      (wanted) => {
        const placed = spreadLabels(wanted, 14, 300);
        const sorted = [...placed].sort((a, b) => a - b);
        sorted.slice(1).forEach((y, k) => {
          expect(y - sorted[k]!).toBeGreaterThanOrEqual(14 - 1e-9);
        });
        expect(Math.max(...placed)).toBeLessThanOrEqual(300);
        wanted.forEach((a, i) => {
          wanted.forEach((b, j) => {
            if (a < b) expect(placed[i]!).toBeLessThan(placed[j]!);
          });
        });
      },
    ),
  );
});
