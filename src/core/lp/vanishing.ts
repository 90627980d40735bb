/** Variables of a linear program that its rows leave no room for: they need not be given to a solver. */
import type { LinearRow } from './solve-linear-program.js';

/**
 * Where a row says that a sum with nothing but positive terms is 0 at most, all of them are 0, and so on with what is left.
 *
 * @param rows of variables that are 0 or more
 * @param none variables that are 0 to begin with
 * @returns the rows without all of these variables; a row without a variable is left out
 */
export function withoutVanishing(rows: readonly LinearRow[], none: ReadonlySet<string>): LinearRow[] {
  const gone = new Set(none);
  const lists = rows.map((row) => Object.entries(row.terms));
  for (let before = -1; before !== gone.size; ) {
    before = gone.size;
    for (const [i, { least, most }] of rows.entries()) {
      const sign = most !== undefined && most <= 0 ? 1 : least !== undefined && least >= 0 ? -1 : 0;
      const isEqual = most !== undefined && most <= 0 && least !== undefined && least >= 0;
      if (sign === 0) continue;
      const left = lists[i]!.filter(([name, by]) => by !== 0 && !gone.has(name));
      lists[i] = left;
      const allOf = (s: number): boolean => left.every(([, by]) => by * s > 0);
      if (allOf(sign) || (isEqual && allOf(-1))) for (const [name] of left) gone.add(name);
    }
  }
  return rows.flatMap((row, i) => {
    const terms = lists[i]!.filter(([name]) => !gone.has(name));
    return terms.length === 0 ? [] : [{ ...row, terms: Object.fromEntries(terms) }];
  });
}
