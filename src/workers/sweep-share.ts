/** Runs on a worker thread: some points of a sweep, each from the tables to the figures asked. */
import type { SweepPoint } from '../core/sweep/sweep-points.js';
import { highsSolver } from '../solver/highs-solver.js';
import { type PointResult, pointFigures, type SweepAsked } from '../tables/overrides/point-figures.js';
import { tableMemory } from '../tables/table-memory.js';

export interface SweepTask extends SweepAsked {
  readonly points: readonly SweepPoint[];
}

export default async function runPoints(task: SweepTask): Promise<PointResult[]> {
  const results: PointResult[] = [];
  const memory = tableMemory();
  for (const point of task.points) {
    const result = await pointFigures(task, point, memory, highsSolver);
    results.push(result);
    if (result.status === null) break;
  }
  return results;
}
