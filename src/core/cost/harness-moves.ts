/**
 * How often the harness is moved to each machine in a year. It comes to a machine only from somewhere else: a machine is
 * changed over n times, and the harness can have left it no more often than it went to all the other places. A harness
 * that never leaves its machine is not moved.
 *
 * @param counts changeovers a year of each machine that it serves
 * @param elsewhere times a year that it is fetched to a place outside this list
 * @returns moves a year, in the order of the counts
 * @example harnessMoves([50, 10], 0) // [10, 10]
 */
export function harnessMoves(counts: readonly number[], elsewhere = 0): number[] {
  const all = counts.reduce((sum, count) => sum + count, 0) + elsewhere;
  return counts.map((count) => Math.min(count, all - count));
}
