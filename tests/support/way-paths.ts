// The parts of a period as the scheduler takes them.
import type { Cell } from '../../src/core/model/cell.js';
import type { PathCount } from '../../src/core/schedule/plan/plan.js';
import type { PartWay } from './listed-orders.js';

export function wayPaths(cell: Cell, ways: readonly PartWay[]): PathCount[] {
  return ways.map(({ route, stations, count }) => ({
    route,
    count,
    stops: cell.routes[route].steps.flatMap((step, i) => {
      const station = stations[i];
      return station === null ? [] : [{ step, station }];
    }),
  }));
}
