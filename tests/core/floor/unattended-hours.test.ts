/** When people leave and for how long the cell then runs alone, by hand: each segment is ten seconds long. */
import { expect, it } from 'vitest';
import { handovers } from '../../../src/core/floor/unattended-hours.js';

const KINDS = {
  shut: { open: false, attended: false, operator: false },
  alone: { open: true, attended: false, operator: false },
  /** An unattended shift with somebody there all the same. */
  watched: { open: true, attended: false, operator: true },
  break: { open: true, attended: true, operator: false },
  people: { open: true, attended: true, operator: true },
} as const;

/** When people leave, and for how long the cell then runs alone, of segments one after another. */
function weekOf(...kinds: readonly (keyof typeof KINDS)[]) {
  const segments = kinds.map((kind, i) => ({ ...KINDS[kind], startS: 10 * i, endS: 10 * (i + 1) }));
  const found = handovers(segments, 10 * kinds.length);
  return {
    alone: found.map((h) => h.alone),
    leavesS: found.map((h) => h.leavesS),
    aloneS: found.map((h) => h.aloneS),
  };
}

it('a break is no leaving, and shut hours after it are not alone', () => {
  expect(weekOf('people', 'break', 'people', 'alone', 'shut')).toEqual({
    alone: [false, false, false, true, false],
    leavesS: [30, 30, 30, 40, 50],
    aloneS: [10, 10, 10, 0, 0],
  });
});

it('open seconds after people have left are added up to their return, over shut hours and the end of the week', () => {
  expect(weekOf('alone', 'people', 'alone', 'shut', 'alone')).toEqual({
    alone: [true, false, true, false, true],
    leavesS: [10, 20, 30, 40, 50],
    aloneS: [0, 30, 0, 0, 0],
  });
});

it('each leaving has its own time alone', () => {
  expect(weekOf('people', 'shut', 'watched', 'people', 'alone', 'alone').aloneS).toEqual([
    0, 0, 20, 20, 0, 0,
  ]);
  expect(weekOf('people', 'alone', 'people', 'alone', 'alone').aloneS).toEqual([10, 0, 20, 0, 0]);
});

it('people over the end of the week leave in the next', () => {
  expect(weekOf('people', 'alone', 'people')).toEqual({
    alone: [false, true, false],
    leavesS: [10, 20, 40],
    aloneS: [10, 0, 10],
  });
});

it('where somebody is always there nobody leaves; where nobody is, nobody does either', () => {
  const never = Number.POSITIVE_INFINITY;
  expect(weekOf('people', 'watched')).toEqual({
    alone: [false, false],
    leavesS: [never, never],
    aloneS: [0, 0],
  });
  expect(weekOf('alone', 'shut')).toEqual({ alone: [true, false], leavesS: [10, 20], aloneS: [0, 0] });
});
