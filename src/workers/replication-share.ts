/** Some replications of a job. */
import type { ReplicationResult } from '../core/floor/floor-run.js';
import { type ReplicationJob, runJob } from '../core/simulate/replication-job.js';

export interface ReplicationShare {
  readonly job: ReplicationJob;
  readonly replications: readonly number[];
}

export default function takeReplications({ job, replications }: ReplicationShare): ReplicationResult[] {
  return runJob(job, replications);
}
