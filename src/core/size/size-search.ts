/** The searches that sizing needs: some thirty, so each is short, but the cell as it stands gets a full one. */
import type { Cell } from '../model/cell.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleOutcome } from '../schedule/result.js';

const NODES_EACH = 60_000;

/** @param whole the cell that is sized; for it the figures are those of `schedule` */
export function sizeSearch(whole: Cell | null): (cell: Cell) => ScheduleOutcome {
  return (cell) =>
    whole !== null && isSame(cell, whole)
      ? bestSchedule(cell, { improvements: false })
      : bestSchedule(cell, { improvements: false, nodeLimit: NODES_EACH });
}

function isSame(cell: Cell, whole: Cell): boolean {
  return (
    JSON.stringify([cell.stations.map((s) => s.name), cell.routes, cell.travel, cell.robot]) ===
    JSON.stringify([whole.stations.map((s) => s.name), whole.routes, whole.travel, whole.robot])
  );
}
