/** The random numbers of a run: which stream each draw takes, and what is made of its uniform number. */
import { expect, it } from 'vitest';
import { compileCell } from '../../../src/core/floor/compile-cell.js';
import { Draws } from '../../../src/core/floor/draws.js';
import { nextUniform, seedStream } from '../../../src/core/statistics/random-streams.js';
import { cellOf, ROBOT, station, step } from '../simulate/cells.js';

const CELL = compileCell(
  cellOf({
    stations: [
      station('in', 'infeed'),
      station('mill', 'machine', { mtbfH: 2, mttrMin: 5 }),
      station('out', 'outfeed'),
    ],
    routes: [
      { part: 'cap', steps: [step(1, ['in']), step(2, ['mill'], { cycleS: 9 }), step(3, ['out'])] },
      { part: 'rod', steps: [step(1, ['in']), step(2, ['mill'], { cycleS: 8 }), step(3, ['out'])] },
    ],
    robot: { ...ROBOT, travelS: 1 },
    variation: [
      { station: 'mill', element: 'cycle', distribution: 'triangular', parameters: [2, 4, 6] },
      { station: 'mill', element: 'load', distribution: 'exponential', parameters: [3] },
    ],
  }),
);

/** The first uniform numbers of a named stream. */
function uniforms(name: string, count: number, seed = 7, replication = 3): number[] {
  const state = new Int32Array(4);
  seedStream(state, 0, seed, name, replication);
  return Array.from({ length: count }, () => nextUniform(state, 0));
}

it('each element draws from the stream that bears its name', () => {
  expect(CELL.streamNames.slice(0, 3)).toEqual(['cycle mill', 'load mill', 'repair mill']);
  const draws = new Draws(CELL, 7, 3);
  const [u1, u2] = uniforms('cycle mill', 2);
  // Of a triangle from 2 over 4 to 6: 2 + the root of 8 u below the middle, 6 - the root of 8 (1 - u) above it.
  const triangle = (u: number) => (u < 0.5 ? 2 + Math.sqrt(8 * u) : 6 - Math.sqrt(8 * (1 - u)));
  expect([draws.draw(0), draws.draw(0)]).toEqual([
    expect.closeTo(triangle(u1), 9),
    expect.closeTo(triangle(u2), 9),
  ]);
  const [u] = uniforms('load mill', 1);
  expect(draws.draw(1)).toBeCloseTo(-3 * Math.log(1 - u), 9);
});

it('a time that varies is the draw of its station, scaled by the step and the station', () => {
  const [u] = uniforms('load mill', 1);
  // Three steps of each of two parts: the second of `rod` at the second station stands behind 6 and 4 others.
  const scale = Float64Array.from({ length: 18 }, (_, k) => k);
  expect(new Draws(CELL, 7, 3).drawnS(1, scale, 4, 1)).toBeCloseTo(10 * -3 * Math.log(1 - u), 9);
});

it('the time to the next random stop is exponential about two hours', () => {
  const [u1, u2] = uniforms('random stops mill', 2);
  const draws = new Draws(CELL, 7, 3);
  expect([draws.timeToStop(1), draws.timeToStop(1)]).toEqual([
    expect.closeTo(-7200 * Math.log(u1), 6),
    expect.closeTo(-7200 * Math.log(u2), 6),
  ]);
});

it('a part is good where its number lies below the good share', () => {
  const [u] = uniforms('yield rod', 1);
  expect(new Draws(CELL, 7, 3).isGood(1, u + 1e-9)).toBe(true);
  expect(new Draws(CELL, 7, 3).isGood(1, u)).toBe(false);
  expect(uniforms('yield cap', 1)[0]).not.toBe(u);
});

it('another seed and another replication draw other numbers', () => {
  const first = (seed: number, replication: number) => new Draws(CELL, seed, replication).draw(0);
  expect(new Set([first(7, 3), first(8, 3), first(7, 4)]).size).toBe(3);
});
