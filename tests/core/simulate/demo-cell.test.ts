/** The demo cell without its randomness and stops: the fixed order runs at the period of its schedule. */
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { patternNames, weekCalendar } from '../../../src/core/calendar/week-calendar.js';
import { openSpans } from '../../../src/core/floor/open-spans.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import { simulatedFloor } from '../../../src/core/simulate/simulated-floor.js';
import { readCellFolder } from '../../../src/files/read-cell-folder.js';

const folder = fileURLToPath(new URL('../../../data/demo', import.meta.url));

describe('the demo cell', () => {
  it('follows its best order at the period of the schedule', async () => {
    const { cell } = await readCellFolder(folder);
    const still = {
      ...cell!,
      variation: [],
      stops: [],
      stations: cell!.stations.map((s) => ({
        ...s,
        mtbfH: null,
        mttrMin: null,
        capacityParts: s.kind === 'infeed' || s.kind === 'outfeed' ? null : s.capacityParts,
      })),
    };
    const schedule = bestSchedule(still, { nodeLimit: 20_000, improvements: false });
    if (schedule.status !== 'proven' && schedule.status !== 'best found') throw new Error(schedule.status);
    const r = await simulateCell(still, {
      program: 'order',
      order: schedule,
      hours: 400,
      replications: 1,
      losses: false,
    });
    expect(Math.abs(r.periodS!.mean / schedule.periodS - 1)).toBeLessThan(1e-6);
  });

  it('runs through each of its patterns', async () => {
    const { cell } = await readCellFolder(folder);
    const patterns = patternNames(cell!.shifts);
    expect(patterns.length).toBeGreaterThan(0);
    for (const pattern of patterns) {
      const week = weekCalendar(cell!.shifts, pattern);
      const r = await simulateCell(cell!, {
        program: 'first',
        openSpans: openSpans(week, cell!.shifts),
        hours: 1,
        replications: 4,
      });
      expect(r.horizonH).toBeCloseTo(week.hoursPerWeek, 6);
      expect(r.deadlock).toBeNull();
      const lost = r.losses.reduce((sum, l) => sum + l.partsPerShift, 0);
      expect(r.ceilingPerShift! - lost).toBeCloseTo(r.partsPerShift.total!.mean, 6);
      expect(r.partsPerShift.total!.mean).toBeGreaterThan(0);
    }
  });
});

it('six machines: what is left without the losses is no less than what is made with them', async () => {
  const { cell } = await readCellFolder(
    fileURLToPath(new URL('../../../data/six-machines', import.meta.url)),
  );
  const schedule = bestSchedule(cell!, { nodeLimit: 20_000, improvements: false });
  if (!('order' in schedule)) throw new Error(schedule.status);
  const floor = simulatedFloor(cell!, schedule, null, { program: 'order' });
  const r = await simulateCell(cell!, { hours: 8, replications: 2, seed: 1, ...floor });
  expect(r.ceilingPerShift!).toBeGreaterThanOrEqual(r.partsPerShift.total!.mean);
  const lost = r.losses.reduce((sum, l) => sum + l.partsPerShift, 0);
  expect(r.ceilingPerShift! - lost).toBeCloseTo(r.partsPerShift.total!.mean, 6);
});
