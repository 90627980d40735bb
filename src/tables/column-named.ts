/** The column that a header means, where it is not written as the column is named. */
import type { Columns } from './column.js';
import { plainWords, sameWords, tellingWords, wordsAndUnit } from './plain-words.js';

/**
 * @returns the name of the only column that fits: in any case, with blanks or hyphens, without its unit, or in the words
 *   of its meaning; null where none or several do, or where the header names another unit than the column
 * @example columnNamed('Cycle time (sec)', routeColumns) // 'cycle_s'
 */
export function columnNamed(header: string, columns: Columns): string | null {
  if (header.trim() === '') return null;
  const names = Object.keys(columns);
  const fits = (test: (name: string) => boolean): string | null => {
    const found = names.filter(test);
    return found.length === 1 ? found[0]! : null;
  };
  const given = wordsAndUnit(tellingWords(header));
  return (
    fits((name) => sameWords(name, header)) ??
    fits((name) => {
      const own = wordsAndUnit(plainWords(name));
      return own.stem === given.stem && (given.unit === null || given.unit === own.unit);
    }) ??
    fits((name) => sameWords(columns[name]!.meaning, header))
  );
}
