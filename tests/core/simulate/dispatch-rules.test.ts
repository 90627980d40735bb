/**
 * Each rule does what its name says, everywhere it is asked for. The cell is worked by hand: the robot chooses between
 * three calls.
 */
import { expect, test } from 'vitest';
import { compareCells } from '../../../src/core/compare/compare-cells.js';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { runReplication } from '../../../src/core/floor/floor-run.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { plainRule } from '../../../src/core/simulate/plain-rule.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import { mixDiffers, studyCell } from '../../../src/core/simulate/study-cell.js';
import { renderPlainRule } from '../../../src/render/plain-rule.js';
import type { TextStyle } from '../../../src/render/text-style.js';
import { threeParts } from '../../support/three-parts.js';

const PLAIN: TextStyle = { colour: false, columns: 400, ascii: false };
const RULES = ['first', 'nearest', 'longest'] as const;
test.each([
  // All machines call at 0, in the order of the table.
  ['first', ['mill_a', 'mill_b', 'mill_c']],
  // From the rack of a, then from the machine of a: that of c is nearer than that of b.
  ['nearest', ['mill_a', 'mill_c', 'mill_b']],
  // The cycles are 1000 s, 2000 s and 3000 s.
  ['longest', ['mill_c', 'mill_b', 'mill_a']],
] as const)('`%s` fills empty machines in the order %j', (program, order) => {
  const filled: string[] = [];
  runReplication(
    compileCell(threeParts([1000, 2000, 3000])),
    {
      program,
      plan: null,
      calendar: null,
      operators: 1,
      seed: 1,
      warmupS: 0,
      shiftsS: [900],
      trace: (_, what, name) => {
        if (what === 'placed' && name.startsWith('mill')) filled.push(name);
      },
    },
    0,
  );
  expect(filled).toEqual(order);
});

/** Short cycles keep the robot busy, so that the rules make unlike numbers of parts. */
const BUSY = threeParts([40, 50, 90]);
const few = { replications: 2, hours: 16 };
const made = async (dispatch: (typeof RULES)[number], options: object = few): Promise<number> =>
  (await simulateCell(BUSY, { ...options, program: dispatch, losses: false })).partsPerShift.total!.mean;

test('the rules make unlike numbers of parts here, or the tests below would show nothing', async () => {
  const parts = await Promise.all(RULES.map((rule) => made(rule)));
  expect(new Set(parts).size).toBe(3);
});

test('a comparison runs each cell under the rule that it is given', async () => {
  const variants = RULES.map((dispatch) => ({ name: dispatch, cell: BUSY, dispatch }));
  const { cells } = await compareCells(variants, few);
  for (const { name, dispatch, simulated } of cells) {
    expect(dispatch).toBe(name);
    expect(simulated!.partsPerShift.total!.mean, name).toBe(
      await made(dispatch as (typeof RULES)[number], { ...few, warmupH: simulated!.warmupH }),
    );
  }
});

test('a study holds each rule beside the simulated one, as it is when run alone', async () => {
  const { rules } = await studyCell(BUSY, {
    ...few,
    program: 'nearest',
    against: ['first', 'longest'],
    losses: false,
  });
  expect(rules.map(({ dispatch }) => dispatch)).toEqual(['nearest', 'first', 'longest']);
  for (const { dispatch, partsPerShift } of rules)
    expect(partsPerShift!.mean, dispatch).toBe(await made(dispatch as (typeof RULES)[number]));
});

test('a plain rule against the best sequence is that rule without chance', async () => {
  const order = bestSchedule(BUSY, { improvements: false, nodeLimit: 20_000 });
  if (!('order' in order)) throw new Error('no order');
  const rates = [];
  for (const rule of RULES) {
    const plain = await plainRule(BUSY, rule, order);
    const alone = await simulateCell(BUSY, {
      ...{ program: rule, hours: plain.hours, replications: 1, losses: false },
    });
    expect(plain.partsPerH, rule).toBeCloseTo(
      (alone.partsPerShift.total!.mean * alone.shifts) / alone.horizonH,
      9,
    );
    const apart = Object.entries(alone.partsPerShift).map(([part, { mean }]) =>
      Math.abs(mean / alone.partsPerShift.total!.mean - order.partsPerH[part]! / order.partsPerH.total!),
    );
    expect(plain.mixDiffers, rule).toBe(Math.max(...apart) > 0.01);
    rates.push(plain.partsPerH);
  }
  expect(new Set(rates).size).toBe(3);
});

test('two amounts are of another mix where a part has more than a hundredth more of all', () => {
  const even = { a: 50, b: 50, total: 100 };
  expect(mixDiffers({ a: 5, b: 5.1, total: 10.1 }, even)).toBe(false);
  expect(mixDiffers({ a: 5, b: 5.3, total: 10.3 }, even)).toBe(true);
  expect(mixDiffers({ a: 9, b: 0, total: 9 }, even)).toBe(true);
});

test('a rule that makes another mix than the sequence is not held to be like it', async () => {
  const order = bestSchedule(BUSY, { improvements: false });
  if (!('order' in order)) throw new Error('no order');
  const held = await plainRule(BUSY, 'first', order);
  const saidOf = (mix: boolean): string => renderPlainRule({ ...held, mixDiffers: mix }, order, PLAIN);
  const words = 'It makes another mix of parts, so the two are not alike';
  expect(saidOf(true)).toContain(words);
  expect(saidOf(false)).not.toContain(words);
});
