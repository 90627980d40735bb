/**
 * A cell with one more machine like one that it has. The copy may stand in for the original at every step, takes the
 * same robot times to and from all other stations, and is reached from the original (and from other copies) in the
 * shortest time that the original has to any neighbour.
 */
import type { Cell, TravelRow } from '../model/cell.js';
import { type TravelLookup, travelLookup } from '../model/travel.js';

/**
 * @param original name of a station
 * @returns the larger cell and the copy's name: the original's with `#2`, `#3`, …
 * @throws RangeError where no station has that name
 */
export function copiedMachine(cell: Cell, original: string): { readonly cell: Cell; readonly copy: string } {
  const station = cell.stations.find((s) => s.name === original);
  if (!station) throw new RangeError(`${original} is not a station of the cell`);
  const copy = freeName(cell, original);
  const doubled = <T extends { readonly station: string }>(rows: readonly T[]): T[] =>
    rows.flatMap((row) => (row.station === original ? [row, { ...row, station: copy }] : [row]));
  return {
    copy,
    cell: {
      ...cell,
      stations: cell.stations.flatMap((s) => (s.name === original ? [s, { ...s, name: copy }] : [s])),
      routes: cell.routes.map((route) => ({
        ...route,
        steps: route.steps.map((step) =>
          step.stations.includes(original) ? { ...step, stations: [...step.stations, copy] } : step,
        ),
      })),
      travel: [...cell.travel, ...copyTravel(cell, original, copy)],
      stops: doubled(cell.stops),
      variation: doubled(cell.variation),
      changeovers: doubled(cell.changeovers),
      signals: doubled(cell.signals),
    },
  };
}

/** Name of the machine that a copy was made from. */
export function originalOf(name: string): string {
  return name.replace(/#\d+$/, '');
}

function freeName(cell: Cell, original: string): string {
  const base = originalOf(original);
  let number = 2;
  while (cell.stations.some((s) => s.name === `${base}#${number}`)) number++;
  return `${base}#${number}`;
}

function copyTravel(cell: Cell, original: string, copy: string): TravelRow[] {
  const travel = travelLookup(cell);
  const family = (name: string): boolean => originalOf(name) === originalOf(original);
  const near = nearestS(cell, travel, original);
  return cell.stations.flatMap((s): TravelRow[] => {
    if (family(s.name)) return near === null ? [] : [{ from: copy, to: s.name, emptyS: near, loadedS: near }];
    const there = travel(original, s.name);
    const back = travel(s.name, original);
    return [
      ...(there ? [{ from: copy, to: s.name, emptyS: there.emptyS, loadedS: there.loadedS }] : []),
      ...(back ? [{ from: s.name, to: copy, emptyS: back.emptyS, loadedS: back.loadedS }] : []),
    ];
  });
}

function nearestS(cell: Cell, travel: TravelLookup, original: string): number | null {
  const times = cell.stations
    .filter((s) => originalOf(s.name) !== originalOf(original))
    .map((s) => travel(original, s.name)?.emptyS ?? Number.POSITIVE_INFINITY);
  const least = Math.min(...times);
  return Number.isFinite(least) ? least : null;
}
