/** Finds the name that a mistyped one was most likely meant to be. */

import { distance } from 'fastest-levenshtein';
import { firstFew } from '../core/model/first-few.js';
import { listText } from '../core/model/list-text.js';
import { inBackticks } from './in-backticks.js';

/**
 * @param typed the name as found
 * @param known the names that would be right
 * @returns the nearest known name, or null where none is near: at most a third of its letters may differ
 */
export function nearestName(typed: string, known: Iterable<string>): string | null {
  return nearestNames(typed, known)[0] ?? null;
}

/** All that are equally near. */
export function nearestNames(typed: string, known: Iterable<string>): string[] {
  const wanted = typed.slice(0, 200).toLowerCase();
  let best: string[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const name of known) {
    const apart = distance(wanted, name.toLowerCase());
    if (apart < least) [best, least] = [[name], apart];
    else if (apart === least) best.push(name);
  }
  return best.filter((name) => {
    const allowed = Math.max(1, Math.floor(Math.max(wanted.length, name.length) / 3));
    return least <= allowed;
  });
}

/** Names offered at most where several are equally near. */
const OFFERED = 4;

/** @example offerOf(['mill_1', 'mill_2']) // 'Did you mean `mill_1` or `mill_2`?' */
export function offerOf(near: readonly string[]): string {
  return `Did you mean ${listText(near.map(inBackticks), 'or')}?`;
}

/** The help line that offers the nearest name, or else lists the known ones (the first ten). */
export function nameHelp(typed: string, known: readonly string[], what: string): string | null {
  const near = nearestNames(typed, known);
  if (near.length > 0 && near.length <= OFFERED) return offerOf(near);
  if (known.length === 0) return null;
  return `Known ${what}: ${firstFew(known, 10)}.`;
}
