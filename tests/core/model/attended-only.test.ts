// Columns that only a run through the week takes in are said to be left out by those who do not run it.
import { expect, test } from 'vitest';
import { productMix } from '../../../src/core/mix/product-mix.js';
import { attendedOnlyNote } from '../../../src/core/model/attended-only.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import { twoMachines } from '../cost/support/two-machines.js';

const plain = twoMachines({ shifts: true });
const [one] = plain.routes.map((r) => r.part);
const asked = {
  ...plain,
  parts: plain.parts.map((p) => (p.part === one ? { ...p, unattended: false } : p)),
};

test('nothing is said where nothing hangs on it', () => {
  expect(attendedOnlyNote(plain)).toEqual([]);
});

test('the schedule says it, and the mix what it takes for granted', async () => {
  const [note] = attendedOnlyNote(asked);
  expect(note).toBe(
    `Not in these figures: ${one} starts only with people there (unattended). See \`shifts\` and \`simulate\`.`,
  );
  const schedule = bestSchedule(asked, { improvements: false });
  expect('order' in schedule && schedule.assumptions).toContain(note);
  const { assumptions } = productMix(asked, await highsSolver(), {});
  expect(assumptions).not.toContain(note);
  expect(assumptions.join()).toContain('Parts that start only with people there (unattended) have');
});
