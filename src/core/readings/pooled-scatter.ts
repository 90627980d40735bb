/**
 * The scatter of a station's element for variation.csv, which has one row for each. Where several elements go into one row
 * (parts with unlike times, ways to one station) their readings are pooled relative to their means: there the simulation
 * takes the scatter from the row and the mean from each step or way.
 */
import { mean as meanOf } from 'simple-statistics';
import type { Element } from '../model/cell.js';
import { chooseFit, type FitChoice } from './fit/choose-fit.js';
import type { TimedElement } from './timed-element.js';

export interface ScatterSource {
  readonly element: string;
  readonly timed: TimedElement;
  /** Normal times in the order of reading. */
  readonly values: readonly number[];
  readonly fit: FitChoice;
}

export interface Scatter {
  readonly station: string;
  readonly element: Element;
  readonly fit: FitChoice;
  /** Names of the elements whose readings it rests on. */
  readonly from: readonly string[];
}

/** @returns one entry for each station and element of variation.csv, in the order in which they were first timed */
export function pooledScatter(sources: readonly ScatterSource[]): Scatter[] {
  const byRow = new Map<string, { station: string; element: Element; sources: ScatterSource[] }>();
  for (const source of sources) {
    const row = rowOf(source.timed);
    if (row === null) continue;
    const key = `${row.station}\0${row.element}`;
    const entry = byRow.get(key) ?? { ...row, sources: [] };
    entry.sources.push(source);
    byRow.set(key, entry);
  }
  return [...byRow.values()].map(({ station, element, sources: own }) => ({
    station,
    element,
    fit: own.length === 1 ? own[0]!.fit : chooseFit(pooled(own)),
    from: own.map((s) => s.element),
  }));
}

/** Which row of variation.csv an element belongs to; null where it has none. Travel scatters by the station it reaches. */
function rowOf(timed: TimedElement): { station: string; element: Element } | null {
  if (timed.kind === 'index') return null;
  if (timed.kind === 'travel') return { station: timed.to, element: 'travel' };
  if (timed.what === 'ready' || timed.what === 'close') return null;
  return { station: timed.station, element: timed.what };
}

/** Readings relative to the mean of their element, times the mean of all. */
function pooled(sources: readonly ScatterSource[]): number[] {
  const all = meanOf(sources.flatMap((s) => s.values));
  return sources.flatMap(({ values }) => {
    const own = meanOf([...values]);
    return values.map((v) => (v / own) * all);
  });
}
