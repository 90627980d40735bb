/** The simplex method step by step: the points that it looks at, worked out on paper from the rules of Nelder and Mead. */
import { expect, it } from 'vitest';
import { simplexSearch } from '../../../src/core/statistics/simplex-search.js';

type Point = readonly number[];

/** The points that are looked at, in turn, and the best one. */
function looked(f: (at: Point) => number, start: Point, step: number) {
  const points: Point[] = [];
  const noted = (at: Point) => {
    points.push(at);
    return f(at);
  };
  const best = simplexSearch(noted, start, step);
  return { best, points };
}

it('goes twice as far where that is better still, else as far, and halfway back from a point no better than the worst', () => {
  const { best, points } = looked(([x]) => x! * x!, [5], -1);
  // From 4 over 3 to 2; from 2 over 0, as -2 is no better; then between 0 and the worst, 2 and 1, as -2 and -1 are as bad.
  expect(points.slice(0, 10).map(([x]) => x)).toEqual([5, 4, 3, 2, 0, -2, -2, 1, -1, 0.5]);
  expect(best[0]).toBeCloseTo(0, 4);
});

it('stops halfway to a point that is better than the worst alone', () => {
  // Flatter below 0: -2 with 3 is better than 2 with 4, and no better than 0.
  const { points } = looked(([x]) => (x! < 0 ? 0.75 : 1) * x! * x!, [0], 2);
  expect(points.slice(0, 6).map(([x]) => x)).toEqual([0, 2, -2, -1, 1, -0.5]);
});

it('takes a point better than the second worst as it is, and draws all corners to the best where nothing is better', () => {
  const values = new Map([
    ['4,1', 1],
    ['6,1', 2],
    ['4,3', 3],
    ['6,-1', 1.5],
    ['4,-1', 5],
    ['5.5,0.5', 2.5],
    ['5,0', 4],
    ['5,1', 3.5],
  ]);
  const { best, points } = looked((at) => values.get(`${at}`) ?? 9, [4, 1], 2);
  // Round (5, 1), the middle of the two better ones, to (6, -1); round (5, 0) to (4, -1), and halfway back to (5.5, 0.5). Drawn to
  // (4, 1) the better is (5, 1): round the middle of these two to (4, 2).
  expect(points.slice(0, 9)).toEqual([
    ...[
      [4, 1],
      [6, 1],
      [4, 3],
      [6, -1],
      [4, -1],
      [5.5, 0.5],
    ],
    ...[
      [5, 0],
      [5, 1],
      [4, 2],
    ],
  ]);
  expect(best).toEqual([4, 1]);
});

it('ends where the corners lie close and differ by a billionth of the value, or after 600 rounds', () => {
  // Each round looks across, halfway and at the corner drawn in by half: after 14 the corners are 1 / 16384 apart.
  const rounds = (f: (at: Point) => number, start = 0) => (looked(f, [start], 1).points.length - 2) / 3;
  const edge = (value: number) => rounds(([x]) => value + (x! > 0 ? 0.5 : 0));
  expect([rounds(() => 7, 3), edge(1e9), edge(-1e9), edge(1e8), edge(1)]).toEqual([14, 14, 14, 600, 600]);
  // With two numbers two corners are drawn in.
  expect((looked(() => 7, [3, 3], 1).points.length - 3) / 4).toBe(14);
});

it('keeps out of where the function is infinite, with several corners there at first', () => {
  const f = ([x, y]: Point) =>
    x! > 0.5 || y! > 0.5 ? Number.POSITIVE_INFINITY : (x! + 1) ** 2 + (y! + 2) ** 2;
  const [x, y] = looked(f, [0, 0], 1).best;
  expect([x, y]).toEqual([expect.closeTo(-1, 4), expect.closeTo(-2, 4)]);
});
