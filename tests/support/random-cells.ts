// Random serial cells from a seed, for comparisons with other solvers.

import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Cell } from '../../src/core/model/cell.js';
import type { SerialCell } from './brute-force.js';
import { emptyCell, station, step } from './line-cell.js';

/** Times of a serial line: places 0 (infeed), 1..n (machines), n + 1 (outfeed). */
export interface SerialTimes {
  /** Empty robot, from place to place. */
  readonly travel: readonly (readonly number[])[];
  /** Carrying from place i to i + 1, where it is not as quick as empty. */
  readonly carriedS?: readonly number[];
  readonly pickS: readonly number[];
  readonly placeS: readonly number[];
  /** Machines 1..n; index 0 unused. */
  readonly processS: readonly number[];
  /** Longest wait after the process at machines 1..n; null = no limit. */
  readonly maxWaitS: readonly (number | null)[];
}

export interface RandomSerial extends SerialCell {
  readonly maxWaitS: readonly (number | null)[];
}

export interface RandomOptions {
  readonly machines: number;
  readonly seed: number;
  readonly hands?: 1 | 2;
  readonly indexS?: number;
  readonly longestCycleS?: number;
  /** Chance in percent that a machine has a longest wait. */
  readonly waitPct?: number;
  readonly waitToS?: number;
}

export function randomSerial(options: RandomOptions): RandomSerial {
  const random = xoroshiro128plus(options.seed * 7919 + options.machines);
  for (let i = 0; i < 20; i++) random.next();
  const draw = (from: number, to: number): number => uniformInt(random, from, to);
  const n = options.machines;
  const spots = Array.from({ length: n + 2 }, () => ({ x: draw(0, 20), y: draw(0, 12) }));
  const travel = spots.map((a) => spots.map((b) => Math.abs(a.x - b.x) + Math.abs(a.y - b.y)));
  const processS = Array.from({ length: n + 1 }, (_, i) =>
    i === 0 ? 0 : draw(0, options.longestCycleS ?? 120),
  );
  return {
    travel,
    pickS: spots.map((_, i) => (i <= n ? draw(1, 6) : 0)),
    placeS: spots.map((_, i) => (i > 0 ? draw(1, 6) : 0)),
    processS,
    hands: options.hands ?? 1,
    indexS: options.indexS ?? 0,
    maxWaitS: processS.map((_, i) =>
      i > 0 && draw(1, 100) <= (options.waitPct ?? 0) ? draw(0, options.waitToS ?? 60) : null,
    ),
  };
}

export function serialCell(serial: RandomSerial): Cell {
  const n = serial.processS.length - 1;
  const name = (i: number): string => (i === 0 ? 'in' : i === n + 1 ? 'out' : `m${i}`);
  const places = serial.travel.map((_, i) => i);
  return {
    ...emptyCell,
    robot: { ...emptyCell.robot, hands: serial.hands, indexS: serial.indexS },
    stations: places.map((i) => station(name(i), i === 0 ? 'infeed' : i === n + 1 ? 'outfeed' : 'machine')),
    travel: places.flatMap((a) =>
      places.flatMap((b) =>
        a === b
          ? []
          : [{ from: name(a), to: name(b), emptyS: serial.travel[a][b], loadedS: serial.travel[a][b] }],
      ),
    ),
    routes: [
      {
        part: 'part',
        steps: places.map((i) =>
          step(i + 1, name(i), {
            cycleS: serial.processS[i] ?? 0,
            loadS: serial.placeS[i],
            unloadS: serial.pickS[i],
            maxWaitS: serial.maxWaitS[i] ?? null,
          }),
        ),
      },
    ],
  };
}
