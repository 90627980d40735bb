/**
 * What the name of a timed element says. By convention a name is
 *
 *   <station> <what> [<part>]       such as `mill_1 cycle` or `lathe_1 load bushing`
 *   travel <from> <to> [empty|loaded]
 *   index                           the turn of a two-handed gripper
 *
 * with <what> one of cycle, load (or place), unload (or pick), ready, close, repair, response. Names of stations and parts may hold
 * spaces: where a cell is given, its names decide how a name is parted. Any other name is timed as well, only without rows.
 */
import type { Cell } from '../model/cell.js';

export const TIMED_AT_STATION = ['cycle', 'load', 'unload', 'ready', 'close', 'repair', 'response'] as const;
export type TimedAtStation = (typeof TIMED_AT_STATION)[number];

export type TimedElement =
  | {
      readonly kind: 'station';
      readonly station: string;
      readonly what: TimedAtStation;
      /** null where the name says no part. */
      readonly part: string | null;
    }
  | { readonly kind: 'travel'; readonly from: string; readonly to: string; readonly loaded: boolean }
  | { readonly kind: 'index' };

/** Why a name says nothing: it has another form, or names what the cell does not have. */
export interface NameProblem {
  readonly what: 'form' | 'station' | 'part';
  readonly name: string;
}

export type NameReading =
  | { readonly timed: TimedElement; readonly problem: null }
  | { readonly timed: null; readonly problem: NameProblem };

const SAME_AS: Readonly<Record<string, TimedAtStation>> = { place: 'load', pick: 'unload' };

/**
 * @param cell the cell whose names count; null where none is given: then names are parted at the last word that fits
 * @example readElementName('mill_1 load', null).timed // { kind: 'station', station: 'mill_1', what: 'load', part: null }
 */
export function readElementName(name: string, cell: Pick<Cell, 'stations' | 'routes'> | null): NameReading {
  const candidates = readingsOf(name.trim().split(/\s+/));
  const last = candidates.at(-1);
  if (last === undefined) return { timed: null, problem: { what: 'form', name } };
  if (cell === null) return { timed: last, problem: null };
  const sound = candidates.find((timed) => problemOf(timed, cell) === null);
  return sound ? { timed: sound, problem: null } : { timed: null, problem: problemOf(last, cell)! };
}

/** Every way to part the words; the likeliest last. */
function readingsOf(words: readonly string[]): TimedElement[] {
  if (words.length === 1) return words[0] === 'index' ? [{ kind: 'index' }] : [];
  return words[0] === 'travel' ? [...atStation(words), ...travels(words)] : atStation(words);
}

function atStation(words: readonly string[]): TimedElement[] {
  return words.flatMap((word, i): TimedElement[] => {
    const what = SAME_AS[word] ?? TIMED_AT_STATION.find((known) => known === word);
    if (what === undefined || i === 0) return [];
    const part = words.slice(i + 1).join(' ');
    return [{ kind: 'station', station: words.slice(0, i).join(' '), what, part: part === '' ? null : part }];
  });
}

function travels(words: readonly string[]): TimedElement[] {
  const hasLoad = words.at(-1) === 'loaded' || words.at(-1) === 'empty';
  const names = words.slice(1, hasLoad ? -1 : undefined);
  // One word each is the likeliest, and stands last.
  return names
    .slice(1)
    .map(
      (_, i): TimedElement => ({
        kind: 'travel',
        from: names.slice(0, i + 1).join(' '),
        to: names.slice(i + 1).join(' '),
        loaded: words.at(-1) === 'loaded',
      }),
    )
    .reverse();
}

function problemOf(timed: TimedElement, cell: Pick<Cell, 'stations' | 'routes'>): NameProblem | null {
  if (timed.kind === 'index') return null;
  const named = timed.kind === 'travel' ? [timed.from, timed.to] : [timed.station];
  const strange = named.find((name) => !cell.stations.some((s) => s.name === name));
  if (strange !== undefined) return { what: 'station', name: strange };
  const part = timed.kind === 'station' ? timed.part : null;
  return part === null || cell.routes.some((r) => r.part === part) ? null : { what: 'part', name: part };
}
