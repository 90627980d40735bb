// The most of any sequence: against values that another program found, and against every short sequence tried.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Cell } from '../../../../src/core/model/cell.js';
import { goalOf } from '../../../../src/core/schedule/plan/weights.js';
import { playAct } from '../../../../src/core/schedule/play/acts.js';
import { type PlaySpace, playSpace } from '../../../../src/core/schedule/play/play-space.js';
import { copyState, emptyState, hasPart, hasRoom } from '../../../../src/core/schedule/play/play-state.js';
import { stretchOrder } from '../../../../src/core/schedule/play/stretch-order.js';
import { knownSet } from '../../../../src/core/schedule/search/known-orders.js';
import { everySequence } from '../../../support/every-sequence.js';
import { emptyCell, station, step } from '../../../support/line-cell.js';
import { unlikeCell, unlikeMachines } from '../../../support/unlike-cells.js';
import { publishedCell, unlikePublished } from '../../../support/unlike-published.js';

const limits = { states: 100_000, untilMs: Number.POSITIVE_INFINITY };

describe('independent machines, one hand', () => {
  const known = unlikePublished.filter((cell) => cell.bestMachineSecondsPerS !== null);

  test.each(known.map((cell) => [cell.id, cell] as const))('%s: the value that is known', (_, published) => {
    const cell = publishedCell(published);
    const goal = { ...goalOf(cell), mix: null, weight: published.cycleS };
    const found = everySequence(cell, goal, limits)!;
    expect(found.valuePerS).toBeCloseTo(published.bestMachineSecondsPerS!, 9);
    const space = playSpace(cell, goal);
    const order = knownSet(cell, stretchOrder(space, found.events), goal)!;
    expect(order.set.value / order.order.periodS).toBeCloseTo(found.valuePerS, 9);
  });

  test('more states than the limit: no answer, not a wrong one', () => {
    const cell = publishedCell(unlikePublished[2]);
    expect(everySequence(cell, goalOf(cell), { ...limits, states: 1000 })).toBeNull();
  });
});

describe('no sequence makes more', () => {
  test('every sequence of some moves, from the empty cell, in small cells of every kind', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.constantFrom(1, 2), (seed, hands) => {
        const cell = smallCell(seed, hands as 1 | 2);
        const goal = { ...goalOf(cell), mix: null, weight: cell.routes.map((_, r) => 1 + (seed % (r + 2))) };
        const space = playSpace(cell, goal);
        const found = everySequence(cell, goal, limits, space)!;
        // What lies in the cell at the end was worth at most its parts.
        const inside = 2 * cell.stations.length + hands;
        const most = Math.max(...goal.weight) * inside;
        let ahead = Number.NEGATIVE_INFINITY;
        for (const { timeS, value } of runsOf(space, hands === 1 ? 6 : 9))
          ahead = Math.max(ahead, value - found.valuePerS * timeS);
        expect(ahead).toBeLessThanOrEqual(most + 1e-9);
        const order = knownSet(cell, stretchOrder(space, found.events), goal)!;
        expect(order.set.value / order.order.periodS).toBeCloseTo(found.valuePerS, 6);
        expect(best(space, goal.weight, hands === 1 ? 6 : 8)).toBeLessThanOrEqual(found.valuePerS + 1e-9);
      }),
      { numRuns: 25 },
    );
  });
});

/** Two routes over three machines, one of them shared, sometimes with room for two. */
function smallCell(seed: number, hands: 1 | 2): Cell {
  if (seed % 3 === 0) {
    const spec = unlikeMachines(seed, 2);
    return unlikeCell({ ...spec, cycleS: spec.cycleS.map((s) => Math.round(s / 10)) }, hands);
  }
  const draw = (n: number, k: number): number => ((seed >> k) % n) + 1;
  return {
    ...emptyCell,
    travel: [],
    robot: { ...emptyCell.robot, hands, indexS: hands === 2 ? 1 : 0, travelS: draw(4, 1) },
    stations: [
      station('in', 'infeed'),
      station('m1', 'machine'),
      { ...station('m2', 'machine'), capacityParts: seed % 2 === 0 ? 1 : 2 },
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'a',
        steps: [
          step(1, 'in', { unloadS: 1 }),
          step(2, 'm1', { cycleS: draw(9, 2), loadS: 1, unloadS: 1 }),
          step(3, 'm2', { cycleS: draw(7, 3), loadS: 1, unloadS: 1 }),
          step(4, 'out', { loadS: 1 }),
        ],
      },
      {
        part: 'b',
        steps: [
          step(1, 'in', { unloadS: 1 }),
          step(2, 'm2', { cycleS: draw(8, 4), loadS: 1, unloadS: 1 }),
          step(3, 'out', { loadS: 1 }),
        ],
      },
    ],
  };
}

/** Every sequence of so many moves from the empty cell: its time and what it made. */
function runsOf(space: PlaySpace, moves: number): { timeS: number; value: number }[] {
  const ends: { timeS: number; value: number }[] = [];
  const walk = (state: ReturnType<typeof emptyState>, left: number): void => {
    ends.push({ timeS: state.timeS, value: state.valueMade });
    if (left === 0) return;
    for (const act of actsOf(space, state)) {
      const next = emptyState(space);
      copyState(state, next);
      playAct(space, next, act);
      walk(next, left - 1);
    }
  };
  walk(emptyState(space), moves);
  return ends;
}

function actsOf(space: PlaySpace, state: ReturnType<typeof emptyState>): number[] {
  const { plan, carries } = space;
  const acts: number[] = [];
  for (let hand = 0; hand < state.inHand; hand++) {
    const event = carries[state.handCarry[hand]].events[state.handStage[hand]];
    if (plan.events[event].action !== 'place' || hasRoom(space, state, plan.events[event].to, -1))
      acts.push(event);
  }
  if (state.inHand === plan.hands) return acts;
  for (const { from, to, events } of carries) {
    if (plan.nodes[from].kind !== 'source' && !hasPart(state, from)) continue;
    if (plan.hands === 2 || hasRoom(space, state, to, from)) acts.push(events[0]);
  }
  return acts;
}

/** The best repeating sequence of up to so many moves: each is played until its period is steady. */
function best(space: PlaySpace, weight: readonly number[], moves: number): number {
  let most = 0;
  const { cell } = space;
  const goal = { ...goalOf(cell), mix: null, weight };
  const seen = new Set<string>();
  const walk = (state: ReturnType<typeof emptyState>, path: number[]): void => {
    if (path.length > 0 && state.valueMade > 0 && state.inHand === 0 && state.inside.every((n) => n === 0)) {
      const key = path.join(' ');
      if (!seen.has(key)) {
        seen.add(key);
        const events = path.flatMap((a) =>
          space.plan.hands === 1 ? space.carries[space.carryOf[a]].events : [a],
        );
        const order = knownSet(cell, stretchOrder(space, events), goal);
        if (order !== null) most = Math.max(most, order.set.value / order.order.periodS);
      }
    }
    if (path.length === moves) return;
    for (const act of actsOf(space, state)) {
      const next = emptyState(space);
      copyState(state, next);
      playAct(space, next, act);
      walk(next, [...path, act]);
    }
  };
  walk(emptyState(space), []);
  return most;
}
