/** A part has to take some time: without any, a rate of parts an hour says nothing. */
import type { Cell, Route } from '../core/model/cell.js';
import { travelLookup } from '../core/model/travel.js';
import { inBackticks } from './in-backticks.js';
import { reportCell, type Sheet } from './sheet.js';

type Inputs = Pick<Cell, 'stations' | 'routes' | 'robot' | 'travel'>;

/** To be asked of a cell that is sound otherwise: each way has a time. */
export function checkTimes(sheet: Sheet, cell: Inputs): void {
  const rows = new Map(sheet.rows.map((row) => [row.line, row]));
  const timeS = routeTimes(cell);
  for (const route of cell.routes) {
    const row = rows.get(route.steps[0]?.at?.line ?? 0);
    if (timeS(route) > 0 || !row) continue;
    reportCell(sheet, row, 'part', 'ROU16', () => ({
      text: `${inBackticks(route.part)} takes no time at all: every cycle, load, unload and trip of it is 0`,
      help: 'Give at least one of its times; an estimate will do.',
    }));
  }
}

/** Time that one part takes with machine and robot, by the first station of each step. */
function routeTimes(cell: Inputs): (route: Route) => number {
  const lookup = travelLookup(cell);
  const around = new Map(cell.stations.map((s) => [s.name, s.readyS + s.closeS]));
  return ({ steps }) =>
    steps.reduce((sum, step, i) => {
      const [here, before] = [step.stations[0]!, steps[i - 1]?.stations[0]];
      const wayS = before === undefined ? 0 : lookup(before, here)!.loadedS;
      return sum + step.cycleS + step.loadS + step.unloadS + around.get(here)! + wayS;
    }, 0);
}
