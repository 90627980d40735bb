/** Where a part goes next, by hand: brushed in the hand first, gauged one in three, polished in the hand one in two. */
import { expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { RoutePath } from '../../../src/core/floor/route-path.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const CELL = compileCell(
  cellOf({
    stations: [
      station('in', 'infeed'),
      station('brush', 'held'),
      station('mill', 'machine'),
      station('gauge', 'bench'),
      station('wheel', 'held'),
      station('out', 'outfeed'),
    ],
    routes: [
      {
        part: 'cap',
        steps: [
          step(1, ['in']),
          step(2, ['brush'], { cycleS: 3 }),
          step(3, ['mill'], { cycleS: 30 }),
          step(4, ['gauge'], { cycleS: 9, everyParts: 3 }),
          step(5, ['wheel'], { cycleS: 4, everyParts: 2 }),
          step(6, ['out']),
        ],
      },
      { part: 'rod', steps: [step(1, ['in']), step(2, ['mill'], { cycleS: 20 }), step(3, ['out'])] },
    ],
    robot: { ...ROBOT, travelS: 1 },
  }),
);
const [IN, BRUSH, MILL, GAUGE, WHEEL, OUT, ROD_IN, ROD_MILL] = [0, 1, 2, 3, 4, 5, 6, 7];

/** Goes on from an operation for good: where to, and the operations in the hand on the way. */
function goOn(path: RoutePath, op: number): { to: number; held: number[] } {
  const to = path.next(op);
  expect(path.next(op), 'asking changes nothing').toBe(to);
  return { to, held: [...path.held.subarray(0, path.take(op, to))] };
}

it('over the held step every time', () => {
  const path = new RoutePath(CELL);
  for (let part = 0; part < 3; part++) expect(goOn(path, IN)).toEqual({ to: MILL, held: [BRUSH] });
});

it('every third part to the gauge, every second one over the wheel', () => {
  const path = new RoutePath(CELL);
  const rounds: unknown[] = [];
  for (let part = 0; part < 6; part++) {
    const { to, held } = goOn(path, MILL);
    rounds.push(to === GAUGE ? ['gauge', goOn(path, GAUGE).held] : [to, held]);
  }
  // The third and the sixth part are gauged; of all six the second, the fourth and the sixth are polished.
  expect(rounds).toEqual([
    [OUT, []],
    [OUT, [WHEEL]],
    ['gauge', []],
    [OUT, [WHEEL]],
    [OUT, []],
    ['gauge', [WHEEL]],
  ]);
});

it('a plain way has nothing on it', () => {
  const path = new RoutePath(CELL);
  expect([goOn(path, ROD_IN), goOn(path, ROD_MILL)]).toEqual([
    { to: ROD_MILL, held: [] },
    { to: ROD_MILL + 1, held: [] },
  ]);
});

it('is told apart by where each step with `every` is in its turn', () => {
  const path = new RoutePath(CELL);
  const turns = () => {
    const values: number[] = [];
    path.signature((value) => values.push(value));
    return values;
  };
  expect(turns()).toEqual(new Array(CELL.opCount).fill(0));
  path.take(MILL, path.next(MILL));
  expect([turns()[GAUGE], turns()[WHEEL]]).toEqual([1, 1]);
  path.take(MILL, path.next(MILL));
  expect([turns()[GAUGE], turns()[WHEEL]]).toEqual([2, 0]);
  expect(turns()).toHaveLength(CELL.opCount);
});

it('refuses another way than the one that was found', () => {
  const path = new RoutePath(CELL);
  expect(() => path.take(MILL, GAUGE)).toThrow('a part must follow the route that was found for it');
});
