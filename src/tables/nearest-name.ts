/** Finds the name that a mistyped one was most likely meant to be. */
import { distance } from 'fastest-levenshtein';

/**
 * @param typed the name as found
 * @param known the names that would be right
 * @returns the nearest known name, or null where none is near: at most a third of its letters may differ
 */
export function nearestName(typed: string, known: Iterable<string>): string | null {
  const wanted = typed.slice(0, 200).toLowerCase();
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const name of known) {
    const apart = distance(wanted, name.toLowerCase());
    if (apart < least) [best, least] = [name, apart];
  }
  if (best === null) return null;
  const allowed = Math.max(1, Math.floor(Math.max(wanted.length, best.length) / 3));
  return least <= allowed ? best : null;
}

/** The help line that offers the nearest name, or else lists the known ones (the first ten). */
export function nameHelp(typed: string, known: readonly string[], what: string): string | null {
  const near = nearestName(typed, known);
  if (near !== null) return `Did you mean \`${near}\`?`;
  if (known.length === 0) return null;
  const shown = known.slice(0, 10).join(', ');
  return `Known ${what}: ${shown}${known.length > 10 ? ` and ${known.length - 10} more` : ''}.`;
}
