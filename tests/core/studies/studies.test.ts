// One question has one answer: a sweep shows what `--json` prints of the study, and studies agree on good parts a shift.
import { describe, expect, it } from 'vitest';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { runStudy, type StudyName, studies } from '../../../src/core/studies/studies.js';
import { cellFigures } from '../../../src/core/sweep/cell-figures.js';
import { pickFigure } from '../../../src/core/sweep/result-figure.js';
import { highsSolver } from '../../../src/solver/highs-solver.js';
import { twoMachines } from '../cost/support/two-machines.js';

const CELL = twoMachines({ shifts: true });
const inputs = { cell: CELL, schedule: bestSchedule(CELL, { improvements: false }) as ScheduleFound };
const context = { mixedSolver: highsSolver };

async function fieldsOf(name: StudyName): Promise<object> {
  return studies[name].fields((await runStudy(name, inputs, {}, context)) as never);
}

describe('a figure of a sweep is that of the study', () => {
  it.each([
    ['schedule', 'periodS'],
    ['shifts', 'patterns.day.partsPerShift.total'],
    ['simulate', 'partsPerShift.total.mean'],
    ['mix', 'patterns.day.parts.a.goodPerWeek'],
    ['costcase', 'increment.npv'],
  ] as const)('%s.%s', async (name, path) => {
    const { picks } = await cellFigures(CELL, [`${name}.${path}`], { nodes: null, ...context });
    const told = pickFigure({ [name]: await fieldsOf(name) }, `${name}.${path}`);
    expect(told).toMatchObject({ ok: true, value: expect.any(Number) });
    expect(picks[0]).toEqual(told);
  });
});

it('without chance, changeovers and racks a simulation makes what the week of shifts makes', async () => {
  const cell = { ...CELL, changeovers: [] };
  const alike = { cell, schedule: inputs.schedule };
  const week = (await runStudy('shifts', alike, {}, context)).patterns[0]!;
  const { result } = await runStudy('simulate', alike, { hours: 320, replications: 1, against: [] }, context);
  expect(result.dispatch).toBe(week.program);
  expect(result.partsPerShift.total!.mean).toBeCloseTo(week.partsPerShift.total!, 0);
});
