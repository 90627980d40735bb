/**
 * Replacement sets bought in a year because connectors wear.
 *
 * The first set comes with the equipment; another is bought in the year in which the running count of changeovers
 * first passes each multiple of the rated matings (one mating a changeover). Changeovers are spread evenly over the
 * years, so the running count at the end of year y is y x perYear and need not be whole.
 *
 * @param year 1, 2, 3 ...
 * @param perYear changeovers per year, 0 or more
 * @param matings that one set is rated for, above 0; null = never replaced
 * @returns whole number of sets
 * @example setsWornOut(2, 130, 100) // 1: the count goes from 130 to 260 and passes 200
 */
export function setsWornOut(year: number, perYear: number, matings: number | null): number {
  if (matings === null) return 0;
  return replacements(year * perYear, matings) - replacements((year - 1) * perYear, matings);
}

/** Sets bought beyond the first after so many changeovers; exactly a multiple is not yet past it. */
function replacements(changeovers: number, matings: number): number {
  const sets = changeovers / matings;
  return Math.max(0, Math.ceil(sets - 1e-12 * Math.max(1, sets)) - 1);
}
