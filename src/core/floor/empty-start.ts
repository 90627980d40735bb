/** Whether a repeating sequence also comes about: the floor starts from the empty cell, the sequence from one that is loaded. */
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { type FloorJob, floorSetup } from './floor-job.js';
import { runReplication } from './floor-run.js';
import { lossSwitches } from './loss-switches.js';

/** Robot cycles from the empty cell: where fixtures that gather parts get in each other's way, they do so in the first ones. */
const CYCLES = 20;

/** A warning where the sequence locks the cell up from empty, with nothing to stop or delay it; else none. */
export function emptyStartWarnings(cell: Cell, schedule: ScheduleFound): string[] {
  const job: FloorJob = {
    ...{ cell, program: 'order', order: schedule, openSpans: null, operators: 1, seed: 0 },
    ...{ changeovers: null, runsOut: false },
  };
  const { compiled, setup } = floorSetup(lossSwitches(job)[0]?.without ?? job);
  const cycles = { chance: false, warmupS: 0, shiftsS: [CYCLES * schedule.periodS] };
  const { deadlock } = runReplication(compiled, { ...setup, ...cycles }, 0);
  if (deadlock === null) return [];
  return [
    `Started from the empty cell, this sequence locks up: ${deadlock} Its figures hold once the stations are loaded by hand as the robot cycle has them; \`simulate\` takes a program that runs from empty, where there is one.`,
  ];
}
