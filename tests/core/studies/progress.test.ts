// What takes long says how far it has come: in steps that only grow, up to what was planned and never past it.
import { expect, test } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { runStudy, type StudyName, type StudyTypes } from '../../../src/core/studies/studies.js';
import { twoMachines } from '../cost/support/two-machines.js';

// Its cycles are in doubt, so that the cost case looks at three shares of them.
const cell = twoMachines({ shifts: true, items: 'cycle_pct,100,90,110\n' });
const MONEY = 1;

async function stepsOf<Name extends StudyName>(name: Name, options: Partial<StudyTypes[Name][0]>) {
  const outcome = bestSchedule(cell, { improvements: false });
  const steps: (readonly [done: number, planned: number])[] = [];
  await runStudy(name, { cell, schedule: 'order' in outcome ? outcome : null }, options, {
    mixedSolver: () => Promise.reject(new Error('no solver')),
    onProgress: (done, planned) => steps.push([done, planned]),
  });
  return steps;
}

test('size: the rows, then each kind of input that may move the answer; steady rows are not simulated', async () => {
  const steps = await stepsOf('size', { maxMachines: 2 });
  expect(steps.slice(0, 2).map(([done]) => done)).toEqual([1, 2]);
  expect(steps.slice(2).map(([done]) => done)).toEqual([3, 4, 5, 6, 6 + MONEY]);
  expect(new Set(steps.map(([, planned]) => planned))).toEqual(new Set([2 + 4 + MONEY + 2]));
});

test('shifts: each pattern', async () => {
  expect(await stepsOf('shifts', {})).toEqual([[1, 1]]);
});

test('cost case: at each share of the cycles the search without each machine, then the weeks', async () => {
  const steps = await stepsOf('costcase', { trials: 1 });
  expect(steps).toEqual(Array.from({ length: 9 }, (_, k) => [k + 1, 9]));
});
