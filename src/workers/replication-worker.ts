/** Runs on a worker thread: some replications of a job. */

import type { ReplicationResult } from '../core/floor/floor-run.js';
import type { ReplicationJob } from '../core/simulate/replication-job.js';
import { runJob } from '../core/simulate/replication-job.js';

export interface WorkerTask {
  readonly job: ReplicationJob;
  readonly replications: readonly number[];
}

export default function runTask(task: WorkerTask): ReplicationResult[] {
  return runJob(task.job, task.replications);
}
