/** Which of the shift patterns side by side an answer speaks of where it has room for one. */

/** The pattern with the most contribution, or where none is known the most parts; undefined where there is no pattern. */
export function leadingPattern<Of extends { readonly pattern: string }>({
  best,
  patterns,
}: {
  readonly best: { readonly byContribution: string | null; readonly byParts: string | null };
  readonly patterns: readonly Of[];
}): Of | undefined {
  const name = best.byContribution ?? best.byParts;
  return patterns.find(({ pattern }) => pattern === name) ?? patterns[0];
}
