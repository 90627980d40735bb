// Elementary functions with the same last bit in every engine: held against this engine's own, which may be off by a
// digit or two in the last place, against exact identities, and no other one is used in the core.
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cos, decadeOf, exp, expm1, log, log1p, power, sin } from '../../../src/core/numbers/functions.js';

const pair = new Float64Array(2);
const whole = new BigInt64Array(pair.buffer);

/** Numbers between two, as the machine counts them. */
function apart(a: number, b: number): number {
  if (Object.is(a, b) || a === b) return 0;
  pair.set([a, b]);
  return Math.abs(Number(whole[0]! - whole[1]!));
}

const any = fc.double({ noNaN: true });
const above0 = fc.double({ min: Number.MIN_VALUE, max: Number.MAX_VALUE, noNaN: true });
const angle = fc.double({ min: -800_000, max: 800_000, noNaN: true });

test.each([
  ['log', log, Math.log, above0],
  ['log1p', log1p, Math.log1p, fc.double({ min: -1, noNaN: true })],
  ['exp', exp, Math.exp, any],
  ['exp of moderate numbers', exp, Math.exp, fc.double({ min: -700, max: 700, noNaN: true })],
  ['expm1', expm1, Math.expm1, fc.double({ min: -50, max: 700, noNaN: true })],
  ['sin', sin, Math.sin, angle],
  ['cos', cos, Math.cos, angle],
] as const)('%s is that of the engine but for the last digits', (_, ours, theirs, of) => {
  fc.assert(fc.property(of, (x) => apart(ours(x), theirs(x)) <= 2));
});

test('powers are those of the engine but for the last digits', () => {
  const base = fc.double({ min: 0, noNaN: true });
  const moderate = fc.tuple(fc.double({ min: 0.5, max: 3, noNaN: true }), fc.integer({ min: -60, max: 60 }));
  fc.assert(fc.property(base, any, (x, y) => apart(power(x, y), x ** y) <= 2));
  fc.assert(fc.property(moderate, ([x, y]) => apart(power(x, y), x ** y) <= 2));
});

test('exact where the answer is a number of the machine, or nothing else is right', () => {
  expect([log(1), exp(0), power(10, 22), power(2, -1074), power(9, 0.5), power(0, 3)]).toEqual([
    0,
    1,
    1e22,
    Number.MIN_VALUE,
    3,
    0,
  ]);
  expect([log(0), log(-1), exp(1000), exp(-1000), log1p(-1), expm1(-1000), power(2, 1e9)]).toEqual([
    Number.NEGATIVE_INFINITY,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    0,
    Number.NEGATIVE_INFINITY,
    -1,
    Number.POSITIVE_INFINITY,
  ]);
});

test('the decade of a number holds it', () => {
  expect([0.00999, 0.01, 1, 9.99, 10, 999.999, 1000].map(decadeOf)).toEqual([-3, -2, 0, 0, 1, 2, 3]);
});

test('the core uses no function whose last bits are left to the engine', () => {
  const left = /\bMath\.(?:a?(?:cos|sin|tan)h?|atan2|cbrt|exp|expm1|log|log10|log1p|log2|pow)\b/;
  const root = new URL('../../../src/core/', import.meta.url);
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  const code = (file: string): string =>
    readFileSync(new URL(file, root), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
  expect(files.filter((file) => left.test(code(file)))).toEqual([]);
});
