/** A sequence that repeats from a loaded cell, but does not come about from the empty one, is told; others are not. */
import { describe, expect, it } from 'vitest';
import { emptyStartWarnings } from '../../../src/core/floor/empty-start.js';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../../src/core/schedule/result.js';
import { shiftPatterns } from '../../../src/core/shifts/shift-patterns.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import { station } from '../../support/line-cell.js';
import { drawFrom, drawRoute, ends, fixtureShop, makeCell, serialShop } from '../../support/random-shops.js';

/** Two parts over one machine to one with two places: part a is worked on there by twos, part b alone. */
function sharedFixture(seed: number): Cell {
  const draw = drawFrom(seed);
  return makeCell(
    draw,
    { hands: 2, indexS: 1 },
    [...ends, station('m1', 'machine', { capacityParts: 2 }), station('m2', 'machine')],
    [
      drawRoute(draw, 'a', [{ at: 'm2' }, { at: 'm1', more: { partsPerCycle: 2 } }]),
      drawRoute(draw, 'b', [{ at: 'm2' }, { at: 'm1' }]),
    ],
  );
}

function found(cell: Cell): ScheduleFound {
  const outcome = bestSchedule(cell, { improvements: false, nodeLimit: 3000 });
  if (!('order' in outcome)) throw new Error(outcome.status);
  return outcome;
}

describe('a sequence from the empty cell', () => {
  it('that locks up in 100 hours of the simulation, and no other, is told with who waits for whom', async () => {
    let told = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const cell = sharedFixture(seed);
      const order = found(cell);
      const { deadlock } = await simulateCell(cell, {
        ...{ program: 'order', order, hours: 100, replications: 1, losses: false },
      });
      const warnings = emptyStartWarnings(cell, order);
      expect(warnings).toHaveLength(deadlock === null ? 0 : 1);
      if (deadlock === null) continue;
      told++;
      expect(warnings[0]).toContain('Started from the empty cell, this sequence locks up: ');
      expect(warnings[0]).toContain(deadlock);
      expect(shiftPatterns(cell, order, { program: 'best' }).warnings).toContain(warnings[0]);
    }
    expect(told).toBeGreaterThan(0);
  });

  it('that runs is not told', () => {
    for (const seed of [1, 2, 3])
      for (const hands of [1, 2] as const)
        for (const cell of [fixtureShop(seed, hands, 2).cell, serialShop(seed, { machines: 3, hands }).cell])
          expect(emptyStartWarnings(cell, found(cell))).toEqual([]);
  });

  it('that only waits for a rack to be served or a stop to be over is not told', () => {
    const { cell } = serialShop(1, { machines: 2, hands: 1 });
    const stops = [
      { station: 'm1', name: 'tool', everyParts: 1, everyH: null, minutes: 600, operator: true },
    ];
    const stations = cell.stations.map((s) => (s.name === 'in' ? { ...s, capacityParts: 1 } : s));
    expect(emptyStartWarnings({ ...cell, stops, stations }, found(cell))).toEqual([]);
  });
});
