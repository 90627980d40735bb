import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ArcGraph,
  leastOfGraph,
  leastPeriod,
  longestPeriod,
  type PeriodArc,
} from '../../../../src/core/schedule/evaluate/least-period.js';

const arc = (from: number, to: number, weightS: number, periods: number): PeriodArc => ({
  from,
  to,
  weightS,
  periods,
});

describe('leastPeriod', () => {
  it('takes the larger ratio of two circuits', () => {
    const found = leastPeriod([arc(0, 1, 5, 0), arc(1, 0, 4, 1), arc(1, 1, 11, 1)]);
    expect(found).toMatchObject({
      feasible: true,
      periodS: 11,
      longestPeriodS: Number.POSITIVE_INFINITY,
      criticalCircuit: [2],
    });
  });

  it('finds a fractional period of a circuit over two periods', () => {
    expect(leastPeriod([arc(0, 1, 4, 1), arc(1, 0, 3, 1)])).toMatchObject({ feasible: true, periodS: 3.5 });
  });

  it('gives 0 where nothing repeats', () => {
    expect(leastPeriod([arc(0, 1, 5, 0)])).toMatchObject({ feasible: true, periodS: 0, startS: [0, 5] });
  });

  it('names the circuit that no period can mend', () => {
    expect(leastPeriod([arc(0, 1, 5, 0), arc(1, 0, -4, 0)])).toEqual({
      feasible: false,
      contradiction: [[0, 1]],
    });
  });

  it('names a circuit that no period mends alone, though another one asks for a period', () => {
    const found = leastPeriod([arc(0, 0, 20, 1), arc(1, 2, 5, 0), arc(2, 1, -4, 0)]);
    expect(found).toEqual({
      feasible: false,
      contradiction: [expect.toSatisfy((c) => c.length === 2 && !c.includes(0))],
    });
  });

  it('names both circuits where a longest wait asks for less than the least period', () => {
    const found = leastPeriod([arc(0, 0, 20, 1), arc(1, 1, -10, -1), arc(0, 1, 0, 0)]);
    expect(found).toEqual({ feasible: false, contradiction: [[1], [0]] });
  });

  it('gives the longest feasible period', () => {
    expect(leastPeriod([arc(0, 0, 20, 1), arc(1, 1, -50, -1)])).toMatchObject({
      periodS: 20,
      longestPeriodS: 50,
    });
  });

  it('refuses what is not a number', () => {
    expect(() => leastPeriod([arc(0, 0, Number.NaN, 1)])).toThrow(
      'an arc weight must be a finite number of seconds',
    );
    expect(() => leastPeriod([arc(0, 0, 1, 0.5)])).toThrow('the periods of an arc must be a whole number');
    expect(() => leastPeriod([arc(-1, 0, 1, 1)])).toThrow('a node must be a whole number from 0 up');
  });

  it('agrees with the largest ratio over all simple circuits', () => {
    const arcs = fc.array(
      fc.record({
        from: fc.nat(4),
        to: fc.nat(4),
        weightS: fc.integer({ min: -5, max: 30 }),
        periods: fc.integer({ min: 0, max: 2 }),
      }),
      { minLength: 1, maxLength: 9 },
    );
    fc.assert(
      fc.property(arcs, (list) => {
        const found = leastPeriod(list);
        const circuits = simpleCircuits(list);
        const hopeless = circuits.some((c) => c.periods === 0 && c.weightS > 0);
        expect(found.feasible).toBe(!hopeless);
        if (!found.feasible) return;
        const most = Math.max(0, ...circuits.filter((c) => c.periods > 0).map((c) => c.weightS / c.periods));
        expect(found.periodS).toBeCloseTo(most, 9);
        for (const a of list)
          expect(found.startS[a.to] + a.periods * found.periodS).toBeGreaterThanOrEqual(
            found.startS[a.from] + a.weightS - 1e-6,
          );
      }),
      { numRuns: 400 },
    );
  });

  it('with longest waits gives the interval that all circuits leave, or circuits that leave none', () => {
    const arcs = fc.array(
      fc.record({
        from: fc.nat(4),
        to: fc.nat(4),
        weightS: fc.integer({ min: -40, max: 30 }),
        periods: fc.integer({ min: -1, max: 2 }),
      }),
      { minLength: 1, maxLength: 9 },
    );
    fc.assert(
      fc.property(arcs, (list) => {
        const circuits = simpleCircuits(list);
        const ratios = (test: (periods: number) => boolean): number[] =>
          circuits.flatMap((c) => (test(c.periods) ? [c.weightS / c.periods] : []));
        const leastS = Math.max(0, ...ratios((periods) => periods > 0));
        const mostS = Math.min(...ratios((periods) => periods < 0));
        const hopeless = circuits.some((c) => c.periods === 0 && c.weightS > 0);
        fc.pre(Math.abs(leastS - mostS) > 1e-6);
        const found = leastPeriod(list);
        expect(found.feasible).toBe(!hopeless && leastS < mostS);
        if (found.feasible) {
          expect(found.periodS).toBeCloseTo(leastS, 9);
          if (mostS === Number.POSITIVE_INFINITY) expect(found.longestPeriodS).toBe(mostS);
          else expect(found.longestPeriodS).toBeCloseTo(mostS, 9);
          expect(Math.min(...found.startS)).toBe(0);
          if (leastS > 0) {
            const { weightS, periods } = closedSums(list, found.criticalCircuit);
            expect(weightS / periods).toBeCloseTo(leastS, 9);
          } else expect(found.criticalCircuit).toEqual([]);
          return;
        }
        // Each of them is a circuit, and no period of 0 or more does for all of them.
        const sums = found.contradiction.map((circuit) => closedSums(list, circuit));
        const least = Math.max(0, ...sums.flatMap((c) => (c.periods > 0 ? [c.weightS / c.periods] : [])));
        const most = Math.min(...sums.flatMap((c) => (c.periods < 0 ? [c.weightS / c.periods] : [])));
        expect(least > most || sums.some((c) => c.periods === 0 && c.weightS > 0)).toBe(true);
      }),
      { numRuns: 800 },
    );
  });

  it('ratios come out right at any scale of the times', () => {
    for (const scale of [1e-6, 1, 1e6]) {
      const found = leastPeriod([
        arc(0, 1, 7 * scale, 1),
        arc(1, 0, 3 * scale, 2),
        arc(0, 2, 2 * scale, 0),
        arc(2, 2, -9 * scale, -1),
      ]);
      if (!found.feasible) throw new Error('there is a period');
      expect(found.periodS / scale).toBeCloseTo(10 / 3, 9);
      expect(found.longestPeriodS / scale).toBeCloseTo(9, 9);
      // The arc 0 to 1 is short by one period of 10/3: t(1) = t(0) + 7 - 10/3, and t(2) = t(0) + 2.
      expect(found.startS.map((s) => s / scale)).toEqual([0, 11 / 3, 2].map((s) => expect.closeTo(s, 9)));
    }
  });

  it('refuses a period count, and a node, that is no whole number', () => {
    expect(() => leastPeriod([arc(0, 1.5, 1, 1)])).toThrow('a node must be a whole number from 0 up');
    expect(() => leastPeriod([arc(0, -1, 1, 1)])).toThrow('a node must be a whole number from 0 up');
    expect(() => leastPeriod([arc(0, 0, 1, 1), arc(0, 0, Number.POSITIVE_INFINITY, 1)])).toThrow(
      'an arc weight must be a finite number of seconds',
    );
  });
});

describe('the graph on flat lists', () => {
  const graph = (list: readonly PeriodArc[], spare: readonly PeriodArc[] = []): ArcGraph => {
    const all = [...list, ...spare];
    return {
      nodes: 1 + Math.max(...list.flatMap((a) => [a.from, a.to])),
      arcs: list.length,
      from: Int32Array.from(all, (a) => a.from),
      to: Int32Array.from(all, (a) => a.to),
      weightS: Float64Array.from(all, (a) => a.weightS),
      periods: Int32Array.from(all, (a) => a.periods),
    };
  };

  it('from a period that is known as a bound the answer is the longer of both', () => {
    const loop = graph([arc(0, 0, 7, 2)]);
    expect(leastOfGraph(loop, 3)).toMatchObject({ periodS: 3.5, criticalCircuit: [0] });
    expect(leastOfGraph(loop, 5)).toMatchObject({ periodS: 5, criticalCircuit: [] });
    // A longest wait of 4 is broken by the bound alone, without a circuit that asks for more.
    expect(leastOfGraph(graph([arc(0, 0, -4, -1)]), 5)).toEqual({ feasible: false, contradiction: [[0]] });
  });

  it('refuses a weight that is no number, of the arcs that count', () => {
    for (const weightS of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => leastOfGraph(graph([arc(0, 0, 7, 2), arc(0, 0, weightS, 1)]))).toThrow(
        'an arc weight must be a finite number of seconds',
      );
    expect(leastOfGraph(graph([arc(0, 0, 7, 2)], [arc(0, 0, Number.NaN, 1)])).feasible).toBe(true);
  });

  it('what stands behind the last arc of the lists is not read', () => {
    const short = graph([arc(0, 0, 7, 2)], [arc(0, 0, 900, 1), arc(0, 0, -1, -1)]);
    expect(leastOfGraph(short)).toMatchObject({ periodS: 3.5, criticalCircuit: [0] });
    expect(longestPeriod(short, 3.5)).toBe(Number.POSITIVE_INFINITY);
  });

  it('the longest period is never below the least one that is given', () => {
    expect(longestPeriod(graph([arc(0, 0, -50, -1), arc(0, 0, -80, -2)]), 20)).toBe(40);
    expect(longestPeriod(graph([arc(0, 0, -50, -1)]), 50)).toBe(50);
  });
});

/** The sums along arcs that follow each other and come back to where they began. */
function closedSums(arcs: readonly PeriodArc[], circuit: readonly number[]) {
  const way = circuit.map((a) => arcs[a]!);
  expect(way.length).toBeGreaterThan(0);
  way.forEach((a, k) => {
    expect(a.to).toBe(way[(k + 1) % way.length]!.from);
  });
  return {
    weightS: way.reduce((sum, a) => sum + a.weightS, 0),
    periods: way.reduce((sum, a) => sum + a.periods, 0),
  };
}

/** Every simple circuit by plain depth-first search. */
function simpleCircuits(arcs: readonly PeriodArc[]): { weightS: number; periods: number }[] {
  const found: { weightS: number; periods: number }[] = [];
  const walk = (start: number, node: number, seen: Set<number>, weightS: number, periods: number): void => {
    for (const a of arcs) {
      if (a.from !== node) continue;
      if (a.to === start) found.push({ weightS: weightS + a.weightS, periods: periods + a.periods });
      else if (a.to > start && !seen.has(a.to))
        walk(start, a.to, new Set([...seen, a.to]), weightS + a.weightS, periods + a.periods);
    }
  };
  for (let start = 0; start < 5; start++) walk(start, start, new Set([start]), 0, 0);
  return found;
}
