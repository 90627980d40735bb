// Polynomials in whole numbers against products of known factors.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  derivative,
  polynomialFromDecimals,
  positiveRootIntervals,
  type RootInterval,
  refineRoot,
  signChanges,
  squareFreePart,
  trimmed,
} from '../../../../src/core/cost/finance/exact-polynomial.js';

/** The product of factors, constant terms first. */
function product(...factors: readonly (readonly bigint[])[]): bigint[] {
  return factors.reduce<bigint[]>(
    (all, factor) => {
      const next = Array.from({ length: all.length + factor.length - 1 }, () => 0n);
      for (const [i, a] of all.entries())
        for (const [k, b] of factor.entries()) next[i + k] = next[i + k]! + a * b;
      return next;
    },
    [1n],
  );
}

/** den x - num: a root at num / den. */
const root = (num: bigint, den = 1n): bigint[] => [-num, den];

/** Whether num / den lies in an interval, its ends included. */
function holds({ lo, hi, shift }: RootInterval, num: bigint, den: bigint): boolean {
  const scaled = num << BigInt(shift);
  return lo * den <= scaled && scaled <= hi * den;
}

const positive = fc.tuple(fc.bigInt(1n, 400n), fc.bigInt(1n, 60n));
const reduced = (fractions: readonly (readonly [bigint, bigint])[]) => {
  const seen = new Map<number, readonly [bigint, bigint]>();
  for (const [num, den] of fractions) seen.set(Number(num) / Number(den), [num, den]);
  return [...seen.values()];
};

describe('a polynomial', () => {
  it('takes decimals as they print', () => {
    expect(polynomialFromDecimals([0.1, -2.5, 3])).toEqual([1n, -25n, 30n]);
    expect(polynomialFromDecimals([2e-7, 0, 1e21])).toEqual([2n, 0n, 10n ** 28n]);
    expect(polynomialFromDecimals([1200, -34000])).toEqual([12n, -340n]);
    expect(polynomialFromDecimals([0, 0])).toEqual([0n, 0n]);
  });

  it('loses zeros at both ends, and only there', () => {
    expect(trimmed([0n, 0n, 3n, 0n, -1n, 0n])).toEqual([3n, 0n, -1n]);
    expect(trimmed([5n])).toEqual([5n]);
    expect(trimmed([0n, 0n])).toEqual([]);
  });

  it('has its derivative and its changes of sign', () => {
    expect(derivative([7n, -2n, 5n, 4n])).toEqual([-2n, 10n, 12n]);
    expect(signChanges([1n, 0n, 0n, -2n, -3n, 4n])).toBe(2);
    expect(signChanges([-1n, 0n, -2n])).toBe(0);
    expect(signChanges([0n, 3n, 0n, -1n])).toBe(1);
  });
});

describe('without repeated factors', () => {
  const primitive = (p: readonly bigint[]): bigint[] => {
    const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));
    const common = p.map((c) => (c < 0n ? -c : c)).reduce(gcd);
    const sign = p.at(-1)! < 0n ? -1n : 1n;
    return p.map((c) => (sign * c) / common);
  };

  it('each root is left once', () => {
    for (const [powers, once] of [
      [
        [root(1n), root(1n), root(2n)],
        [root(1n), root(2n)],
      ],
      [[root(3n, 7n), root(3n, 7n), root(3n, 7n)], [root(3n, 7n)]],
      [
        [root(1n, 2n), root(1n, 2n), [1n, 1n, 1n], [1n, 1n, 1n], root(-5n)],
        [root(1n, 2n), [1n, 1n, 1n], root(-5n)],
      ],
      [
        [root(4n), root(5n)],
        [root(4n), root(5n)],
      ],
    ])
      expect(primitive(squareFreePart(product(...powers!)))).toEqual(primitive(product(...once!)));
  });

  it('by numbers that share no factor', () => {
    expect(squareFreePart([-4n, 2n])).toEqual([-2n, 1n]);
    expect(squareFreePart([-6n, 9n, 15n])).toEqual([-2n, 3n, 5n]);
  });

  it('whatever the roots and how often each comes', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(positive, fc.integer({ min: 1, max: 3 })), { minLength: 1, maxLength: 4 }),
        (drawn) => {
          const fractions = reduced(drawn.map(([fraction]) => fraction));
          const times = fractions.map((_, i) => drawn[i]![1]);
          const all = fractions.flatMap(([num, den], i) =>
            Array.from({ length: times[i]! }, () => root(num, den)),
          );
          expect(primitive(squareFreePart(product(...all)))).toEqual(
            primitive(product(...fractions.map(([num, den]) => root(num, den)))),
          );
        },
      ),
    );
  });

  it('also where a prime divides what tells its factors apart', () => {
    // Modulo 67,108,859 both roots are the same, so that only the exact way sees two.
    const p = 67_108_859n;
    expect(primitive(squareFreePart(product(root(1n), root(1n + p))))).toEqual(
      product(root(1n), root(1n + p)),
    );
    expect(primitive(squareFreePart(product(root(1n), [1n, p])))).toEqual(
      primitive(product(root(1n), [1n, p])),
    );
    expect(primitive(squareFreePart(product(root(1n), root(1n), [1n, p])))).toEqual(
      primitive(product(root(1n), [1n, p])),
    );
  });
});

describe('the positive roots', () => {
  it('have an interval each, apart from one another, and none is made up', () => {
    fc.assert(
      fc.property(fc.array(positive, { maxLength: 5 }), fc.boolean(), (drawn, more) => {
        const fractions = reduced(drawn);
        const others = more ? [root(-3n), [2n, 1n, 1n]] : [];
        const polynomial = product(...fractions.map(([num, den]) => root(num, den)), ...others, [1n]);
        const intervals = positiveRootIntervals(polynomial);
        expect(intervals.length).toBe(fractions.length);
        for (const [num, den] of fractions)
          expect(intervals.filter((interval) => holds(interval, num, den)).length).toBeGreaterThanOrEqual(1);
        const found = intervals.map((interval) => refineRoot(polynomial, interval).x).sort((a, b) => a - b);
        const wanted = fractions.map(([num, den]) => Number(num) / Number(den)).sort((a, b) => a - b);
        expect(found).toEqual(wanted);
      }),
    );
  });

  it('that a halving hits are intervals of no length', () => {
    // 1, 2 and 3 lie in (0, 4), whose middle is 2.
    const intervals = positiveRootIntervals(product(root(1n), root(2n), root(3n)));
    expect(intervals.length).toBe(3);
    const hit = intervals.filter(({ lo, hi }) => lo === hi);
    expect(hit.map(({ lo, shift }) => Number(lo) / 2 ** shift)).toEqual([2]);
  });

  it('come out to the last digit, small, large and close together', () => {
    const refined = (p: readonly bigint[]): number[] =>
      positiveRootIntervals(p)
        .map((interval) => refineRoot(p, interval).x)
        .sort((a, b) => a - b);
    expect(refined([-2n, 0n, 1n])).toEqual([Math.SQRT2]);
    expect(refined([-(10n ** 40n), 1n])).toEqual([1e40]);
    expect(refined([-1n, 10n ** 40n])).toEqual([1e-40]);
    expect(refined(product(root(10n ** 9n, 10n ** 9n + 1n), root(1n)))).toEqual([1e9 / (1e9 + 1), 1]);
    expect(refined([1n, 0n, 1n])).toEqual([]);
    expect(refined([-1n, -1n, 1n])).toEqual([(1 + Math.sqrt(5)) / 2]);
  });

  it('give the rate 1/x - 1 without losing its digits near 0', () => {
    const p = root(10n ** 12n, 10n ** 12n + 1n);
    const [interval] = positiveRootIntervals(p);
    const { x, rate } = refineRoot(p, interval!);
    expect(rate * 1e12).toBeCloseTo(1, 14);
    expect(x).toBe(1e12 / (1e12 + 1));
    expect(refineRoot(root(1n, 2n), positiveRootIntervals(root(1n, 2n))[0]!)).toEqual({ x: 0.5, rate: 1 });
  });
});
