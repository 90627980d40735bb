// Pyramidal orders: moves with rising numbers, then the rest with falling ones. On a line whose stations stand in the
// order of the route, with additive travel, one of them is a best one-part order (Y. Crama, J. van de Klundert, Cyclic
// scheduling of identical parts in a robotic cell, Operations Research 45(6), 1997); elsewhere it need not be.
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../../src/core/model/cell.js';
import { buildPlan } from '../../../src/core/schedule/plan/plan.js';
import { searchOrder } from '../../../src/core/schedule/search/order/search-order.js';
import { listedPeriod, type PartWay, type Shop } from '../../support/listed-orders.js';
import { playedPeriod } from '../../support/played-period.js';
import { randomSerial, serialCell } from '../../support/random-cells.js';
import { drawFrom } from '../../support/random-shops.js';
import { wayPaths } from '../../support/way-paths.js';

function isPyramidal(shop: Shop, order: readonly number[]): boolean {
  // Two actions a move: a pick and a place; move 0 leaves the infeed and comes first.
  const moves = order.filter((act) => shop.acts[act].kind === 'pick').map((act) => act / 2);
  const top = moves.indexOf(Math.max(...moves));
  return moves.every((move, i) => i === 0 || (i <= top ? move > moves[i - 1] : move < moves[i - 1]));
}

function bestOf(cell: Cell): { all: number; pyramidal: number } {
  const ways: PartWay[] = [{ route: 0, stations: cell.routes[0].steps.map((s) => s.stations[0]), count: 1 }];
  const all = searchOrder(buildPlan(cell, wayPaths(cell, ways)), {
    belowS: Number.POSITIVE_INFINITY,
    nodes: 1_000_000,
    untilMs: Number.POSITIVE_INFINITY,
  });
  expect(all.complete).toBe(true);
  const pyramidal = listedPeriod(cell, ways, (shop, order, start, inHand) =>
    isPyramidal(shop, order) ? playedPeriod(shop, order, start, inHand) : null,
  );
  return { all: all.best!.periodS, pyramidal: pyramidal.periodS! };
}

/** Stations 0 .. machines + 1 in route order, any distance apart; one time for every pick and place, as in the paper. */
function lineInOrder(seed: number, machines: number): Cell {
  const draw = drawFrom(seed);
  const serial = randomSerial({ machines, seed });
  const at = [0];
  for (let i = 1; i <= machines + 1; i++) at.push(at[i - 1] + draw(0, 9));
  const handlingS = draw(0, 4);
  return serialCell({
    ...serial,
    travel: at.map((a) => at.map((b) => Math.abs(a - b))),
    pickS: at.map((_, i) => (i <= machines ? handlingS : 0)),
    placeS: at.map((_, i) => (i > 0 ? handlingS : 0)),
  });
}

describe('pyramidal orders', () => {
  it.each([2, 3, 4, 5])('hold a best one on lines in route order, %i machines', (machines) => {
    for (let seed = 1; seed <= (machines < 5 ? 60 : 15); seed++) {
      const { all, pyramidal } = bestOf(lineInOrder(seed, machines));
      expect(pyramidal, `seed ${seed}`).toBeCloseTo(all, 6);
    }
  });

  it('are beaten on some free layouts', () => {
    const beaten: number[] = [];
    for (let seed = 1; seed <= 60; seed++) {
      const { all, pyramidal } = bestOf(serialCell(randomSerial({ machines: 4, seed, longestCycleS: 60 })));
      expect(all, `seed ${seed}`).toBeLessThanOrEqual(pyramidal + 1e-6);
      if (all < pyramidal - 1e-6) beaten.push(seed);
    }
    expect(beaten.length).toBeGreaterThan(0);
  });
});
