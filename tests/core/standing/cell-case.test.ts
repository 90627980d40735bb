import { expect, it } from 'vitest';
import type { CostCaseFound } from '../../../src/core/cost/result.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { cellCase } from '../../../src/core/standing/cell-case.js';
import { costRows } from '../cost/support/cost-cell.js';
import { twoMachines } from '../cost/support/two-machines.js';

it('the decision and what it is worth do not hang on what is left out, cycle times in doubt among it', () => {
  const plain = twoMachines();
  const cell = { ...plain, costs: [...plain.costs, ...costRows({ cycle_pct: [95, 80, 130] })] };
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) throw new Error(schedule.reason);
  const found = (decisionOnly: boolean): CostCaseFound => {
    const outcome = cellCase(cell, schedule, decisionOnly, {}, { trials: 50 });
    if (outcome.status !== 'found') throw new Error(outcome.recommendation);
    return outcome;
  };
  const whole = found(false);
  const short = found(true);
  expect(short.decision).toBe(whole.decision);
  expect(short.increment.npv).toBeCloseTo(whole.increment.npv, 6);
  expect(short.standing.byStation).toEqual(whole.standing.byStation);
  // What is left out is there in the whole case.
  expect(short.turns).toEqual([]);
  expect(whole.turns.length).toBeGreaterThan(0);
  expect(whole.risk.trials).toBe(50);
});
