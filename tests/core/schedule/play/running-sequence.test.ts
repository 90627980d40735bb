// A change of a running sequence is timed from there alone: held against all of the changed sequence, timed by its graph.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { goalOf } from '../../../../src/core/schedule/plan/weights.js';
import { RunningSequence } from '../../../../src/core/schedule/play/running-sequence.js';
import { SequenceTimer, sequenceUnits } from '../../../../src/core/schedule/play/sequence-rate.js';
import { CellPlays } from '../../../../src/core/schedule/search/cell-plays.js';
import { setsByRule } from '../../../../src/core/schedule/search/played-sets.js';
import { millCell } from '../../../support/mill-cell.js';
import { independentShop, roomyShop, serialShop } from '../../../support/random-shops.js';
import { cases } from '../../../support/size.js';
import { unlikeCell, unlikeMachines } from '../../../support/unlike-cells.js';

const NO_LIMIT = {
  maxVisits: 40,
  maxPlayedVisits: 40,
  partsPerPeriod: null,
  untilMs: Number.POSITIVE_INFINITY,
};

/** A cell as it runs under a plain rule. */
function runs(cell: Cell) {
  const plays = new CellPlays(cell, goalOf(cell));
  const { space } = plays;
  const units = sequenceUnits(space);
  const timer = new SequenceTimer(space, units);
  const running = new RunningSequence(space, units, 400);
  const [played] = setsByRule(plays, NO_LIMIT);
  const acts = Int32Array.from(
    played!.events.flatMap((e) => (units.unitOf[e]! >= 0 ? [units.unitOf[e]!] : [])),
  );
  timer.perS(acts, acts.length);
  const settled = running.settle(acts, acts.length, timer.contents());
  /** The least period of a sequence by its constraint graph; null where it cannot repeat. */
  const graphS = (sequence: ArrayLike<number>): number | null =>
    plays.setOf(Array.from(sequence).flatMap((u) => [...units.events[u]!]))?.order.periodS ?? null;
  return { running, settled, graphS };
}

const change = (length: number, at: number, removed: number, put: readonly number[]) => ({
  at: at % length,
  removed,
  count: put.length,
  put: Int32Array.from(put),
});

describe('a running sequence', () => {
  it('at a mill, added up by hand', () => {
    const { running, settled, graphS } = runs(millCell());
    expect(settled).toBe(true);
    // Pick 1, way 1, place 1, 4 s at the mill, pick 1, way 1, place 1, way back 1.
    expect(running.periodS).toBe(11);
    expect(graphS(running.sequence())).toBe(11);
    expect(running.changedS(change(2, 0, 1, [running.unitAt(0)]), 100)).toBe(11);
  });

  const cells = fc.oneof(
    fc
      .record({ seed: fc.nat(1000), machines: fc.integer({ min: 2, max: 5 }), hands: fc.constantFrom(1, 2) })
      .map(({ seed, machines, hands }) => unlikeCell(unlikeMachines(seed + 1, machines), hands as 1 | 2)),
    fc
      .record({ seed: fc.nat(1000), machines: fc.integer({ min: 1, max: 3 }), hands: fc.constantFrom(1, 2) })
      .map(({ seed, machines, hands }) => serialShop(seed + 1, { machines, hands: hands as 1 | 2 }).cell),
    fc.nat(1000).map((seed) => roomyShop(seed + 1, 1, 2).cell),
    fc.nat(1000).map((seed) => independentShop(seed + 1, 1, [2, 1, 1]).cell),
  );
  const moves = fc.array(
    fc.record({
      at: fc.nat(1000),
      size: fc.integer({ min: 1, max: 3 }),
      by: fc.integer({ min: 1, max: 6 }),
      isTaken: fc.boolean(),
    }),
    { minLength: 20, maxLength: 20 },
  );

  it('with one stretch moved behind the next is timed as the whole sequence is', () => {
    let timed = 0;
    let alike = 0;
    fc.assert(
      fc.property(cells, moves, (cell, list) => {
        const { running, settled, graphS } = runs(cell);
        fc.pre(settled);
        for (const { at, size, by, isTaken } of list) {
          const { length } = running;
          if (size + by >= length) continue;
          const start = at % length;
          const unit = (k: number): number => running.unitAt((start + k) % length);
          const put = Array.from({ length: size + by }, (_, k) => unit((k + size) % (size + by)));
          const moved = change(length, start, size + by, put);
          const changed = new Int32Array(length);
          expect(running.changed(moved, changed)).toBe(length);
          const periodS = running.changedS(moved, Number.POSITIVE_INFINITY);
          const wholeS = graphS(changed);
          if (Number.isNaN(periodS)) continue;
          if (periodS === Number.POSITIVE_INFINITY) {
            // With two hands a part of a kind in either hand is not looked at.
            if (cell.robot.hands === 1) expect(wholeS).toBeNull();
            continue;
          }
          timed++;
          // With two hands the one kept may carry a part all along that the changed sequence can do without.
          if (cell.robot.hands === 2 && periodS > wholeS! + 1e-6) continue;
          expect(periodS).toBeCloseTo(wholeS!, 6);
          alike++;
          // Asked for less than it takes, it says no; asked for as much, it says how long.
          expect(running.changedS(moved, wholeS! - 0.001)).toBe(Number.POSITIVE_INFINITY);
          expect(running.changedS(moved, wholeS! + 0.001)).toBeCloseTo(wholeS!, 6);
          if (!isTaken) continue;
          running.accept(moved);
          expect(running.periodS).toBeCloseTo(wholeS!, 6);
          expect(graphS(running.sequence())).toBeCloseTo(wholeS!, 6);
        }
      }),
      { numRuns: cases(600) },
    );
    expect(timed).toBeGreaterThan(20);
    expect(alike).toBeGreaterThan(timed / 2);
  });
});
