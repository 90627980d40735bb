// One solve, timed: CPU seconds of this process (the machine may be shared) and wall seconds.
import loadHighs from 'highs';
import { bestSchedule } from '../../../dist/core/schedule/best-schedule.js';

function timed(work) {
  const cpu = process.cpuUsage();
  const startMs = performance.now();
  const value = work();
  const used = process.cpuUsage(cpu);
  return { value, cpuS: (used.user + used.system) / 1e6, wallS: (performance.now() - startMs) / 1000 };
}

/** Runs shorter than this are repeated and the quickest counts: the others were disturbed. */
const SHORT_S = 0.3;
const PASSES = 3;

/** @returns period (null where none is possible), proof and gap for the part set, nodes and times of the project's own search */
export function ownSolve(cell, options) {
  const run = () => timed(() => bestSchedule(cell, { improvements: false, ...options }));
  let best = run();
  for (let pass = 1; pass < PASSES && best.wallS < SHORT_S; pass++) {
    const again = run();
    if (again.cpuS < best.cpuS) best = again;
  }
  const { value, cpuS, wallS } = best;
  const found = 'periodS' in value;
  return {
    outcome: value,
    periodS: found ? value.periodS : null,
    proven: found ? value.partSet.proven : value.status === 'infeasible',
    gapPct: found ? value.partSet.gapPct : null,
    nodes: value.searched.nodes,
    cpuS,
    wallS,
  };
}

let highs = null;

/** @returns the same of HiGHS on a model in its text form; `done` is false where the time limit came first */
export async function highsSolve(model, limitS) {
  highs ??= await loadHighs();
  try {
    const { value, cpuS, wallS } = timed(() =>
      highs.solve(model, {
        mip_rel_gap: 0,
        mip_abs_gap: 1e-7,
        mip_feasibility_tolerance: 1e-9,
        time_limit: limitS,
      }),
    );
    const done = value.Status === 'Optimal' || value.Status === 'Infeasible';
    return { periodS: value.Status === 'Optimal' ? value.ObjectiveValue : null, done, cpuS, wallS };
  } catch (error) {
    // A solver that has failed in WebAssembly cannot be used again.
    highs = null;
    return {
      periodS: null,
      done: false,
      failed: String(error.message ?? error),
      cpuS: Number.NaN,
      wallS: Number.NaN,
    };
  }
}
