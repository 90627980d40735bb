// Speed of the simulation: alone, against SimPy on the same cell in the same run, by number of machines, by number of
// worker threads, and for the week of a shop. Every timed run's answer is checked. Needs dist/ (npm run build).
//
// Events are machine finishes plus robot services (a service unloads a machine and loads it again), in both programs.
import { execFileSync } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { compileCell } from '../../../dist/core/floor/compile-cell.js';
import { runReplication } from '../../../dist/core/floor/floor-run.js';
import { simulateCell } from '../../../dist/core/simulate/simulate-cell.js';
import { replicationsOn } from '../../../dist/workers/replications.js';
import { workPool } from '../../../dist/workers/work-pool.js';
import { likeMachines, shopOfSix } from './cells.mjs';

// Ashcroft's number for six machines, run 10, service 1 (Journal of the Royal Statistical Society B 12, 1950;
// recomputed): mean number of machines that run.
const RUNNING = 5.277855860162794;
const PROCESSING = 3;
const STATES = 10;

function runningMachines(result, machines) {
  let sum = 0;
  for (let s = 1; s <= machines; s++) sum += result.stationS[s * STATES + PROCESSING];
  return sum / result.countedS;
}

/** Best of several passes, by processor time as in SimPy: the others were disturbed. */
function eventsPerSecond(cell, machines, passes) {
  const compiled = compileCell(cell);
  const setup = {
    program: 'first',
    plan: null,
    calendar: null,
    operators: 1,
    seed: 7,
    warmupS: 1000,
    shiftsS: [400_000],
  };
  let best = 0;
  let running = 0;
  for (let pass = 0; pass < passes; pass++) {
    const before = process.cpuUsage();
    const result = runReplication(compiled, setup, pass);
    const { user, system } = process.cpuUsage(before);
    best = Math.max(best, result.events / ((user + system) / 1e6));
    running += runningMachines(result, machines) / passes;
  }
  return { best, running };
}

function expectNear(what, found, expected, share) {
  if (Math.abs(found / expected - 1) > share)
    throw new Error(`${what}: found ${found}, expected ${expected}`);
}

function millions(v) {
  return `${(v / 1e6).toFixed(2)} million events a second`;
}

/** V8 lets all of the engine's small functions be compiled as one: what pays where one cell runs for long. */
const ROOM_TO_INLINE = [
  '--max-inlined-bytecode-size-cumulative=12000',
  '--max-inlined-bytecode-size-absolute=24000',
];

/** Events a second of a process of its own, as what V8 has compiled for one setting stays. */
function alone(how, flags) {
  const script = fileURLToPath(import.meta.url);
  const out = execFileSync(process.execPath, [...flags, script, 'alone'], { encoding: 'utf8' });
  const { best, running } = JSON.parse(out);
  expectNear('machines running', running, RUNNING, 0.005);
  console.log(
    `Six machines, one core, ${how}: ${millions(best)} (${running.toFixed(3)} machines run; theory ${RUNNING.toFixed(3)})`,
  );
  return best;
}

/** Runs the same cell in SimPy; null where it is not installed. */
function simpy() {
  const script = fileURLToPath(new URL('./same_cell.py', import.meta.url));
  const failures = [];
  for (const python of ['python3', '/usr/bin/python3']) {
    try {
      const runs = Array.from({ length: 3 }, (_, seed) =>
        JSON.parse(
          execFileSync(python, [script, '6', '10', '1', '100000', String(seed)], {
            encoding: 'utf8',
            stdio: 'pipe',
          }),
        ),
      );
      for (const run of runs) expectNear('machines running in SimPy', run.running, RUNNING, 0.02);
      return { version: runs[0].version, best: Math.max(...runs.map((r) => r.events / r.seconds)) };
    } catch (error) {
      failures.push(
        `${python}: ${String(error.stderr ?? error.message)
          .trim()
          .split('\n')
          .pop()}`,
      );
    }
  }
  console.log(
    `SimPy could not be run, so there is no ratio (Debian: apt-get install python3-simpy3). ${failures.join('; ')}`,
  );
  return null;
}

function byMachines() {
  for (const n of [2, 4, 8, 16, 32, 64]) {
    const { best } = eventsPerSecond(likeMachines(n, (10 * n) / 6, 1), n, 8);
    console.log(`  ${String(n).padStart(2)} machines: ${millions(best)}`);
  }
}

async function byWorkers() {
  const cell = shopOfSix();
  let first = null;
  for (let workers = 1; workers <= availableParallelism(); workers *= 2) {
    const pool = workPool({ workers });
    const run = replicationsOn(pool);
    const options = { program: 'first', hours: 168, replications: 200, losses: false };
    await simulateCell(cell, { ...options, replications: 4 * workers }, { run });
    const startMs = performance.now();
    const result = await simulateCell(cell, options, { run });
    const seconds = (performance.now() - startMs) / 1000;
    await pool.close();
    const mean = result.partsPerShift.total.mean;
    first ??= { seconds, mean };
    if (mean !== first.mean) throw new Error('the number of threads changed the result');
    console.log(
      `  ${workers} worker${workers === 1 ? '' : 's'}: ${seconds.toFixed(2)} s (${(first.seconds / seconds).toFixed(2)} times one worker), ${mean.toFixed(1)} parts a shift`,
    );
  }
}

/** Heap in use after a short and a hundredfold run. */
function memory() {
  const compiled = compileCell(likeMachines(6, 240, 24));
  const heapAfter = (shifts) => {
    const setup = {
      program: 'first',
      plan: null,
      calendar: null,
      operators: 1,
      seed: 7,
      warmupS: 0,
      shiftsS: new Array(shifts).fill(28_800),
    };
    runReplication(compiled, setup, 0);
    globalThis.gc?.();
    return process.memoryUsage().heapUsed / 1e6;
  };
  const short = heapAfter(21);
  const long = heapAfter(2100);
  console.log(
    `Memory in use after 21 shifts ${short.toFixed(1)} MB, after 2,100 shifts ${long.toFixed(1)} MB`,
  );
}

if (process.argv[2] === 'alone') {
  console.log(JSON.stringify(eventsPerSecond(likeMachines(6, 10, 1), 6, 25)));
  process.exit();
}
const plain = alone('V8 as it comes', []);
const own = alone('V8 with room to inline', ROOM_TO_INLINE);
const other = simpy();
if (other !== null)
  console.log(
    `SimPy ${other.version}: ${millions(other.best)}; ratio ${(plain / other.best).toFixed(1)}, with room to inline ${(own / other.best).toFixed(1)}`,
  );
console.log('By number of machines, one core:');
byMachines();
console.log('Week of a six-machine shop with scatter, stops and an operator, 200 replications:');
await byWorkers();
memory();
