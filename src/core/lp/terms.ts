/** The terms of a row of a linear program by variable. Terms of one variable are summed, never overwritten. */
export type Terms = Record<string, number>;

export function termsOf(...terms: readonly (readonly [string, number])[]): Terms {
  const sums: Terms = {};
  for (const [name, value] of terms) add(sums, name, value);
  return sums;
}

export function add(terms: Terms, name: string, value: number): void {
  terms[name] = (terms[name] ?? 0) + value;
}

/** Value of a row at a point. */
export function valueAt(terms: Readonly<Terms>, at: Readonly<Record<string, number>>): number {
  return Object.entries(terms).reduce((sum, [name, value]) => sum + value * (at[name] ?? 0), 0);
}
