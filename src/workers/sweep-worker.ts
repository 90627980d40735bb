/** Runs on a worker thread: some points of a sweep, each from the tables to the figures asked. */
import type { Complaint } from '../core/model/complaint.js';
import { cellFigures, figureValues } from '../core/sweep/cell-figures.js';
import type { Figure } from '../core/sweep/result-figure.js';
import { highsSolver } from '../solver/highs-solver.js';
import { inspectLayers } from '../tables/overrides/inspect-layers.js';
import type { LayeredTables } from '../tables/overrides/layered-tables.js';
import { pointSettings } from '../tables/overrides/point-settings.js';
import { type TableMemory, tableMemory } from '../tables/table-memory.js';

export interface SweepTask {
  readonly layers: LayeredTables;
  /** Changes that hold at every point. */
  readonly settings: readonly string[];
  readonly paths: readonly string[];
  readonly figures: readonly string[];
  readonly nodes: number | null;
  readonly points: readonly { readonly number: number; readonly values: readonly string[] }[];
}

export interface PointResult {
  readonly number: number;
  readonly values: readonly string[];
  /** State of the schedule; null where the tables are wrong at this point. */
  readonly status: string | null;
  readonly figures: readonly Figure[];
  readonly complaints: readonly Complaint[];
}

export default async function runPoints(task: SweepTask): Promise<PointResult[]> {
  const results: PointResult[] = [];
  const memory = tableMemory();
  for (const point of task.points) {
    const result = await runPoint(task, point, memory);
    results.push(result);
    if (result.status === null) break;
  }
  return results;
}

async function runPoint(
  task: SweepTask,
  point: SweepTask['points'][number],
  memory: TableMemory,
): Promise<PointResult> {
  const settings = pointSettings(task.paths, point.values, task.settings);
  const { cell, complaints } = inspectLayers(task.layers, settings, memory);
  if (cell === null) return { ...point, status: null, figures: [], complaints };
  const {
    status,
    picks,
    complaints: refused,
  } = await cellFigures(cell, task.figures, {
    nodes: task.nodes,
    mixedSolver: highsSolver,
  });
  if (refused.length > 0) return { ...point, status: null, figures: [], complaints: refused };
  return { ...point, status, figures: figureValues(picks), complaints: [] };
}
