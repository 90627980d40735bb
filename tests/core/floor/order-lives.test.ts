/** The lives of the parts in an order, by hand. */
import { expect, it } from 'vitest';
import { orderLives } from '../../../src/core/floor/order-lives.js';
import type { OrderEvent } from '../../../src/core/schedule/result.js';

const EVENT = {
  station: '',
  part: '',
  step: 0,
  hand: 1,
  robotS: 1,
  toNextS: 0,
  loadedToNext: false,
} as const;

/** A pick; it waits for places, each so many periods before. */
const pick = (own: number, ...waits: readonly (readonly [number, number])[]): OrderEvent => ({
  ...{ ...EVENT, action: 'pick', pickIndex: own, pickLag: 0 },
  waitsFor: waits.map(([placeIndex, lag]) => ({ placeIndex, lag, processS: 10, maxWaitS: null })),
});
const place = (pickIndex: number, pickLag = 0): OrderEvent => ({
  ...{ ...EVENT, action: 'place', pickIndex, pickLag, waitsFor: [] },
});

it('a part that is through within one period has one life from its first event on', () => {
  // Fetched, placed, waited for, put out.
  expect(orderLives([pick(0), place(0), pick(2, [1, 0]), place(2)])).toEqual({
    firstPeriod: [0, 0, 0, 0],
    lifeOf: [0, 0, 0, 0],
    beginsLife: [true, false, false, false],
    lifePeriods: 1,
    canRunOut: true,
  });
});

it('a part that is inside at the start is left out until the one fetched in the first period comes round', () => {
  // The machine is emptied first, then filled: what it holds was placed one period before.
  expect(orderLives([pick(0, [3, 1]), place(0), pick(2), place(2)])).toEqual({
    firstPeriod: [1, 1, 0, 0],
    lifeOf: [0, 0, 0, 0],
    beginsLife: [false, false, true, false],
    lifePeriods: 2,
    canRunOut: true,
  });
});

it('parts that share nothing have lives of their own', () => {
  // Two machines, each emptied before it is filled; the second stays in work for two periods.
  const order = [
    ...[pick(0, [3, 1]), place(0), pick(2), place(2)],
    ...[pick(4, [7, 2]), place(4), pick(6), place(6)],
  ];
  expect(orderLives(order)).toEqual({
    firstPeriod: [1, 1, 0, 0, 2, 2, 0, 0],
    lifeOf: [0, 0, 0, 0, 1, 1, 1, 1],
    beginsLife: [false, false, true, false, false, false, true, false],
    lifePeriods: 3,
    canRunOut: true,
  });
});

it('a part that stays in the hand over the end of the period ties its place to the period before', () => {
  expect(orderLives([place(2, 1), pick(1, [0, 0]), pick(2), place(1)])).toEqual({
    firstPeriod: [1, 1, 0, 1],
    lifeOf: [0, 0, 0, 0],
    beginsLife: [false, false, true, false],
    lifePeriods: 2,
    canRunOut: true,
  });
});

it('a fixture for two that gets one part a period ties all periods together', () => {
  // What is picked waits for the last place and the one before it: nothing is picked before two are there.
  expect(orderLives([pick(0, [3, 1], [3, 2]), place(0), pick(2), place(2)])).toEqual({
    firstPeriod: [2, 2, 0, 0],
    lifeOf: [0, 0, 0, 0],
    beginsLife: [false, false, true, false],
    lifePeriods: 3,
    canRunOut: false,
  });
});

it('behind such a fixture all that waits for it begins later, however far up the list it stands', () => {
  // Out of the second machine, from the first (a fixture for two) into it, a raw part into the first.
  const order = [pick(0, [3, 1]), place(0), pick(2, [5, 1], [5, 2]), place(2), pick(4), place(4)];
  expect(orderLives(order)).toMatchObject({
    firstPeriod: [3, 3, 2, 2, 0, 0],
    lifePeriods: 4,
    canRunOut: false,
  });
});
