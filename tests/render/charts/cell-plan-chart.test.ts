// The plan of the cell: to scale, every way of the round, names that cover nothing.
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { cellPlanChart, pairsOf, tripsOf } from '../../../src/render/charts/cell-plan-chart.js';
import { station } from '../../support/line-cell.js';
import { stored } from '../stored-results.js';
import { drawing, drawn, expectSound, marks, numberOf } from './drawings.js';

const schedule = stored('two-hands');
const places: Readonly<Record<string, readonly [number, number]>> = {
  raw: [0, 0],
  grinder_1: [1, 1],
  grinder_2: [2, 1],
  grinder_3: [4, 1],
  good: [5, 0],
};
const kindOf = (name: string) => (name === 'raw' ? 'infeed' : name === 'good' ? 'outfeed' : 'machine');
const cellAt = (at: (name: string) => readonly [number, number] | null): Pick<Cell, 'stations'> => ({
  stations: Object.keys(places).map((name) => {
    const xy = at(name);
    return station(name, kindOf(name), { xM: xy?.[0] ?? null, yM: xy?.[1] ?? null });
  }),
});
const cell = cellAt((name) => places[name]!);

describe('two hands, three grinders', () => {
  const chart = drawn(cellPlanChart(cell, schedule));
  const svg = drawing(chart);

  test('stations stand to scale, and the bar has the length that it says', () => {
    const [a, b, c] = marks(svg, 'work')
      .slice(0, 3)
      .map((mark) => numberOf(mark, 'x'));
    expect((c! - b!) / (b! - a!)).toBeCloseTo(2, 1);
    const bar = marks(svg, 'scale')[0]!;
    const metres = Number(/>([\d.]+) m</.exec(svg)![1]);
    expect((numberOf(bar, 'x2') - numberOf(bar, 'x1')) / metres).toBeCloseTo(b! - a!, 0);
  });

  test('every pair of stations has one line with the count of its trips, there and back', () => {
    const trips = tripsOf(schedule);
    const moves = schedule.order.filter(
      (e, k) => e.station !== schedule.order[(k + 1) % schedule.order.length]!.station,
    );
    expect(trips.reduce((sum, { times }) => sum + times, 0)).toBe(moves.length);
    const pairs = pairsOf(trips);
    const total = pairs.reduce((sum, { loaded, empty }) => sum + loaded + empty, 0);
    expect(total).toBe(moves.length);
    const counts = [...svg.matchAll(/class="over tick"[^>]*>(\d+)</g)].map(([, count]) => Number(count));
    expect(counts.sort()).toEqual(pairs.map(({ loaded, empty }) => loaded + empty).sort());
    expect(marks(svg, 'trip')).toHaveLength(pairs.length);
    expect(marks(svg, 'gap')).toHaveLength(pairs.filter(({ loaded }) => loaded === 0).length);
    expect(svg).toContain('>robot<');
    expect(chart.data!.rows).toHaveLength(trips.length);
  });

  test('all names stand on the plan', () => {
    for (const name of Object.keys(places)) expect(svg).toContain(`>${name}<`);
    expectSound(chart);
  });
});

test('names that do not fit become numbers with a list, whole names in their titles', () => {
  const long = (name: string) => `${name}_${'n'.repeat(40)}`;
  const renamed = JSON.parse(
    JSON.stringify({ cell, schedule }).replaceAll(
      /"(raw|good|grinder_\d)"/g,
      (_, name) => `"${long(name as string)}"`,
    ),
  ) as { cell: typeof cell; schedule: ScheduleFound };
  const chart = drawn(cellPlanChart(renamed.cell, renamed.schedule));
  expectSound(chart);
  for (const kind of ['wide', 'narrow'] as const) {
    const svg = drawing(chart, kind);
    for (const k of [1, 2, 3, 4, 5])
      expect(svg.match(new RegExp(`<text(?![^>]*over tick)[^>]*>${k}</text>`, 'g'))).toHaveLength(2);
    expect(svg).toContain(`<title>${long('grinder_1')}</title>`);
  }
});

test.each([
  [
    'a station without a place',
    (name: string) => (name === 'good' ? null : places[name]!),
    'x_m and y_m for good',
  ],
  ['all at one place', () => [1, 1] as const, 'all stations have the same position'],
])('%s: a sentence', (_, at, words) => {
  expect(cellPlanChart(cellAt(at), schedule)).toMatchObject({
    kind: 'paragraph',
    text: expect.stringContaining(words),
  });
});

test('stations in one line, across or along, are drawn', () => {
  expectSound(
    drawn(
      cellPlanChart(
        cellAt((name) => [places[name]![0], 0]),
        schedule,
      ),
    ),
  );
  expectSound(
    drawn(
      cellPlanChart(
        cellAt((name) => [0, places[name]![0]]),
        schedule,
      ),
    ),
  );
});
