/** One point of a sweep, from the tables with its values in them to the figures that are asked. */
import type { MixedSolver } from '../../core/lp/mixed-solver.js';
import type { Complaint } from '../../core/model/complaint.js';
import { cellFigures, figureValues } from '../../core/sweep/cell-figures.js';
import type { Figure } from '../../core/sweep/result-figure.js';
import type { SweepPoint } from '../../core/sweep/sweep-points.js';
import type { TableMemory } from '../table-memory.js';
import { inspectLayers } from './inspect-layers.js';
import type { LayeredTables } from './layered-tables.js';
import { pointSettings } from './point-settings.js';

export interface SweepAsked {
  readonly layers: LayeredTables;
  /** Changes that hold at every point. */
  readonly settings: readonly string[];
  /** The inputs that are swept. */
  readonly paths: readonly string[];
  readonly figures: readonly string[];
  /** Nodes that each search may look at; null = as many as the command of the figure takes. */
  readonly nodes: number | null;
}

export interface PointResult extends SweepPoint {
  /** State of the schedule; null where the tables are wrong at this point. */
  readonly status: string | null;
  readonly figures: readonly Figure[];
  readonly complaints: readonly Complaint[];
}

/** @param memory what was read at other points of the sweep */
export async function pointFigures(
  { layers, settings, paths, figures, nodes }: SweepAsked,
  point: SweepPoint,
  memory: TableMemory,
  mixedSolver: () => Promise<MixedSolver>,
): Promise<PointResult> {
  const { cell, complaints } = inspectLayers(layers, pointSettings(paths, point.values, settings), memory);
  if (cell === null) return { ...point, status: null, figures: [], complaints };
  const { status, picks, complaints: refused } = await cellFigures(cell, figures, { nodes, mixedSolver });
  if (refused.length > 0) return { ...point, status: null, figures: [], complaints: refused };
  return { ...point, status, figures: figureValues(picks), complaints: [] };
}
