// A cell in which everything takes twice as long.
import type { Cell } from '../../src/core/model/cell.js';

const twice = (value: number | null): number | null => (value === null ? null : 2 * value);

/** Times twice as long, ways at half the speed; the shifts stay out of it. */
export function slowedCell(cell: Cell): Cell {
  return {
    ...cell,
    shifts: [],
    robot: {
      ...cell.robot,
      indexS: 2 * cell.robot.indexS,
      travelS: twice(cell.robot.travelS),
      speedMS: cell.robot.speedMS === null ? null : cell.robot.speedMS / 2,
      accelMS2: cell.robot.accelMS2 === null ? null : cell.robot.accelMS2 / 4,
    },
    stations: cell.stations.map((s) => ({ ...s, readyS: 2 * s.readyS, closeS: 2 * s.closeS })),
    travel: cell.travel.map((t) => ({ ...t, emptyS: 2 * t.emptyS, loadedS: 2 * t.loadedS })),
    routes: cell.routes.map((r) => ({
      ...r,
      steps: r.steps.map((s) => ({
        ...s,
        ...{ cycleS: 2 * s.cycleS, loadS: 2 * s.loadS, unloadS: 2 * s.unloadS, maxWaitS: twice(s.maxWaitS) },
      })),
    })),
  };
}
