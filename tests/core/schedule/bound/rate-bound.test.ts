// The bound of the linear program: at infeeds and outfeeds that need time between two parts, and as a proof.
import { expect, test } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { bestSchedule } from '../../../../src/core/schedule/best-schedule.js';
import { rateBound } from '../../../../src/core/schedule/bound/rate-bound.js';
import { emptyCell, station, step } from '../../../support/line-cell.js';

test('a paced outfeed takes the place and its pause, whatever stands in its column for unloading', () => {
  const cell = {
    ...emptyCell,
    travel: [],
    robot: { ...emptyCell.robot, travelS: 1 },
    stations: [station('in', 'infeed'), station('m1', 'machine'), station('out', 'outfeed')],
    routes: [
      {
        part: 'part',
        steps: [
          step(1, 'in', { unloadS: 6, loadS: 9 }),
          step(2, 'm1', { cycleS: 1, loadS: 3, unloadS: 2 }),
          step(3, 'out', { cycleS: 45, loadS: 4, unloadS: 1 }),
        ],
      },
    ],
  };
  const bound = rateBound(cell);
  if (!bound.found) throw new Error(bound.why);
  expect(bound.total).toBeCloseTo(3600 / 49, 6);
  const paced = cell.routes.map((route) => ({
    ...route,
    steps: route.steps.map((own) => (own.step === 1 ? { ...own, cycleS: 60 } : own)),
  }));
  const fed = rateBound({ ...cell, routes: paced });
  expect(fed.found && fed.total).toBeCloseTo(3600 / 66, 6);
});

test('a sequence that comes to the bound but for the rounding of its programs is proven', () => {
  const ends = [step(1, 'rack'), step(3, 'pallet')] as const;
  const route = (part: string, at: ReturnType<typeof step>) => ({ part, steps: [ends[0], at, ends[1]] });
  const sold = { contribution: null, perShift: null, yieldPct: 100 };
  const cell: Cell = {
    ...emptyCell,
    travel: [],
    robot: { ...emptyCell.robot, travelS: 0 },
    stations: [
      station('rack', 'infeed'),
      station('fixture', 'machine', { capacityParts: 2 }),
      station('pallet', 'outfeed'),
    ],
    routes: [
      route('pair', step(2, 'fixture', { cycleS: 1, loadS: 20, unloadS: 20, partsPerCycle: 2 })),
      route('single', step(2, 'fixture', { cycleS: 19, loadS: 1, unloadS: 1 })),
    ],
    parts: [
      { part: 'pair', ratio: 2, ...sold },
      { part: 'single', ratio: 1, ...sold },
    ],
  };
  const found = bestSchedule(cell, { improvements: false, nodeLimit: 20_000 });
  expect(found).toMatchObject({ periodS: 83, status: 'proven', proven: true, gapPct: 0 });
});
