// Sizing with stops and scatter: agreement with the theory and the steady figures, one luck for all rows, the choice.
import { describe, expect, test } from 'vitest';
import { finiteSourceQueue } from '../../../src/core/interference/finite-source-queue.js';
import type { Cell } from '../../../src/core/model/cell.js';
import type { SizeOptions } from '../../../src/core/size/grown-cell.js';
import { type IdenticalMachines, identicalCell } from '../../../src/core/size/identical-machines.js';
import { sizeSearch } from '../../../src/core/size/size-search.js';
import { type RowSimulation, sizeStudy } from '../../../src/core/size/size-study.js';

const FIGURES: IdenticalMachines = { cycleS: 240, loadS: 12, unloadS: 10, travelS: 4 };
/** The robot needs 38 s a part, a machine 118 s: three keep it all but busy, a fourth brings 3600/38 - 3 * 3600/118 = 3.2. */
const THREE_AT_MOST: IdenticalMachines = { ...FIGURES, cycleS: 84 };

const study = (
  identical: IdenticalMachines,
  simulation: RowSimulation | null = {},
  more: Partial<SizeOptions> = {},
) =>
  sizeStudy(
    { identical, maxMachines: 4, sensitivity: false, ...more } as SizeOptions,
    sizeSearch(null),
    simulation,
  );

describe('rows without simulated figures say why', () => {
  test('nothing stops and nothing varies', async () => {
    const r = await study(FIGURES);
    expect(r.simulation).toMatchObject({
      program: null,
      reason: expect.stringContaining('No stops and no variation are given'),
    });
    expect(r.withStops).toBeNull();
    expect(r.rows.every((row) => row.simulated === undefined)).toBe(true);
  });

  test('it was not asked', async () => {
    const r = await study({ ...FIGURES, mtbfH: 10, mttrMin: 10 }, null);
    expect(r.simulation.reason).toBe('The rows were not simulated, as asked.');
  });
});

test('one machine with random stops loses the share that its stops take', async () => {
  const r = await study(
    { ...FIGURES, mtbfH: 5, mttrMin: 20 },
    { replications: 20, hours: 400 },
    { maxMachines: 1 },
  );
  const simulated = r.rows[0]!.simulated!;
  // A part takes 274 s, and 240 s of processing meet a stop of 20 min every 5 h: 16 s more.
  const expected = (8 * 3600) / (274 + (240 / (5 * 3600)) * 1200);
  expect(simulated.partsPerShift.ciLow!).toBeLessThan(expected);
  expect(simulated.partsPerShift.ciHigh!).toBeGreaterThan(expected);
  expect(simulated.stoppedPct).toBeCloseTo((100 * 16) / 290, 0);
  expect(simulated.waitRobotPct).toBeCloseTo(0, 6);
  expect(simulated.machineUtilizationPct).toBeCloseTo((100 * 240) / 290, 0);
});

test('machines with scattered cycles make less than the best sequence and more than with exponential times', async () => {
  const r = await study({ ...THREE_AT_MOST, cycleSdS: 21 }, { replications: 6 });
  for (const row of r.rows.slice(1)) {
    const simulated = row.simulated!.partsPerShift;
    const exponential =
      finiteSourceQueue({ runS: 84, serviceS: 38, machines: row.machines, servers: 1 }).perS * 8 * 3600;
    expect(simulated.ciLow!).toBeLessThanOrEqual(row.partsPerShift + 1e-6);
    expect(simulated.mean, `${row.machines} machines`).toBeGreaterThan(exponential);
  }
});

test('the same seed gives the same rows, another seed others, and more rows change none before', async () => {
  const figures = { ...FIGURES, mtbfH: 6, mttrMin: 15, cycleSdS: 12 };
  const [a, b, other, longer] = [
    await study(figures, { seed: 3, replications: 2 }, { maxMachines: 2 }),
    await study(figures, { seed: 3, replications: 2 }, { maxMachines: 2 }),
    await study(figures, { seed: 4, replications: 2 }, { maxMachines: 2 }),
    await study(figures, { seed: 3, replications: 2 }, { maxMachines: 3 }),
  ];
  expect(b.rows).toEqual(a.rows);
  expect(other.rows[1]!.simulated!.partsPerShift.mean).not.toBe(a.rows[1]!.simulated!.partsPerShift.mean);
  if (longer.simulation.program === a.simulation.program)
    expect(longer.rows.slice(0, 2).map((row) => row.simulated)).toEqual(a.rows.map((row) => row.simulated));
  expect(a.simulation).toMatchObject({ seed: 3, hours: 40, reason: null });
});

describe('the choice with stops', () => {
  test('counts money over what is made with stops, and more machines pay where they often stand', async () => {
    // A machine stands one hour in nine or more, which leaves the robot time for a fourth.
    const figures = {
      ...THREE_AT_MOST,
      contributionPerPart: 1,
      machineCostPerH: 4,
      mtbfH: 2,
      mttrMin: 15,
    };
    const r = await study(figures, { replications: 15 }, { maxMachines: 5 });
    expect(r.recommended!.machines).toBe(3);
    const choice = r.withStops!;
    expect(choice.differs).toBe(true);
    expect(choice.clear).toBe(true);
    expect(choice.recommended.machines).toBeGreaterThan(3);
    expect(choice.text).toContain(`the choice is ${choice.recommended.machines} machines`);
    expect(choice.text).toContain('not 3 machines');
    const best = r.rows.find((row) => row.machines === choice.recommended.machines)!.simulated!;
    for (const { simulated, machines } of r.rows) {
      expect(simulated!.contributionPerH!).toBeLessThanOrEqual(best.contributionPerH! + 1e-9);
      expect(simulated!.contributionPerH).toBeCloseTo(simulated!.partsPerShift.mean / 8 - 4 * machines, 9);
      expect(simulated!.costPerPart!.mean).toBeCloseTo((8 * 4 * machines) / simulated!.partsPerShift.mean, 9);
    }
  });

  test('counts no money beyond what is asked for', async () => {
    const cell = identicalCell(
      { ...FIGURES, contributionPerPart: 1, machineCostPerH: 4, mtbfH: 200, mttrMin: 1 },
      3,
    );
    // Three machines make some 34 an hour.
    const asked = cell.parts.map((part) => ({ ...part, perWeek: 400 }));
    const options = { cell: { ...cell, parts: asked }, maxMachines: 3, sensitivity: false };
    const { rows } = await sizeStudy(options, sizeSearch(null), { replications: 2 });
    expect(rows.at(-1)!.simulated!.partsPerShift.mean).toBeGreaterThan(8 * 30);
    expect(rows.at(-1)!.simulated!.contributionPerH).toBeCloseTo(400 / 40 - 3 * 4, 9);
  });

  test('by waiting, the largest number under the limit is judged with stops too', async () => {
    const r = await study({ ...THREE_AT_MOST, cycleSdS: 28 }, { replications: 6 }, { maxWaitPct: 5 });
    const fits = r.rows.filter((row) => row.simulated!.waitRobotPct <= 5);
    expect(r.withStops!.recommended.largestUnderWait).toBe(fits.at(-1)!.machines);
    expect(r.recommended!.machines).toBe(3);
    expect(r.withStops!.recommended.machines).toBeLessThan(3);
    expect(r.withStops!.text).toContain('not 3 machines');
  });

  test('stays in words where it is the same', async () => {
    const r = await study({ ...FIGURES, mtbfH: 50, mttrMin: 5 }, { replications: 3 }, { maxMachines: 2 });
    expect(r.withStops).toMatchObject({ differs: false, clear: false });
    expect(r.withStops!.text).toMatch(/also 2 machines: \d+\.\d good parts a shift\.$/);
  });
});

test('a cell with a week is simulated in it, beside the yield of the same week', async () => {
  const base = identicalCell({ ...FIGURES, mtbfH: 200, mttrMin: 1 }, 2);
  const cell: Cell = {
    ...base,
    shifts: [
      {
        pattern: 'day',
        shift: 'early',
        days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
        startMin: 360,
        endMin: 840,
        breaks: [{ startMin: 540, endMin: 570 }],
        attended: true,
        operators: 1,
        labourPerH: 30,
      } as Cell['shifts'][number],
    ],
  };
  const r = await sizeStudy({ cell, sensitivity: false }, sizeSearch(cell), { replications: 6 });
  for (const row of r.rows)
    expect(Math.abs(row.simulated!.partsPerShift.mean / row.partsPerShift - 1)).toBeLessThan(0.1);
  expect(r.assumptions.join(' ')).toContain('in the week of the pattern day');
});

test('stops are given by their frequency and length together', () => {
  expect(() => identicalCell({ ...FIGURES, mtbfH: 5 }, 1)).toThrow('together');
  expect(() => identicalCell({ ...FIGURES, mtbfH: 0, mttrMin: 5 }, 1)).toThrow('above 0');
});
