/** The searches that sizing needs: some dozens, so each is short, but the cell as it stands gets a full one. */
import type { Cell } from '../model/cell.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';

/** Finds the best order of a cell, starting from the orders of like cells, within so many nodes. */
export type CellSolver = (cell: Cell, known?: readonly ScheduleFound[], nodes?: number) => ScheduleOutcome;

const NODES_EACH = 60_000;

/** @param whole the cell that is sized; for it the figures are those of `schedule` */
export function sizeSearch(whole: Cell | null): CellSolver {
  return (cell, known = [], nodes = NODES_EACH) =>
    whole !== null && isSame(cell, whole)
      ? bestSchedule(cell, { improvements: false, known })
      : bestSchedule(cell, { improvements: false, nodeLimit: nodes, known });
}

function isSame(cell: Cell, whole: Cell): boolean {
  return (
    JSON.stringify([cell.stations.map((s) => s.name), cell.routes, cell.travel, cell.robot]) ===
    JSON.stringify([whole.stations.map((s) => s.name), whole.routes, whole.travel, whole.robot])
  );
}
