/** The year in which changeovers are counted. */

export const YEAR_WEEKS = 52;
