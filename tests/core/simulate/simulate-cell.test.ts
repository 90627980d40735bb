/** The whole simulation: estimates, half-width, losses, comparison, stopping. */
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { pairedEstimate } from '../../../src/core/simulate/estimate.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import type { SimulateOptions } from '../../../src/core/simulate/simulation-options.js';
import { simulatedLossChart } from '../../../src/render/charts/output-charts.js';
import { twoOutfeeds } from '../shifts/small-cells.js';
import { likeMachines, line, ROBOT } from './cells.js';

const CELL: Cell = {
  ...likeMachines(4, 240, 24),
  stations: likeMachines(4, 240, 24).stations.map((s) =>
    s.kind === 'machine'
      ? { ...s, mtbfH: 8, mttrMin: 12 }
      : s.kind === 'infeed'
        ? { ...s, capacityParts: 60 }
        : s,
  ),
  robot: { ...ROBOT, travelS: 4, attendedSpeedPct: 50 },
  parts: [{ part: 'cap', contribution: 3, perShift: null, ratio: null, yieldPct: 97 }],
  stops: [{ station: 'mill_1', name: 'tool', everyParts: 40, everyH: null, minutes: 6, operator: true }],
  variation: [
    { station: '*', element: 'cycle', distribution: 'lognormal', parameters: [240, 25] },
    { station: '*', element: 'response', distribution: 'exponential', parameters: [3] },
  ],
};

const OPTIONS: SimulateOptions = { program: 'first', hours: 40, replications: 8, seed: 5 };

const WEEK = [
  { startS: 0, endS: 8 * 3600, attended: true, shift: 'day' },
  { startS: 8 * 3600, endS: 16 * 3600, attended: false, shift: 'night' },
];

describe('a simulation', () => {
  it('has the estimates, and its parts add up', async () => {
    const r = await simulateCell(CELL, OPTIONS);
    expect(r.replications).toBe(8);
    expect(r.horizonH).toBe(40);
    expect(r.shifts).toBe(5);
    expect(r.complete).toBe(true);
    const total = r.partsPerShift.total!;
    expect(total.p10).toBeLessThanOrEqual(total.p50);
    expect(total.p50).toBeLessThanOrEqual(total.p90);
    expect(total.ciLow!).toBeLessThan(total.mean);
    expect(r.partsPerShift.cap!.mean).toBe(total.mean);
    const robot = r.robot;
    expect(robot.utilizationPct.mean + robot.waitPct.mean).toBeCloseTo(100, 6);
    for (const s of r.stations) {
      const parts =
        s.processingPct.mean +
        s.handlingPct.mean +
        s.partLoadedPct.mean +
        s.waitRobotPct.mean +
        s.emptyPct.mean +
        s.downWaitPct.mean +
        s.downRepairPct.mean +
        s.plannedStopWaitPct.mean +
        s.plannedStopPct.mean;
      expect(parts).toBeCloseTo(100, 6);
    }
    expect(r.scrapPerShift.mean / (total.mean + r.scrapPerShift.mean)).toBeCloseTo(0.03, 2);
    expect(JSON.parse(JSON.stringify(r))).toEqual(r);
  });

  it('a break that has a rack topped up spares a call: what would be a gain is taken with its neighbour', async () => {
    // Some 40 parts an hour: 330 last eight hours and a call of 10 minutes follows, but for the break that comes before.
    const cell = (rack: number | null): Cell => {
      const plain = line([80]);
      return {
        ...plain,
        stations: plain.stations.map((s) => (s.name === 'in' ? { ...s, capacityParts: rack } : s)),
        stops: [
          { station: 'm1', name: 'tool', everyParts: 999_999, everyH: null, minutes: 1, operator: true },
        ],
        variation: [{ station: '*', element: 'response', distribution: 'constant', parameters: [10] }],
      };
    };
    const openSpans = [
      { startS: 0, endS: 4 * 3600, attended: true, shift: 'day' },
      { startS: 4 * 3600, endS: 4.25 * 3600, attended: true, operators: 0, shift: 'day' },
      { startS: 4.25 * 3600, endS: 8 * 3600, attended: true, shift: 'day' },
    ];
    const options = { program: 'first' as const, hours: 80, replications: 2, openSpans };
    const racked = await simulateCell(cell(330), options);
    expect(racked.losses.every((l) => l.partsPerShift >= -1e-9)).toBe(true);
    const endless = await simulateCell(cell(null), options);
    expect(endless.losses.map((l) => l.cause)).toContain('operator in a break');
  });

  it('a stop that has the robot take a better way is a gain, in name, and no loss is drawn', async () => {
    // Ten parts by `far` at 47 s, then 8 minutes with picks 35, 64, ... 470 s on: sixteen by `near` at 29 s.
    const r = await simulateCell(twoOutfeeds(0), { program: 'first', hours: 80, replications: 2 });
    expect(r.losses.map((l) => l.cause)).toEqual(['gain: planned stops']);
    const gained = (8 * 3600 * 26) / (10 * 47 + 16 * 29) - (8 * 3600) / 47;
    expect(Math.abs(-r.losses[0]!.mean - gained)).toBeLessThan(2);
    expect(simulatedLossChart(r, 'day and night')).toMatchObject({
      text: expect.stringContaining('No cause loses parts'),
    });
  });

  it('the losses by cause lead from the ceiling to the yield', async () => {
    const r = await simulateCell(CELL, { ...OPTIONS, openSpans: WEEK });
    const lost = r.losses.reduce((sum, l) => sum + l.partsPerShift, 0);
    expect(r.ceilingPerShift! - lost).toBeCloseTo(r.partsPerShift.total!.mean, 6);
    expect(r.losses.map((l) => l.cause)).toEqual([
      'robot handling, travel and waiting',
      'reduced speed in attended hours',
      'variation of times',
      'random stops and their repair',
      'planned stops',
      "operator's response time",
      'no operator in unattended hours',
      'racks empty or full',
      'scrap',
    ]);
    expect(r.ceilingIsMaximum).toBe(true);
    // Machines that never wait: 8 hours of four cycles of 240 s.
    expect(r.ceilingPerShift!).toBeCloseTo((4 * 8 * 3600) / 240, 0);
  });

  it('is no maximum where the machines set no pace: the robot is in it', async () => {
    const r = await simulateCell(line([0]), { ...OPTIONS, openSpans: WEEK });
    expect(r.ceilingPerShift!).toBeGreaterThan(0);
    expect(r.ceilingIsMaximum).toBe(false);
  });

  it('goes on until the half-width is reached, or says that it was not', async () => {
    const wide = await simulateCell(CELL, { program: 'first', hours: 16, halfWidthPct: 2, losses: false });
    expect(wide.halfWidthReached).toBe(true);
    expect(wide.halfWidthPct!).toBeLessThanOrEqual(2);
    expect(wide.replications % 10).toBe(0);
    const narrow = await simulateCell(CELL, {
      program: 'first',
      hours: 16,
      halfWidthPct: 0.01,
      replications: 10,
      losses: false,
    });
    expect(narrow.halfWidthReached).toBe(false);
    expect(narrow.warnings.join()).toContain('The precision asked for was not reached');
  });

  it('stops on a signal with what is done, marked incomplete', async () => {
    const signal = { aborted: false };
    const seen: number[] = [];
    const r = await simulateCell(
      CELL,
      { ...OPTIONS, replications: 50 },
      {
        signal,
        onProgress: (done) => {
          seen.push(done);
          if (done === 3) signal.aborted = true;
        },
      },
    );
    expect(seen).toEqual([1, 2, 3]);
    expect(r.replications).toBe(3);
    expect(r.complete).toBe(false);
    expect(r.losses).toEqual([]);
  });

  it('options outside their range are refused in words', async () => {
    await expect(simulateCell(CELL, { program: 'first', hours: 0 })).rejects.toThrow(
      'the hours to simulate must be above 0',
    );
    await expect(simulateCell(CELL, { program: 'first', replications: 1.5 })).rejects.toThrow(
      'replications must be a whole number',
    );
    await expect(simulateCell(CELL, { program: 'order' })).rejects.toThrow('the simulation needs a schedule');
    await expect(
      simulateCell(CELL, { program: 'first', openSpans: [{ startS: 5, endS: 5, attended: true }] }),
    ).rejects.toThrow('open span 1 must start after the one before and end after its start');
  });
});

describe('a comparison', () => {
  it('shows a difference only where there is one', async () => {
    const faster: Cell = { ...CELL, robot: { ...CELL.robot, travelS: 2 } };
    const made = async (cell: Cell) => (await simulateCell(cell, OPTIONS)).meanByReplication;
    const now = await made(CELL);
    const gain = pairedEstimate(await made(faster), now, 0.95, 1);
    expect(gain.difference.mean).toBeGreaterThan(0);
    expect(gain.leastApart).toBeGreaterThan(0);
    const same = pairedEstimate(await made({ ...CELL }), now, 0.95, 1);
    expect(same).toEqual({ difference: { mean: 0, ciLow: 0, ciHigh: 0 }, leastApart: 0 });
  });

  it('common luck narrows the difference', async () => {
    const faster: Cell = { ...CELL, robot: { ...CELL.robot, travelS: 3.9 } };
    const spread = async (seed: number): Promise<number> => {
      const options = { ...OPTIONS, replications: 20, losses: false };
      const now = await simulateCell(CELL, options);
      const other = await simulateCell(faster, { ...options, seed });
      const d = pairedEstimate(other.meanByReplication, now.meanByReplication, 0.95, 1).difference;
      return d.ciHigh! - d.ciLow!;
    };
    expect(await spread(5)).toBeLessThan(0.8 * (await spread(6)));
  });
});
