// Speed of sizing and of sweeps: twelve machines with their stops, a thousand points of a cell of four, and cells of
// unlike machines against HiGHS, which is given the visits and looks for the order alone. Answers are checked; times
// are processor time of this thread, so that other work on the machine does not count. Needs dist/ (npm run build).

import { bestSchedule, scheduleAgain } from '../../../dist/core/schedule/best-schedule.js';
import { sizeSearch } from '../../../dist/core/size/size-search.js';
import { sizeStudy } from '../../../dist/core/size/size-study.js';
import { readCellFolder } from '../../../dist/files/read-cell-folder.js';
import runPoints from '../../../dist/workers/sweep-share.js';
import { loadSupport } from '../load-support.mjs';

const root = new URL('../../..', import.meta.url).pathname;

async function seconds(work) {
  const before = process.cpuUsage();
  const result = await work();
  const { user, system } = process.cpuUsage(before);
  return { result, s: (user + system) / 1e6 };
}

async function twelveMachines() {
  const identical = { cycleS: 240, loadS: 12, unloadS: 10, travelS: 4, mtbfH: 10, mttrMin: 15, cycleSdS: 10 };
  const options = { identical, maxMachines: 12, again: scheduleAgain };
  const { result, s } = await seconds(() => sizeStudy(options, sizeSearch(null), {}));
  // The robot needs 38 s a part, a machine 274 s.
  for (const row of result.rows) {
    const expected = (3600 * row.machines) / Math.max(274, 38 * row.machines);
    if (Math.abs(row.partsPerH - expected) > 1e-4)
      throw new Error(`${row.machines} machines: found ${row.partsPerH}, expected ${expected}`);
    if (row.simulated === undefined) throw new Error(`${row.machines} machines were not simulated`);
  }
  console.log(`size, 12 machines with stops, sensitivity and break points: ${s.toFixed(2)} s`);
}

async function thousandPoints() {
  const { layers } = await readCellFolder(`${root}/data/demo`, []);
  const points = Array.from({ length: 1000 }, (_, i) => ({ number: i + 1, values: [String(250 + i / 10)] }));
  const task = {
    layers,
    settings: [],
    paths: ['routes.bracket.2.cycle_s'],
    figures: ['schedule.partsPerH.total'],
    nodes: 1000,
    points,
  };
  const { result, s } = await seconds(() => runPoints(task));
  if (result.length !== 1000 || result.some((r) => r.figures[0] === null))
    throw new Error('a point of the sweep has no figure');
  console.log(`sweep, 1,000 points of four machines on one thread: ${s.toFixed(2)} s`);
}

async function againstHighs() {
  const { unlikeCell, unlikeMachines, visitsModel } = await loadSupport('unlike-cells');
  const { highsSolve } = await loadSupport('highs-line');
  let ours = 0;
  let theirs = 0;
  for (let seed = 1; seed <= 10; seed++) {
    const spec = unlikeMachines(seed, 3);
    const cell = unlikeCell(spec);
    const own = await seconds(() => bestSchedule(cell, { improvements: false, maxVisits: 5 }));
    const counts = cell.routes.map((route) => own.result.partsPerPeriod[route.part]);
    const other = await seconds(() => highsSolve(visitsModel(spec, [0, ...counts]), { time_limit: 60 }));
    if (Math.abs(other.result.ObjectiveValue - own.result.periodS) > 1e-3)
      throw new Error(`seed ${seed}: found ${own.result.periodS}, HiGHS ${other.result.ObjectiveValue}`);
    ours += own.s;
    theirs += other.s;
  }
  console.log(
    `three unlike machines, up to 5 visits: visits and order ${(ours * 100).toFixed(1)} ms a cell; HiGHS, the order alone ${(theirs * 100).toFixed(1)} ms: ${(theirs / ours).toFixed(1)} times as long`,
  );
}

await twelveMachines();
await thousandPoints();
await againstHighs();
