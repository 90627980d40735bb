/**
 * The rules by which a robot without a sequence answers calls: the first that came, the nearest by its trip, the one of
 * the longest cycle. The floor runs them, and the search for a sequence begins with them.
 */
export const CALL_RULES = ['first', 'nearest', 'longest'] as const;
export type CallRule = (typeof CALL_RULES)[number];
