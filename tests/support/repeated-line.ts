// A published line several times in a row, as its published double is built: each copy stands 5 s from the one before.
import type { PublishedLine } from './line-cell.js';

const APART_S = 5;

export function repeatedLine(line: PublishedLine, copies: number): Omit<PublishedLine, 'period'> {
  const n = line.stations;
  const repeat = <T>(list: readonly T[]): T[] => Array.from({ length: copies }, () => list).flat();
  // The load place belongs to the first copy, the unload place to the last one.
  const copyOf = (place: number): number => Math.max(0, Math.min(copies - 1, Math.ceil(place / n) - 1));
  const inCopy = (place: number): number => (place === 0 ? 0 : place - n * copyOf(place));
  const places = n * copies + 1;
  return {
    stations: n * copies,
    leastStay: repeat(line.leastStay),
    longestStay: repeat(line.longestStay),
    carry: [line.carry[0], ...repeat(line.carry.slice(1))],
    emptyTravel: Array.from({ length: places }, (_, i) =>
      Array.from({ length: places }, (_, to) => {
        const from = i + 1;
        return line.emptyTravel[inCopy(from) - 1][inCopy(to)] + APART_S * Math.abs(copyOf(from) - copyOf(to));
      }),
    ),
  };
}
