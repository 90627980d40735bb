// All times doubled: everything takes twice as long, and the same happens in it, chance included.
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../src/core/model/cell.js';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { readCell } from '../../src/tables/read-cell.js';
import { data } from '../cli/run-in.js';
import { folders, tablesOf } from './folders.js';

const twice = (value: number | null): number | null => (value === null ? null : 2 * value);

/** Times twice as long, ways at half the speed; the shifts stay out of it. */
function slowed(cell: Cell): Cell {
  return {
    ...cell,
    shifts: [],
    robot: {
      ...cell.robot,
      indexS: 2 * cell.robot.indexS,
      travelS: twice(cell.robot.travelS),
      speedMS: cell.robot.speedMS === null ? null : cell.robot.speedMS / 2,
      accelMS2: cell.robot.accelMS2 === null ? null : cell.robot.accelMS2 / 4,
    },
    stations: cell.stations.map((s) => ({ ...s, readyS: 2 * s.readyS, closeS: 2 * s.closeS })),
    travel: cell.travel.map((t) => ({ ...t, emptyS: 2 * t.emptyS, loadedS: 2 * t.loadedS })),
    routes: cell.routes.map((r) => ({
      ...r,
      steps: r.steps.map((s) => ({
        ...s,
        ...{ cycleS: 2 * s.cycleS, loadS: 2 * s.loadS, unloadS: 2 * s.unloadS, maxWaitS: twice(s.maxWaitS) },
      })),
    })),
  };
}

describe.each(folders)('data/%s', (name) => {
  test('the cycle takes twice as long, and nothing else of it changes', () => {
    const cell = { ...readCell(tablesOf(data(name))), shifts: [] };
    const [plain, slow] = [cell, slowed(cell)].map((c) => bestSchedule(c, { nodeLimit: 20_000 }));
    if (!('order' in plain!) || !('order' in slow!)) throw new Error(`${plain!.status}, ${slow!.status}`);
    expect(slow.periodS / plain.periodS).toBeCloseTo(2, 9);
    expect(slow.partsPerPeriod).toEqual(plain.partsPerPeriod);
    expect(slow.rateBoundPerH.total).toBeCloseTo(plain.rateBoundPerH.total / 2, 6);
    expect(slow.events.map((e) => [e.action, e.station, e.part])).toEqual(
      plain.events.map((e) => [e.action, e.station, e.part]),
    );
    expect(slow.robot.utilizationPct).toBeCloseTo(plain.robot.utilizationPct, 9);
    expect(slow.bottleneck.stations).toEqual(plain.bottleneck.stations);
  });
});
