/** What made parts bring, and what the cell costs while it runs; both as its tables give them. */
import type { Cell } from './cell.js';

/**
 * Contribution of good parts.
 *
 * @param made good parts by route
 * @returns null where a part that is made has no contribution
 */
export function earnedBy({ routes, parts }: Cell, made: readonly number[]): number | null {
  let sum = 0;
  for (const [r, { part }] of routes.entries()) {
    if (made[r] === 0) continue;
    const each = parts.find((row) => row.part === part)?.contribution ?? null;
    if (each === null) return null;
    sum += made[r]! * each;
  }
  return sum;
}

/** Robot and stations for an hour in which the cell is open, labour apart. */
export function runningCostPerH({ robot, stations }: Pick<Cell, 'robot' | 'stations'>): number {
  return robot.costPerH + stations.reduce((sum, { costPerH }) => sum + costPerH, 0);
}
