/** Runs of a simulation that are kept, so that an answer from more runs goes on from those of the one before. */
import { type ReplicationRunner, runJob } from '../../core/simulate/replication-job.js';
import type { SimulateContext } from '../../core/simulate/simulation-options.js';

type Run = Awaited<ReturnType<ReplicationRunner>>[number];

export function keptRuns(): Required<Pick<SimulateContext, 'run' | 'nowMs'>> {
  const kept = new Map<string, Map<number, { readonly run: Run; readonly ms: number }>>();
  // The time that kept runs took counts where they are used again: events a second are those of the work.
  let earlierMs = 0;
  return {
    nowMs: () => Date.now() + earlierMs,
    run: async (job, replications, watch = {}) => {
      const key = JSON.stringify(job, (_, value: unknown) =>
        typeof value === 'number' && !Number.isFinite(value) ? String(value) : value,
      );
      const runs = kept.get(key) ?? new Map<number, { run: Run; ms: number }>();
      kept.set(key, runs);
      const known = replications.filter((number) => runs.has(number));
      earlierMs += known.reduce((sum, number) => sum + runs.get(number)!.ms, 0);
      const missing = replications.filter((number) => !runs.has(number));
      const startMs = Date.now();
      const made = runJob(job, missing, {
        ...watch,
        onDone: (done) => watch.onDone?.(known.length + done),
      });
      const ms = (Date.now() - startMs) / Math.max(1, made.length);
      for (const run of made) runs.set(run.replication, { run, ms });
      return replications.flatMap((number) => runs.get(number)?.run ?? []);
    },
  };
}
