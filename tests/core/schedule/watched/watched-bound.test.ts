/** The bound from few parts watched by themselves: never below what any sequence makes, and closer than the rates alone. */
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { rateBound } from '../../../../src/core/schedule/bound/rate-bound.js';
import { goalOf } from '../../../../src/core/schedule/plan/weights.js';
import { watchedBound } from '../../../../src/core/schedule/watched/watched-bound.js';
import { readCellFolder } from '../../../../src/files/read-cell-folder.js';
import { everySequence } from '../../../support/every-sequence.js';
import { station } from '../../../support/line-cell.js';
import { drawFrom, drawMachines, drawRoute, ends, makeCell } from '../../../support/random-shops.js';
import { atSize, cases } from '../../../support/size.js';
import { unlikeCell, unlikeMachines } from '../../../support/unlike-cells.js';
import { publishedCell, unlikePublished } from '../../../support/unlike-published.js';

const limits = { states: 3000, work: 400_000, untilMs: Number.POSITIVE_INFINITY };

/** Free travel times among them, which break the triangle rule. */
const kinds: Record<string, (seed: number, hands: 1 | 2) => Cell> = {
  'four parts, each with a machine of its own': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 9) : 0 },
      [...ends, ...drawMachines(draw, 4)],
      [1, 2, 3, 4].map((m) => drawRoute(draw, `p${m}`, [{ at: `m${m}` }], 30)),
    );
  },
  'three parts that share machines': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 9) : 0 },
      [...ends, ...drawMachines(draw, 3)],
      [
        drawRoute(draw, 'a', [{ at: 'm1' }, { at: 'm3' }], 30),
        drawRoute(draw, 'b', [{ at: ['m1', 'm2'] }], 30),
        drawRoute(draw, 'c', [{ at: 'm3' }], 30),
      ],
    );
  },
  'two parts with machines of their own beside one that the robot holds': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 9) : 0 },
      [...ends, ...drawMachines(draw, 2), station('brush', 'held')],
      [
        drawRoute(draw, 'a', [{ at: 'm1' }], 30),
        drawRoute(draw, 'b', [{ at: 'm2' }], 30),
        drawRoute(draw, 'c', [{ at: 'brush' }], 30),
      ],
    );
  },
  'one part, four machines that can make it': (seed, hands) => {
    const draw = drawFrom(seed);
    return makeCell(
      draw,
      { hands, indexS: hands === 2 ? draw(0, 9) : 0 },
      [...ends, ...drawMachines(draw, 4)],
      [drawRoute(draw, 'a', [{ at: ['m1', 'm2', 'm3', 'm4'] }], 30)],
    );
  },
};

const ROUNDING = 1e-6;

describe.each([1, 2] as const)('%i hands', (hands) => {
  it.each(Object.keys(kinds))('%s: no sequence makes more', (kind) => {
    let held = 0;
    for (let seed = 1; seed <= cases(40); seed++) {
      const cell = kinds[kind]!(seed, hands);
      const goal = goalOf(cell);
      const exact = everySequence(cell, goal, { states: 40_000, untilMs: Number.POSITIVE_INFINITY });
      const rates = rateBound(cell, goal);
      const bound = watchedBound(cell, goal, limits);
      if (exact === null || bound === null || !rates.found) continue;
      held++;
      // Linear programs round to nine digits; the program takes bounds as equal within ROUNDING.
      expect(bound, `${kind} ${seed}`).toBeGreaterThanOrEqual(exact.valuePerS * (1 - ROUNDING));
      expect(bound).toBeLessThanOrEqual(rates.valuePerS * (1 + ROUNDING));
    }
    expect(held).toBeGreaterThan(cases(40) / 3);
  });
});

it('three unlike machines: within 0.3% of the most of all sequences, by its only triple', () => {
  for (let seed = 1; seed <= atSize(1, 10); seed++) {
    const cell = unlikeCell(unlikeMachines(seed, 3));
    const goal = goalOf(cell);
    const many = { ...limits, states: 60_000, work: 4_000_000 };
    const exact = everySequence(cell, goal, many)!;
    expect(watchedBound(cell, goal, many)! / exact.valuePerS).toBeLessThan(1.003);
  }
});

it('closer than the rates alone on six and eight unlike machines', () => {
  for (const [index, share] of [
    [7, 0.983],
    [8, 0.992],
  ] as const) {
    const cell = publishedCell(unlikePublished[index]!);
    const goal = goalOf(cell);
    const rates = rateBound(cell, goal);
    if (!rates.found) throw new Error(rates.why);
    expect(watchedBound(cell, goal, limits)!).toBeLessThan(rates.valuePerS * share);
  }
});

it('ends where circuits that yield as much as each other are many (machines that make one part alike)', async () => {
  const { cell } = await readCellFolder('data/weekly-jobs');
  const goal = goalOf(cell!);
  const rates = rateBound(cell!, goal);
  const most = watchedBound(cell!, goal, {
    states: 4000,
    work: 1_000_000,
    untilMs: Number.POSITIVE_INFINITY,
  });
  expect(rates.found && most! <= rates.valuePerS * (1 + 1e-9)).toBe(true);
});
