/** Every command, in the order of the help. */
import type { CommandSpec } from './command-spec.js';
import { checkCommand } from './commands/check.js';
import { compareCommand } from './commands/compare.js';
import { costcaseCommand } from './commands/costcase.js';
import { initCommand } from './commands/init.js';
import { jobsCommand } from './commands/jobs.js';
import { logCommand } from './commands/log.js';
import { mixCommand } from './commands/mix.js';
import { pointsCommand } from './commands/points.js';
import { readingsCommand } from './commands/readings.js';
import { reportCommand } from './commands/report.js';
import { scheduleCommand } from './commands/schedule.js';
import { setupsCommand } from './commands/setups.js';
import { shiftsCommand } from './commands/shifts.js';
import { simulateCommand } from './commands/simulate.js';
import { sizeCommand } from './commands/size.js';
import { sweepCommand } from './commands/sweep.js';

export const allCommands: readonly CommandSpec[] = [
  initCommand,
  checkCommand,
  scheduleCommand,
  sizeCommand,
  simulateCommand,
  shiftsCommand,
  compareCommand,
  mixCommand,
  jobsCommand,
  sweepCommand,
  costcaseCommand,
  pointsCommand,
  readingsCommand,
  reportCommand,
  logCommand,
  setupsCommand,
];
