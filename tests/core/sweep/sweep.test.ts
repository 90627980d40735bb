/** Values, points, shards and figures of a sweep. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { DEFAULT_FIGURES, isFigurePath } from '../../../src/core/sweep/cell-figures.js';
import { pickFigure } from '../../../src/core/sweep/result-figure.js';
import { readAxis } from '../../../src/core/sweep/sweep-axis.js';
import { pointCount, sweepPoints } from '../../../src/core/sweep/sweep-points.js';
import { withoutEffect } from '../../../src/core/sweep/without-effect.js';
import { emptyCell, station } from '../../support/line-cell.js';

const valuesOf = (text: string): readonly string[] => {
  const reading = readAxis(text);
  if (!reading.ok) throw new Error(reading.fault);
  return reading.axis.values;
};
const faultOf = (text: string): string => {
  const reading = readAxis(text);
  return reading.ok ? 'read' : reading.fault;
};

describe('values of an input', () => {
  test.each([
    ['a.b=180:300:20', ['180', '200', '220', '240', '260', '280', '300']],
    ['a.b=0.1:0.5:0.1', ['0.1', '0.2', '0.3', '0.4', '0.5']],
    ['a.b=10:0:-5', ['10', '5', '0']],
    ['a.b=1:2:0.4', ['1', '1.4', '1.8']],
    ['a.b=5:5:1', ['5']],
    ['a.b= 1 , 2 ', ['1', '2']],
    ['stops.m.tool change.operator=yes,no', ['yes', 'no']],
  ])('%s', (text, values) => expect(valuesOf(text)).toEqual(values));

  test('a range holds its first value, never passes its last, and has no gap larger than a step', () => {
    const cents = (low: number, high: number) => fc.integer({ min: low, max: high }).map((n) => n / 100);
    fc.assert(
      fc.property(cents(0, 10_000), cents(0, 10_000), cents(100, 2000), (first, length, step) => {
        const last = Number((first + length).toFixed(2));
        const values = valuesOf(`a.b=${first}:${last}:${step}`).map(Number);
        expect(values[0]).toBe(first);
        expect(values.at(-1)).toBeLessThanOrEqual(last);
        expect(last - values.at(-1)!).toBeLessThan(step);
        for (const [i, v] of values.entries()) expect(v).toBeCloseTo(first + i * step, 9);
      }),
    );
  });

  test.each([
    ['a.b', 'expected a path, `=` and'],
    ['a.b=1:2', 'found `1:2`, expected three numbers first:last:step'],
    ['a.b=1:x:2', 'expected three numbers'],
    ['a.b=1:2:0', 'found the step 0'],
    ['a.b=1:2:-1', 'found the step -1 in `1:2:-1`, expected one that leads from 1 to 2'],
    ['a.b=1,,2', 'found an empty value'],
    ['a.b=1,1', 'found a value twice'],
    ['a.b=0:1e9:1', 'expected three numbers'],
    ['a.b=0:1000000:1', 'found 1000001 values in `0:1000000:1`, at most 100000'],
  ])('%s is refused', (text, said) => expect(faultOf(text)).toContain(said));
});

test('shards share out the points: each is in exactly one', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 1, max: 12 }),
      (a, b, of) => {
        const axis = (path: string, n: number) => ({
          path,
          values: Array.from({ length: n }, (_, i) => `${i}`),
        });
        const axes = [axis('x', a), axis('y', b)];
        const shared = Array.from({ length: of }, (_, i) => sweepPoints(axes, { part: i + 1, of })).flat();
        const all = sweepPoints(axes);
        expect(all).toHaveLength(pointCount(axes));
        expect(shared.sort((p, q) => p.number - q.number)).toEqual(all);
        expect(new Set(all.map((p) => p.values.join())).size).toBe(a * b);
      },
    ),
  );
});

describe('figures by path', () => {
  const result = {
    schedule: {
      periodS: 12,
      proven: true,
      stations: [
        { station: 'mill.1', waitS: 3 },
        { station: 'mill', waitS: 4 },
      ],
    },
    shifts: { patterns: [{ pattern: 'day and night', partsPerWeek: { total: 7 }, note: null }] },
  };
  test.each([
    ['schedule.periodS', 12],
    ['schedule.proven', true],
    ['schedule.stations.mill.waitS', 4],
    ['schedule.stations.mill.1.waitS', 3],
    ['shifts.patterns.day and night.partsPerWeek.total', 7],
    ['shifts.patterns.day and night.note', null],
  ])('%s', (path, value) => expect(pickFigure(result, path)).toEqual({ ok: true, value }));

  test('jobs, resources and goals go by their names; entries that share one go by their number', () => {
    const plan = {
      jobs: [
        { job: '7', part: 'cap', late: 1 },
        { job: '8', part: 'cap', late: 2 },
      ],
      resources: [{ resource: 'robot', usedH: 3 }],
      goals: [{ goal: 'late parts', value: 4 }],
      setups: [
        { station: 'mill', minutes: 5 },
        { station: 'mill', minutes: 6 },
      ],
      mixed: [{ station: 'mill', minutes: 7 }, 8],
    };
    const of = (path: string) => pickFigure(plan, path);
    expect(of('jobs.8.late')).toEqual({ ok: true, value: 2 });
    expect(of('resources.robot.usedH')).toEqual({ ok: true, value: 3 });
    expect(of('goals.late parts.value')).toEqual({ ok: true, value: 4 });
    expect(of('setups.1.minutes')).toEqual({ ok: true, value: 6 });
    expect(of('mixed.1')).toEqual({ ok: true, value: 8 });
    expect(of('setups.mill')).toEqual({ ok: false, followed: 'setups', names: ['0', '1'] });
  });

  test('what cannot be followed names what there is', () => {
    expect(pickFigure(result, 'schedule.period')).toEqual({
      ok: false,
      followed: 'schedule',
      names: ['periodS', 'proven', 'stations'],
    });
    expect(pickFigure(result, 'schedule.stations')).toEqual({
      ok: false,
      followed: 'schedule.stations',
      names: ['mill.1', 'mill'],
    });
    expect(pickFigure(result, 'schedule.periodS.x')).toEqual({
      ok: false,
      followed: 'schedule.periodS',
      names: [],
    });
  });

  test('figures of the run itself cannot be swept: they differ from run to run', () => {
    expect(DEFAULT_FIGURES.every(isFigurePath)).toBe(true);
    expect(isFigurePath('schedule.searched.seconds')).toBe(false);
    expect(isFigurePath('simulate.eventsPerSecond')).toBe(false);
    expect(isFigurePath('compare.cells')).toBe(false);
  });
});

describe('an input that changes no figure is named', () => {
  const placed = (xM: number | null) => [
    station('a', 'infeed', { xM, yM: xM }),
    station('b', 'outfeed', { xM: 1, yM: 0 }),
  ];
  const cellAt = (xM: number | null): Cell => ({
    ...emptyCell,
    robot: { ...emptyCell.robot, speedMS: 1, travelS: 3 },
    stations: placed(xM),
    routes: [],
    travel: [],
  });
  const point = (values: readonly string[], figure: number) => ({ values, figures: [figure] });

  test('with where the times come from instead', () => {
    const points = [point(['2'], 5), point(['4'], 5)];
    expect(withoutEffect(['robot.travel_s'], points, cellAt(0))).toEqual([
      'robot.travel_s changes none of these figures at any of its values: the time of every trip comes from the positions of stations.csv with speed_m_s.',
    ]);
    expect(withoutEffect(['robot.speed_m_s'], points, cellAt(null))).toEqual([
      'robot.speed_m_s changes none of these figures at any of its values: the time of every trip comes from travel_s of robot.csv.',
    ]);
  });

  test('without a reason where the time is used and makes no difference', () => {
    expect(withoutEffect(['robot.travel_s'], [point(['2'], 5), point(['4'], 5)], cellAt(null))).toEqual([
      'robot.travel_s changes none of these figures at any of its values.',
    ]);
  });

  test('of two inputs the one, each held against points that differ in it alone', () => {
    const points = ['1', '2'].flatMap((a) => ['3', '4'].map((b) => point([a, b], Number(b))));
    expect(withoutEffect(['a.x', 'b.x'], points, cellAt(0))).toEqual([
      'a.x changes none of these figures at any of its values.',
    ]);
    expect(withoutEffect(['a.x', 'b.x'], [points[0]!, points[3]!], cellAt(0))).toEqual([]);
  });
});
