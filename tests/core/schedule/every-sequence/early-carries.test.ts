/** Moves that need not be looked at: without them the most of all sequences is the same, and there is less to look at. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { bestRatio } from '../../../../src/core/schedule/every-sequence/best-ratio.js';
import { EarlyCarries } from '../../../../src/core/schedule/every-sequence/early-carries.js';
import { stateGraph } from '../../../../src/core/schedule/every-sequence/state-graph.js';
import { goalOf } from '../../../../src/core/schedule/plan/weights.js';
import { type PlaySpace, playSpace } from '../../../../src/core/schedule/play/play-space.js';
import {
  type Draw,
  drawFrom,
  drawMachines,
  drawRoute,
  ends,
  makeCell,
} from '../../../support/random-shops.js';
import { cases } from '../../../support/size.js';

/** With two hands a turn is no longer than the shortest trip away and back. */
const kinds: Record<string, (draw: Draw, robot: Partial<Cell['robot']>) => Cell> = {
  'independent machines': (draw, robot) =>
    withQuickWays(
      makeCell(
        draw,
        robot,
        [...ends, ...drawMachines(draw, 3)],
        [1, 2, 3].map((m) => drawRoute(draw, `p${m}`, [{ at: `m${m}` }], 40)),
      ),
    ),
  'two in a row beside one alone': (draw, robot) =>
    withQuickWays(
      makeCell(
        draw,
        robot,
        [...ends, ...drawMachines(draw, 3)],
        [drawRoute(draw, 'a', [{ at: 'm1' }, { at: 'm2' }], 40), drawRoute(draw, 'b', [{ at: 'm3' }], 40)],
      ),
    ),
  'alternatives and a shared station': (draw, robot) =>
    withQuickWays(
      makeCell(
        draw,
        robot,
        [...ends, ...drawMachines(draw, 3)],
        [
          drawRoute(draw, 'a', [{ at: ['m1', 'm2'] }, { at: 'm3' }], 40),
          drawRoute(draw, 'b', [{ at: 'm3' }], 40),
        ],
      ),
    ),
};

/** Way by way the shortest, carrying no quicker than empty. */
function withQuickWays(cell: Cell): Cell {
  const spots = new Map(cell.stations.map((s, i) => [s.name, { x: (i * 7) % 5, y: (i * 3) % 4 }]));
  return {
    ...cell,
    travel: cell.travel.map((row) => {
      const [a, b] = [spots.get(row.from)!, spots.get(row.to)!];
      const emptyS = Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
      const slowerS = cell.robot.hands === 2 ? 1 : row.loadedS - row.emptyS;
      return { ...row, emptyS, loadedS: emptyS + slowerS };
    }),
  };
}

/** The same cell with nothing left out: a way that looks quicker than a stay forbids to. */
function withAllMoves(space: PlaySpace): PlaySpace {
  const leastWayS = space.leastWayS.slice();
  leastWayS[0] = -1e-3;
  return { ...space, leastWayS };
}

const hands = { 'one hand': { hands: 1 }, 'two hands': { hands: 2, indexS: 2 } } as const;
const each = Object.keys(kinds).flatMap((kind) =>
  Object.entries(hands).map(([name, robot]) => [kind, name, robot] as const),
);

describe.each(each)('%s, %s', (kind, _, robot) => {
  it('makes as much without them', () => {
    let fewer = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const cell = kinds[kind]!(drawFrom(seed), robot);
        const space = playSpace(cell, { ...goalOf(cell), mix: null });
        const sifted = stateGraph(space, 30_000, Number.POSITIVE_INFINITY);
        const whole = stateGraph(withAllMoves(space), 30_000, Number.POSITIVE_INFINITY);
        if (sifted === null || whole === null) return;
        expect(EarlyCarries.of(withAllMoves(space))).toBeNull();
        expect(sifted.to.length).toBeLessThanOrEqual(whole.to.length);
        if (sifted.to.length < whole.to.length) fewer++;
        expect(bestRatio(sifted)!.perS / bestRatio(whole)!.perS).toBeCloseTo(1, 9);
      }),
      { numRuns: cases(60) },
    );
    expect(fewer).toBeGreaterThan(0);
  });
});
