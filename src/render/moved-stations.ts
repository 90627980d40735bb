/** Stations whose place differs between the cells of a comparison. */
import type { CellComparison, ComparedCell } from '../core/compare/comparison.js';

/** By cell, in their order: stations that are in another cell alone, or stand elsewhere in it; the first against all others. */
export function movedStations({ cells }: Pick<CellComparison, 'cells'>): string[][] {
  const [first, ...others] = cells;
  if (first === undefined) return [];
  const apart = others.map((other) => movedBetween(first, other));
  const all = [...new Set(apart.flat())];
  return cells.map((cell, i) => {
    const names = cell.stations.map((s) => s.name);
    return (i === 0 ? all : apart[i - 1]!).filter((name) => names.includes(name));
  });
}

function movedBetween(a: ComparedCell, b: ComparedCell): string[] {
  const placeOf = ({ stations }: ComparedCell, name: string): string => {
    const station = stations.find((s) => s.name === name);
    return station === undefined ? 'not there' : `${station.xM} ${station.yM}`;
  };
  const names = [...a.stations, ...b.stations].map((s) => s.name);
  return [...new Set(names)].filter((name) => placeOf(a, name) !== placeOf(b, name));
}
