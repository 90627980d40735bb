// Speed of the floor without chance: nine weeks of the demo under each program, and a year of its weeks with changeovers.
// Figures are checked; times are processor time of this thread, so that other work on the machine does not count, and
// the least of several runs is shown. Needs dist/ (npm run build).

import { patternNames } from '../../../dist/core/calendar/week-calendar.js';
import { bestSchedule } from '../../../dist/core/schedule/best-schedule.js';
import { changeoverYear } from '../../../dist/core/shifts/changeover-year.js';
import { patternFloor } from '../../../dist/core/shifts/pattern-floor.js';
import { steadyWeek, weekRunner } from '../../../dist/core/shifts/steady-week.js';
import { readCellFolder } from '../../../dist/files/read-cell-folder.js';

const root = new URL('../../..', import.meta.url).pathname;
const RUNS = 7;
const WEEKS = 9;
const PROGRAMS = ['order', 'strict', 'first', 'nearest', 'longest'];

const { cell } = await readCellFolder(`${root}/data/demo`, []);
const schedule = bestSchedule(cell, { improvements: false });
if (!('order' in schedule)) throw new Error('the demo has no sequence');

for (const pattern of patternNames(cell.shifts))
  for (const program of PROGRAMS) {
    const { floor, runner } = floorOf(pattern, program);
    const weeks = timed(() => {
      const player = runner.start([]);
      let good = 0;
      for (let week = 0; week < WEEKS; week++) good = player.next().good.reduce((a, b) => a + b, 0);
      return good;
    });
    const year =
      floor.changeovers === null
        ? null
        : timed(() => changeoverYear(floor.work, floor.changeovers, runner, steadyWeek(runner, WEEKS)).weeks);
    console.log(
      `${pattern}, ${program}: ${WEEKS} weeks ${weeks.ms.toFixed(1)} ms (the last makes ${weeks.result.toFixed(1)})${
        year === null ? '' : `; ${year.result} weeks with changeovers ${year.ms.toFixed(0)} ms`
      }`,
    );
  }

function floorOf(pattern, program) {
  const floor = patternFloor(cell, schedule, pattern, { program });
  const { openSpans, order, runsOut } = floor;
  const job = { cell, program, order, openSpans, runsOut, operators: 1, seed: 0, changeovers: null };
  return { floor, runner: weekRunner(job) };
}

/** The least processor time of several runs, which all must give the same. */
function timed(work) {
  let ms = Number.POSITIVE_INFINITY;
  let result;
  for (let run = 0; run < RUNS; run++) {
    const before = process.cpuUsage();
    const found = work();
    const { user, system } = process.cpuUsage(before);
    ms = Math.min(ms, (user + system) / 1000);
    if (run > 0 && found !== result) throw new Error(`two runs differ: ${result}, ${found}`);
    result = found;
  }
  return { ms, result };
}
