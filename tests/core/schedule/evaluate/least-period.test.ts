import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastPeriod, type PeriodArc } from '../../../../src/core/schedule/evaluate/least-period.js';

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
});

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
