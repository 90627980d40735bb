// What takes long says how far it has come: in steps that only grow, up to what was planned and never past it.
import { expect, test } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { runStudy, type StudyName, type StudyTypes } from '../../../src/core/studies/studies.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import { twoMachines } from '../cost/support/two-machines.js';

// Its cycles are in doubt, so that the cost case looks at three shares of them.
const cell = twoMachines({ shifts: true, items: 'cycle_pct,100,90,110\n' });
const MONEY = 1;
const JOB = { job: 'a', quantity: 5, dueMin: 6000, notBeforeMin: 0, setupMin: null };

async function stepsOf<Name extends StudyName>(name: Name, options: Partial<StudyTypes[Name][0]>, of = cell) {
  const outcome = bestSchedule(of, { improvements: false });
  const steps: (readonly [done: number, planned: number])[] = [];
  await runStudy(name, { cell: of, schedule: 'order' in outcome ? outcome : null }, options, {
    mixedSolver: highsSolver,
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

test('shifts, mix and jobs: each pattern', async () => {
  expect(await stepsOf('shifts', {})).toEqual([[1, 1]]);
  expect(await stepsOf('mix', {})).toEqual([[1, 1]]);
  const twoPatterns = {
    ...cell,
    shifts: [...cell.shifts, ...cell.shifts.map((s) => ({ ...s, pattern: `${s.pattern} again` }))],
    jobs: [{ ...JOB, part: cell.routes[0]!.part }],
  };
  expect(await stepsOf('jobs', {}, twoPatterns)).toEqual([
    [1, 2],
    [2, 2],
  ]);
  expect(await stepsOf('mix', {}, twoPatterns)).toEqual([
    [1, 2],
    [2, 2],
  ]);
});

test('cost case: at each share of the cycles the search without each machine, then the weeks', async () => {
  const steps = await stepsOf('costcase', { trials: 1 });
  expect(steps).toEqual(Array.from({ length: 9 }, (_, k) => [k + 1, 9]));
});
