/** Changes of the tables that take over what the log measured, as `--set` takes them. */
import type { Cell } from '../../model/cell.js';
import { travelLookup } from '../../model/travel.js';
import { rowFigure } from '../../readings/row-figures.js';
import type { ComparedElement } from './compared.js';

/** @returns one change for each input that is off, and those that it asks for */
export function measuredSettings(cell: Cell, elements: readonly ComparedElement[]): string[] {
  const off = elements.filter((e) => e.isOff);
  const values = new Map(off.map((e) => [e.path, rowFigure(e.measured, e.sd)]));
  addStopPairs(cell, elements, values);
  const plain = [...values].filter(([path]) => !path.startsWith('travel.'));
  return [...plain, ...travelValues(cell, elements, values)].map(([path, value]) => `${path}=${value}`);
}

/** The tables take both times of a stop or neither. */
function addStopPairs(cell: Cell, elements: readonly ComparedElement[], values: Map<string, string>): void {
  for (const { name, mtbfH } of cell.stations) {
    if (mtbfH !== null) continue;
    const paths = [`stations.${name}.mtbf_h`, `stations.${name}.mttr_min`];
    const both = paths.map((path) => elements.find((e) => e.path === path));
    for (const [i, path] of paths.entries()) {
      if (both.every((e) => e !== undefined)) values.set(path, rowFigure(both[i]!.measured, both[i]!.sd));
      else values.delete(path);
    }
  }
}

/**
 * Rows of travel.csv are written whole, and for the way back as well: a missing column or a missing way back would take
 * the new time too.
 */
function travelValues(
  cell: Cell,
  elements: readonly ComparedElement[],
  values: ReadonlyMap<string, string>,
): [string, string][] {
  const lookup = travelLookup(cell);
  const pairs = new Map<string, readonly [from: string, to: string]>();
  for (const from of cell.stations)
    for (const to of cell.stations) {
      const isOff = COLUMNS.some((column) => values.has(pathOf(from.name, to.name, column)));
      if (!isOff) continue;
      pairs.set(`${from.name}\n${to.name}`, [from.name, to.name]);
      pairs.set(`${to.name}\n${from.name}`, [to.name, from.name]);
    }
  return [...pairs.values()].flatMap(([from, to]) => {
    const time = lookup(from, to);
    return COLUMNS.flatMap((column): [string, string][] => {
      const path = pathOf(from, to, column);
      const estimate = time === null ? undefined : column === 'empty_s' ? time.emptyS : time.loadedS;
      const measured = elements.find((e) => e.path === path)?.measured ?? estimate;
      const value = values.get(path) ?? (estimate === undefined ? measured : estimate);
      return value === undefined ? [] : [[path, typeof value === 'string' ? value : rowFigure(value, null)]];
    });
  });
}

const COLUMNS = ['empty_s', 'loaded_s'] as const;

function pathOf(from: string, to: string, column: (typeof COLUMNS)[number]): string {
  return `travel.${from}.${to}.${column}`;
}
