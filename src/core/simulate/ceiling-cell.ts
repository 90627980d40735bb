/** The cell whose machines never wait for the robot: what they could make by themselves. */
import type { Cell } from '../model/cell.js';

/** Every route takes machine time, so that it has a pace even where the robot takes none. */
export function machinesSetAPace(cell: Cell): boolean {
  const kinds = new Map(cell.stations.map((s) => [s.name, s.kind]));
  return cell.routes.every((route) =>
    route.steps.some(
      (step) =>
        step.cycleS > 0 &&
        step.everyParts === 1 &&
        step.stations.every((name) => kinds.get(name) === 'machine' || kinds.get(name) === 'bench'),
    ),
  );
}

export function withoutRobotTime(cell: Cell): Cell {
  return {
    ...cell,
    robot: { ...cell.robot, indexS: 0, travelS: 0, speedMS: null },
    travel: [],
    routes: cell.routes.map((route) => ({
      ...route,
      steps: route.steps.map((step) => ({ ...step, loadS: 0, unloadS: 0 })),
    })),
  };
}
