// All times doubled: everything takes twice as long, and the same happens in it, chance included.
import { describe, expect, test } from 'vitest';
import { bestSchedule } from '../../src/core/schedule/best-schedule.js';
import { readCell } from '../../src/tables/read-cell.js';
import { data } from '../cli/run-in.js';
import { folders, tablesOf } from './folders.js';
import { slowedCell } from './slowed-cell.js';

describe.each(folders)('data/%s', (name) => {
  test('the cycle takes twice as long, and nothing else of it changes', () => {
    const cell = { ...readCell(tablesOf(data(name))), shifts: [] };
    const [plain, slow] = [cell, slowedCell(cell)].map((c) => bestSchedule(c, { nodeLimit: 20_000 }));
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
