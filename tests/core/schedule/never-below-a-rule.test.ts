// The schedule is never below a robot that simply answers calls, on random cells of every kind: rules as the simulation
// plays them, without chance.
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { goalOf } from '../../../src/core/schedule/plan/weights.js';
import { simulateCell } from '../../../src/core/simulate/simulate-cell.js';
import { station } from '../../support/line-cell.js';
import { drawFrom, drawMachines, drawRoute, ends, makeCell } from '../../support/random-shops.js';
import { atSize, cases, deepTest } from '../../support/size.js';
import { unlikeCell, unlikeMachines } from '../../support/unlike-cells.js';
import { publishedCell, unlikePublished } from '../../support/unlike-published.js';

const kinds: Record<string, (seed: number, hands: 1 | 2) => Cell> = {
  'independent machines': (seed, hands) => unlikeCell(unlikeMachines(seed, 2 + (seed % 4)), hands),
  'two parts that share a station': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 3) : 0 },
      [...ends, ...drawMachines(draw, 3)],
      [
        drawRoute(draw, 'a', [{ at: 'm1' }, { at: 'm3' }], 120),
        drawRoute(draw, 'b', [{ at: 'm2' }, { at: 'm3' }], 120),
      ],
    );
  },
  'one part, two machines in a row, the second of two alike': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 3) : 0 },
      [...ends, ...drawMachines(draw, 3)],
      [drawRoute(draw, 'a', [{ at: 'm1' }, { at: ['m2', 'm3'] }], 120)],
    );
  },
  'room for two parts': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 3) : 0 },
      [...ends, ...drawMachines(draw, 2, { capacityParts: 2 })],
      [drawRoute(draw, 'a', [{ at: 'm1' }, { at: 'm2' }], 120)],
    );
  },
  // A fixture of two that gathers its parts bars the other part: the rule that begins it too early would be in a corner.
  'two parts in a ratio, one in a fixture of two, one seldom at its machine': (seed, hands) => {
    const draw = drawFrom(seed);
    const fixture = station('m1', 'machine', { capacityParts: 2, closeS: draw(0, 3), readyS: draw(0, 3) });
    const cell = makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 3) : 0 },
      [...ends, fixture, station('m2', 'machine')],
      [
        drawRoute(draw, 'a', [{ at: 'm2' }, { at: 'm1', more: { partsPerCycle: 2 } }]),
        drawRoute(draw, 'b', [{ at: 'm1', more: { everyParts: draw(2, 3) } }, { at: 'm2' }]),
      ],
    );
    const inRatio = (part: string, ratio: number) => ({
      ...{ part, contribution: null, perShift: null, yieldPct: 100 },
      ratio,
    });
    return { ...cell, parts: [inRatio('a', draw(1, 3)), inRatio('b', draw(1, 3))] };
  },
};

const RULES = ['first', 'nearest', 'longest'] as const;

/** Value per second by what the schedule is chosen for: with a ratio, the parts in whole sets of it. */
function worth(cell: Cell, perH: Readonly<Record<string, number>>): number {
  const { weight, mix } = goalOf(cell);
  const perS = cell.routes.map(({ part }) => (perH[part] ?? 0) / 3600);
  if (mix === null) return perS.reduce((sum, rate, r) => sum + weight[r] * rate, 0);
  const inSet = mix.reduce((sum, n) => sum + n, 0);
  return inSet * Math.min(...perS.map((rate, r) => rate / mix[r]));
}

async function holdAgainstRules(cell: Cell, what: string): Promise<void> {
  // Every rule is a start of the search, however short that is.
  const found = bestSchedule(cell, { improvements: false, ...atSize({ nodeLimit: 1_000 }, {}) });
  if (found.status !== 'proven' && found.status !== 'best found') throw new Error(`${what}: ${found.status}`);
  for (const dispatch of RULES) {
    const hours = atSize(100, 200);
    const run = await simulateCell(cell, { program: dispatch, hours, replications: 1, losses: false });
    if (run.deadlock !== null) continue;
    const made = Object.fromEntries(
      cell.routes.map(({ part }) => [part, (run.partsPerShift[part].mean * run.shifts) / run.horizonH]),
    );
    // A part or two at either end of the hours.
    const ends = (4 * worth(cell, Object.fromEntries(cell.routes.map((r) => [r.part, 1])))) / hours;
    expect(worth(cell, made), `${what}, ${dispatch}`).toBeLessThanOrEqual(
      worth(cell, found.partsPerH) * 1.0015 + ends,
    );
  }
}

describe.each([1, 2] as const)('%i hands', (hands) => {
  test.each(Object.keys(kinds))('%s', async (kind) => {
    for (let seed = 1; seed <= cases(10); seed++)
      await holdAgainstRules(kinds[kind](seed, hands), `${kind} ${seed}`);
  });
});

deepTest('twelve unlike machines', async () => {
  await holdAgainstRules(publishedCell(unlikePublished[9]), 'unlike-12-10');
});
