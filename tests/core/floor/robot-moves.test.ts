/** Times of the robot's moves and actions with their variation, by hand; a draw always gives 6. */
import { expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { Draws } from '../../../src/core/floor/draws.js';
import { openCalendar } from '../../../src/core/floor/open-calendar.js';
import { OpenTime } from '../../../src/core/floor/open-time.js';
import { RobotMoves } from '../../../src/core/floor/robot-moves.js';
import type { Cell, Element, TravelRow } from '../../../src/core/model/cell.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const [IN, MILL_1, MILL_2, BRUSH, OUT] = [0, 1, 2, 3, 4];
const [IN_OP, MILL_OP, BRUSH_OP, OUT_OP] = [0, 1, 2, 3];

const way = (from: string, to: string, emptyS: number, loadedS: number): TravelRow => ({
  from,
  to,
  emptyS,
  loadedS,
});

function movesOf(
  elements: readonly (readonly [string, Element])[],
  more: Partial<Cell> = {},
  hours = new OpenTime(null),
) {
  const drawn: number[] = [];
  const cell = compileCell(
    cellOf({
      stations: [
        station('in', 'infeed'),
        station('mill_1', 'machine'),
        station('mill_2', 'machine'),
        station('brush', 'held'),
        station('out', 'outfeed'),
      ],
      routes: [
        {
          part: 'cap',
          steps: [
            step(1, ['in'], { unloadS: 2 }),
            step(2, ['mill_1', 'mill_2'], { cycleS: 30, loadS: 3, unloadS: 4 }),
            step(3, ['brush'], { cycleS: 8, loadS: 1, unloadS: 1 }),
            step(4, ['out'], { loadS: 5 }),
          ],
        },
      ],
      robot: { ...ROBOT, travelS: 7 },
      travel: [way('in', 'mill_1', 10, 12), way('in', 'mill_2', 20, 9), way('brush', 'mill_2', 1, 3)],
      // Each has a mean of 4.
      variation: elements.map(([at, element]) => ({
        ...{ station: at, element, distribution: 'triangular', parameters: [2, 4, 6] },
      })),
      ...more,
    }),
  );
  const draws = new Draws(cell, 1, 0);
  draws.draw = (sampler) => {
    drawn.push(sampler);
    return 6;
  };
  return { cell, moves: new RobotMoves({ cell, hours, draws }), drawn };
}

it('without variation all takes the time that is written', () => {
  const { moves, drawn } = movesOf([]);
  expect([moves.comesEmptyS(100, IN, MILL_1), moves.comesLoadedS(100, IN, MILL_1)]).toEqual([110, 112]);
  expect([moves.comesEmptyS(100, IN, MILL_2), moves.comesLoadedS(100, IN, MILL_2)]).toEqual([120, 109]);
  expect([moves.comesEmptyS(100, MILL_1, OUT), moves.comesEmptyS(100, OUT, OUT)]).toEqual([107, 100]);
  expect([moves.placeS(MILL_OP, MILL_1), moves.placeS(OUT_OP, OUT)]).toEqual([3, 5]);
  expect([moves.pickS(IN_OP, IN), moves.pickS(MILL_OP, MILL_2)]).toEqual([2, 4]);
  expect([moves.holdS(BRUSH_OP, BRUSH), moves.meanHoldS(BRUSH_OP, BRUSH)]).toEqual([8, 8]);
  expect(drawn).toEqual([]);
});

it('travel varies by the station that the robot goes to, about its own time', () => {
  const { moves, drawn } = movesOf([['mill_1', 'travel']]);
  // 6 over the mean of 4.
  expect([moves.comesEmptyS(100, IN, MILL_1), moves.comesLoadedS(100, IN, MILL_1)]).toEqual([115, 118]);
  expect([moves.comesEmptyS(100, IN, MILL_2), moves.comesEmptyS(100, MILL_1, OUT)]).toEqual([120, 107]);
  expect(drawn).toEqual([0, 0]);
  expect(movesOf([['*', 'travel']]).moves.comesEmptyS(100, IN, MILL_1)).toBe(115);
  // A turn on the spot does not vary.
  const turning = movesOf([['*', 'travel']], { robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 7 } });
  expect(turning.moves.comesLoadedS(100, MILL_1, MILL_1)).toBe(101);
  expect(turning.drawn).toEqual([]);
});

it('a time that varies about nothing stays as it is', () => {
  const { moves } = movesOf([], {
    variation: [{ station: 'mill_1', element: 'travel', distribution: 'constant', parameters: [0] }],
  });
  expect(moves.comesEmptyS(100, IN, MILL_1)).toBe(110);
});

it('a place takes what is drawn for its station, one at another station what is written', () => {
  const { moves } = movesOf([['mill_1', 'load']]);
  expect([moves.placeS(MILL_OP, MILL_1), moves.placeS(MILL_OP, MILL_2), moves.placeS(OUT_OP, OUT)]).toEqual([
    6, 3, 5,
  ]);
  expect(moves.pickS(MILL_OP, MILL_1)).toBe(4);
});

it('so does a pick', () => {
  const { moves } = movesOf([['mill_2', 'unload']]);
  expect([moves.pickS(MILL_OP, MILL_2), moves.pickS(MILL_OP, MILL_1), moves.pickS(IN_OP, IN)]).toEqual([
    6, 4, 2,
  ]);
  expect(moves.placeS(MILL_OP, MILL_2)).toBe(3);
});

it('a row for all stations scatters each time about its own', () => {
  const { moves } = movesOf([
    ['*', 'load'],
    ['*', 'unload'],
    ['*', 'cycle'],
  ]);
  expect([moves.placeS(MILL_OP, MILL_2), moves.placeS(OUT_OP, OUT)]).toEqual([4.5, 7.5]);
  expect([moves.pickS(MILL_OP, MILL_2), moves.pickS(IN_OP, IN)]).toEqual([6, 3]);
  expect([moves.holdS(BRUSH_OP, BRUSH), moves.meanHoldS(BRUSH_OP, BRUSH)]).toEqual([12, 0]);
});

it('a hold takes what is drawn; a row of its own stands before the one for all', () => {
  const { moves } = movesOf([['brush', 'cycle']]);
  expect([moves.holdS(BRUSH_OP, BRUSH), moves.meanHoldS(BRUSH_OP, BRUSH)]).toEqual([6, 0]);
  // At the mill the draw is the time itself; the brush keeps its own mean of 8.
  const both = movesOf([
    ['*', 'cycle'],
    ['mill_2', 'cycle'],
  ]);
  expect([both.moves.holdS(BRUSH_OP, BRUSH), both.moves.holdS(MILL_OP, MILL_2)]).toEqual([12, 6]);
});

it('of several stations the nearest with a part in hand, of equal ones the first', () => {
  const { moves } = movesOf([]);
  expect(moves.nearest(IN, MILL_OP)).toBe(MILL_2);
  expect(moves.nearest(OUT, MILL_OP)).toBe(MILL_1);
  expect([moves.nearest(MILL_1, OUT_OP), moves.nearest(BRUSH, MILL_OP)]).toEqual([OUT, MILL_2]);
});

it('slow hours stretch a way but no turn on the spot', () => {
  const week = openCalendar([{ startS: 0, endS: 1000, attended: true, weekS: 1000 }], 50);
  const hours = new OpenTime(week);
  hours.enter(0);
  const { moves } = movesOf([], { robot: { ...ROBOT, hands: 2, indexS: 1, travelS: 7 } }, hours);
  expect([moves.comesEmptyS(100, IN, MILL_1), moves.comesLoadedS(100, MILL_1, MILL_1)]).toEqual([120, 101]);
});
