/** Amounts that parts.csv asks for are served first; what is left of the time earns most. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell, Part } from '../../../../src/core/model/cell.js';
import { bestSchedule } from '../../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../../src/core/schedule/result.js';
import { emptyCell, station, step } from '../../../support/line-cell.js';
import { cases } from '../../../support/size.js';

interface Asked {
  /** Machines that make it. */
  readonly machines: readonly number[];
  readonly cycleS: number;
  readonly contribution: number;
  readonly perShift: number | null;
}

const partOf = (asked: Asked, i: number): Part => ({
  part: `p${i}`,
  contribution: asked.contribution,
  perShift: asked.perShift,
  ratio: null,
  yieldPct: 100,
});

function cellOf(parts: readonly Asked[], machines: number): Cell {
  return {
    ...emptyCell,
    robot: { ...emptyCell.robot, travelS: 4 },
    travel: [],
    stations: [
      station('in', 'infeed'),
      station('out', 'outfeed'),
      ...Array.from({ length: machines }, (_, m) => station(`m${m}`, 'machine')),
    ],
    routes: parts.map(({ machines: at, cycleS }, i) => ({
      part: `p${i}`,
      steps: [
        step(1, ['in'], { unloadS: 4 }),
        step(
          2,
          at.map((m) => `m${m}`),
          { cycleS, loadS: 5, unloadS: 5 },
        ),
        step(3, ['out'], { loadS: 4 }),
      ],
    })),
    parts: parts.map(partOf),
  };
}

function made(cell: Cell): ScheduleFound {
  const outcome = bestSchedule(cell, { improvements: false, nodeLimit: 20_000 });
  if (!('order' in outcome)) throw new Error(outcome.reason);
  return outcome;
}

describe('two parts on one mill, the one that earns less asked for', () => {
  // 126 s for a part with its exchange: 228 in 8 hours.
  const parts = (perShift: number | null): Asked[] => [
    { machines: [0], cycleS: 100, contribution: 5, perShift: null },
    { machines: [0], cycleS: 100, contribution: 1, perShift },
  ];

  it('unasked it gets nothing, and that is said', () => {
    const found = made(cellOf(parts(null), 1));
    expect(found.partsPerH.p1).toBe(0);
    expect(found.warnings.join()).toContain('Not made at all in the best sequence: p1.');
  });

  it('asked for it is made first, and the rest of the time earns most', () => {
    const found = made(cellOf(parts(57), 1));
    expect(8 * found.partsPerH.p1!).toBeGreaterThanOrEqual(57 - 1e-9);
    // One in four, the next small mix above 57 of 228.
    expect(found.partsPerH.p0! / found.partsPerH.p1!).toBeGreaterThan(2);
    expect(found.assumptions.join()).toContain('All amounts that parts.csv asks for');
  });

  it('more than the mill makes: as many as it makes, and why not all', () => {
    const found = made(cellOf(parts(1000), 1));
    expect(found.partsPerH.p1!).toBeGreaterThan(20);
    expect(found.assumptions.join()).toContain('No sequence makes more than');
  });
});

it('what the cell makes anyway needs no other sequence', () => {
  const own: Asked[] = [
    { machines: [0], cycleS: 200, contribution: 5, perShift: 20 },
    { machines: [1], cycleS: 250, contribution: 1, perShift: 20 },
  ];
  const found = made(cellOf(own, 2));
  const free = made(
    cellOf(
      own.map((part) => ({ ...part, perShift: null })),
      2,
    ),
  );
  expect(found.periodS).toBe(free.periodS);
  expect(found.partsPerPeriod).toEqual(free.partsPerPeriod);
});

it('no part that is asked for gets zero parts, and none is made less of its amount than without asking', () => {
  const share = (found: ScheduleFound, parts: readonly Asked[]): number =>
    Math.min(
      1,
      ...parts.map((part, i) =>
        part.perShift === null ? 1 : (8 * found.partsPerH[`p${i}`]!) / part.perShift,
      ),
    );
  const part = fc.record({
    machines: fc.uniqueArray(fc.nat(1), { minLength: 1, maxLength: 2 }),
    cycleS: fc.integer({ min: 20, max: 300 }),
    contribution: fc.integer({ min: 1, max: 9 }),
    perShift: fc.option(fc.integer({ min: 5, max: 300 })),
  });
  fc.assert(
    fc.property(fc.array(part, { minLength: 2, maxLength: 3 }), (parts) => {
      const found = made(cellOf(parts, 2));
      const free = made(
        cellOf(
          parts.map((p) => ({ ...p, perShift: null })),
          2,
        ),
      );
      for (const [i, asked] of parts.entries())
        if (asked.perShift !== null) expect(found.partsPerH[`p${i}`]).toBeGreaterThan(0);
      expect(share(found, parts)).toBeGreaterThanOrEqual(share(free, parts) - 1e-9);
      if (found.shorter !== null)
        expect(share({ ...found, ...found.shorter }, parts)).toBeGreaterThanOrEqual(
          share(found, parts) - 1e-9,
        );
      expect(found.rateBoundPerH.total).toBeGreaterThanOrEqual(found.partsPerH.total! - 1e-6);
    }),
    { numRuns: cases(60) },
  );
});

it('offers no shorter robot cycle that leaves out a part which is worth little', () => {
  for (let cycleS = 100; cycleS <= 400; cycleS += 25)
    for (const perShift of [null, 10]) {
      const little = { machines: [1], cycleS, contribution: 0.01, perShift };
      const much = [{ machines: [0], cycleS: 60, contribution: 9, perShift: null }];
      const { shorter, partsPerPeriod } = made(cellOf([...much, little], 2));
      if (partsPerPeriod.p1! > 0 && shorter !== null) expect(shorter.partsPerPeriod.p1).toBeGreaterThan(0);
    }
});

describe('two parts on one mill, nothing asked', () => {
  const asked = [300, 100].map((cycleS) => ({ machines: [0], cycleS, contribution: 1, perShift: null }));
  const cell: Cell = { ...cellOf(asked, 1), parts: [] };

  it('they are made in equal numbers', () => {
    expect(made(cell).partsPerPeriod).toEqual({ p0: 1, p1: 1 });
  });

  it('one part a period is asked for: one is made, and the other is warned of', () => {
    const found = bestSchedule(cell, { improvements: false, partsPerPeriod: 1 }) as ScheduleFound;
    expect(found.partsPerPeriod).toEqual({ p0: 1, p1: 0 });
    expect(found.warnings.join()).toContain('Not made at all in the best sequence: p1.');
  });
});
