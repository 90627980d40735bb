/** A list in a sentence that stays short however long the list is: the first ones by name, the rest by number. */

/** @example firstFew(['mill_1', 'mill_2', 'lathe', 'saw'], 2) // 'mill_1, mill_2 and 2 more' */
export function firstFew(names: readonly (string | number)[], most: number): string {
  const named = names.slice(0, most).join(', ');
  return names.length > most ? `${named} and ${names.length - most} more` : named;
}
