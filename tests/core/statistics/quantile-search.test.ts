// Quantiles by inverting, by tables and by trial, and where a function is least.
import { describe, expect, it } from 'vitest';
import { andersonDarling } from '../../../src/core/statistics/anderson-darling.js';
import { invertDistribution } from '../../../src/core/statistics/invert-distribution.js';
import { normalQuantile } from '../../../src/core/statistics/normal-quantile.js';
import { simplexSearch } from '../../../src/core/statistics/simplex-search.js';
import { quantileStandardError, shareStandardError } from '../../../src/core/statistics/standard-errors.js';
import { tabulateFamily } from '../../../src/core/statistics/tabulate-quantile.js';

describe('a distribution turned about', () => {
  const below = (x: number): number => 1 - Math.exp(-x);

  it('gives the value at which the share lies below', () => {
    for (const p of [1e-6, 0.1, 0.5, 0.9, 0.999999])
      for (const start of [0, 0.5, 39])
        expect(invertDistribution(p, below, (x) => Math.exp(-x), start, 0, 40)).toBeCloseTo(
          -Math.log(1 - p),
          9,
        );
  });

  it('halves its bracket where the slope leads astray', () => {
    for (const slope of [0, 1e-9, -1])
      expect(invertDistribution(0.3, below, () => slope, 30, 0, 40)).toBeCloseTo(-Math.log(0.7), 9);
  });

  it('takes few steps with a true slope', () => {
    let asked = 0;
    const counted = (x: number): number => {
      asked++;
      return below(x);
    };
    invertDistribution(0.5, counted, (x) => Math.exp(-x), 0.1, 0, 40);
    expect(asked).toBeLessThan(10);
  });

  it('stays at a start that is right', () => {
    expect(
      invertDistribution(
        0.25,
        (x) => x,
        () => 1,
        0.25,
        0,
        1,
      ),
    ).toBe(0.25);
  });
});

describe('a quantile from tables', () => {
  const counting = () => {
    const asked: number[] = [];
    const family = tabulateFamily((shift) => (u) => {
      asked.push(u);
      return shift! + normalQuantile(u);
    });
    return { asked, family };
  };

  it('is that of the function, in the middle, at the joints and in the tails', () => {
    const quantile = counting().family(5);
    for (const u of [
      1e-7, 8e-6, 1e-4, 0.003, 0.1249, 0.1251, 0.3, 0.5, 0.7001, 0.8749, 0.8751, 0.999, 0.99999,
    ])
      expect(Math.abs(quantile(u) - 5 - normalQuantile(u))).toBeLessThan(1e-6);
  });

  it('asks the function only beyond the tables once they are there', () => {
    const { asked, family } = counting();
    const quantile = family(0);
    expect(asked.length).toBe(0);
    quantile(0.5);
    const built = asked.length;
    for (const u of [0.01, 0.2, 0.5, 0.77, 0.999]) quantile(u);
    expect(asked.length).toBe(built);
    for (const u of [1e-6, 1 - 1e-6]) {
      quantile(u);
      expect(asked.at(-1)).toBe(u);
    }
    expect(asked.length).toBe(built + 2);
  });

  it('keeps 64 shapes, and lets the first one go', () => {
    const { family } = counting();
    const first = family(0);
    for (let shape = 1; shape < 64; shape++) family(shape);
    expect(family(0)).toBe(first);
    family(64);
    expect(family(0)).not.toBe(first);
    expect(family(64)).toBe(family(64));
  });

  it('tells shapes of several numbers apart', () => {
    const family = tabulateFamily((a, b) => () => 10 * a! + b!);
    expect([family(1, 12)(0.5), family(11, 2)(0.5)].map(Math.round)).toEqual([22, 112]);
  });
});

describe('how far a sample lies from a distribution', () => {
  it('is the weighted square of the distance between the two', () => {
    const sample = [0.1, 0.35, 0.4, 0.82];
    // n times the integral of (F_n(u) - u)^2 / (u (1 - u)), by the middles of small steps.
    const steps = 400_000;
    let sum = 0;
    for (let k = 0; k < steps; k++) {
      const u = (k + 0.5) / steps;
      const seen = sample.filter((x) => x <= u).length / sample.length;
      sum += (seen - u) ** 2 / (u * (1 - u)) / steps;
    }
    expect(andersonDarling(sample, (x) => x)).toBeCloseTo(sample.length * sum, 4);
    expect(andersonDarling([0.5], (x) => x)).toBeCloseTo(2 * Math.LN2 - 1, 12);
  });

  it('is large, not endless, where a value lies beyond the distribution', () => {
    for (const end of [0, 1]) {
      const far = andersonDarling([0.5, end].sort(), (x) => x);
      expect(far).toBeGreaterThan(15);
      expect(far).toBeLessThan(1000);
    }
  });
});

describe('where a function is least', () => {
  it("is found in Rosenbrock's valley, as Nelder and Mead did", () => {
    const valley = ([x, y]: readonly number[]): number => 100 * (y! - x! * x!) ** 2 + (1 - x!) ** 2;
    const [x, y] = simplexSearch(valley, [-1.2, 1], 0.5);
    expect(x).toBeCloseTo(1, 3);
    expect(y).toBeCloseTo(1, 3);
  });

  it('is found for one, two and three numbers, whatever the start', () => {
    for (const goal of [[3], [3, -2], [3, -2, 0.5]])
      for (const from of [-4, 0, 7]) {
        const bowl = (at: readonly number[]): number =>
          at.reduce((sum, v, i) => sum + (i + 1) * (v - goal[i]!) ** 2, 10);
        const found = simplexSearch(
          bowl,
          goal.map(() => from),
          1,
        );
        found.forEach((v, i) => {
          expect(v).toBeCloseTo(goal[i]!, 3);
        });
      }
  });

  it('is not looked for where nothing is allowed, and not for ever', () => {
    let asked = 0;
    const edge = ([x]: readonly number[]): number => {
      asked++;
      return x! >= 2 ? x! : Number.POSITIVE_INFINITY;
    };
    expect(simplexSearch(edge, [5], 1)[0]).toBeCloseTo(2, 3);
    expect(asked).toBeLessThan(200);
    asked = 0;
    // A slope without end: 600 steps of a few questions each.
    simplexSearch(
      ([x]) => {
        asked++;
        return -x!;
      },
      [0],
      1,
    );
    expect(asked).toBeLessThan(3000);
  });

  it('goes on while the corners lie apart, though their values are the same', () => {
    const [x] = simplexSearch(([v]) => (v! - 1) ** 2, [0.5], 1);
    expect(x).toBeCloseTo(1, 3);
  });
});

describe('standard errors', () => {
  it('of a share and of a quantile', () => {
    expect(shareStandardError(0.9, 3600)).toBeCloseTo(0.005, 12);
    expect([shareStandardError(0, 4), shareStandardError(1, 1)]).toEqual([0, 0]);
    // The median of 100 normal values: sqrt(pi / 200).
    expect(quantileStandardError(0.5, 100, 1 / Math.sqrt(2 * Math.PI))).toBeCloseTo(
      Math.sqrt(Math.PI / 200),
      12,
    );
    expect(quantileStandardError(0.2, 1, 0.5)).toBeCloseTo(0.8, 12);
  });

  it('refuse what is out of range', () => {
    for (const [p, n] of [
      [-0.1, 4],
      [1.1, 4],
      [0.5, 0],
      [Number.NaN, 4],
      [0.5, Number.NaN],
    ] as const)
      expect(() => shareStandardError(p, n)).toThrow('p must be from 0 to 1 and n be 1 or more');
    for (const [p, n, density] of [
      [0, 4, 1],
      [1, 4, 1],
      [0.5, 0, 1],
      [0.5, 4, 0],
      [0.5, 4, Number.NaN],
    ] as const)
      expect(() => quantileStandardError(p, n, density)).toThrow('p must lie between 0 and 1');
  });
});
