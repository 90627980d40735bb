/** Variables without room are found, and the program without them has the same best value. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type LinearRow, solveLinearProgram } from '../../../src/core/lp/solve-linear-program.js';
import { withoutVanishing } from '../../../src/core/lp/vanishing.js';
import { cases } from '../../support/size.js';

test('what goes in is gone, so what comes out of it is, and what it is made into', () => {
  const rows: LinearRow[] = [
    { name: 'flow', terms: { in: 1, out: -1 }, least: 0, most: 0 },
    { name: 'made', terms: { out: 1, good: -1, other: -1 }, least: 0, most: 0 },
    { name: 'hours', terms: { in: 2, good: 1, free: 3 }, most: 8 },
    { name: 'wanted', terms: { good: 1, miss: 1 }, least: 5 },
  ];
  expect(withoutVanishing(rows, new Set(['in']))).toEqual([
    { name: 'hours', terms: { free: 3 }, most: 8 },
    { name: 'wanted', terms: { miss: 1 }, least: 5 },
  ]);
});

test('a row with room, or with terms of both signs, leaves its variables', () => {
  const rows: LinearRow[] = [
    { name: 'room', terms: { a: 1, b: 2 }, most: 1 },
    { name: 'both', terms: { a: 1, b: -1 }, most: 0 },
    { name: 'least', terms: { c: 1 }, least: 0 },
  ];
  expect(withoutVanishing(rows, new Set())).toEqual(rows);
});

test('the best value stays', () => {
  const coefficient = fc.integer({ min: -2, max: 2 });
  const names = ['a', 'b', 'c', 'd', 'e'];
  const row = fc
    .tuple(
      fc.array(coefficient, { minLength: 5, maxLength: 5 }),
      fc.integer({ min: 0, max: 3 }),
      fc.boolean(),
    )
    .map(([by, most, isFlow]): LinearRow => {
      const terms = Object.fromEntries(names.flatMap((name, i) => (by[i] === 0 ? [] : [[name, by[i]!]])));
      return { name: 'row', terms, most: isFlow ? 0 : most, ...(isFlow ? { least: 0 } : {}) };
    });
  const roof = names.map((name): LinearRow => ({ name, terms: { [name]: 1 }, most: 4 }));
  fc.assert(
    fc.property(fc.array(row, { maxLength: 5 }), fc.subarray(names), (list, zero) => {
      const objective = { a: 1, b: 2, c: 3, d: 1, e: 1 };
      const none = zero.map((name): LinearRow => ({ name, terms: { [name]: 1 }, most: 0 }));
      const given = list.filter(({ terms }) => Object.keys(terms).length > 0);
      const whole = solveLinearProgram({ sense: 'most', objective, rows: [...given, ...roof, ...none] });
      const rows = withoutVanishing([...given, ...roof], new Set(zero));
      const there = new Set(rows.flatMap(({ terms }) => Object.keys(terms)));
      const left = Object.fromEntries(Object.entries(objective).filter(([name]) => there.has(name)));
      if (rows.length === 0) return whole.status === 'optimal' && Math.abs(whole.value) < 1e-9;
      const slim = solveLinearProgram({ sense: 'most', objective: left, rows });
      return (
        whole.status !== 'optimal' || (slim.status === 'optimal' && Math.abs(slim.value - whole.value) < 1e-6)
      );
    }),
    { numRuns: cases(300) },
  );
});
