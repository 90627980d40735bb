/** Runs on a worker thread: a share of any work, by its kind. The code of a kind is loaded when it is first asked for. */
import type { ReplicationResult } from '../core/floor/floor-run.js';
import type { PartDone } from '../core/report/report-results.js';
import type { PointResult } from '../tables/overrides/point-figures.js';
import type { ReplicationShare } from './replication-share.js';
import type { JobsTask } from './report-share.js';
import type { RunLogResult, RunLogTask } from './run-log-share.js';
import type { StudiesTask, StudyResult } from './studies-share.js';
import type { SweepTask } from './sweep-share.js';

/** What each kind of work is given, and what it gives back. */
export interface ShareTypes {
  readonly replications: [ReplicationShare, ReplicationResult[]];
  readonly points: [SweepTask, PointResult[]];
  readonly parts: [JobsTask, PartDone[]];
  readonly studies: [StudiesTask, StudyResult[]];
  readonly log: [RunLogTask, RunLogResult];
}

export type ShareKind = keyof ShareTypes;

export interface Share<Kind extends ShareKind = ShareKind> {
  readonly kind: Kind;
  readonly given: ShareTypes[Kind][0];
}

type Take<Kind extends ShareKind> = (
  given: ShareTypes[Kind][0],
) => ShareTypes[Kind][1] | Promise<ShareTypes[Kind][1]>;

const takers: { readonly [Kind in ShareKind]: () => Promise<{ readonly default: Take<Kind> }> } = {
  replications: () => import('./replication-share.js'),
  points: () => import('./sweep-share.js'),
  parts: () => import('./report-share.js'),
  studies: () => import('./studies-share.js'),
  log: () => import('./run-log-share.js'),
};

export default async function takeShare<Kind extends ShareKind>({
  kind,
  given,
}: Share<Kind>): Promise<ShareTypes[Kind][1]> {
  const { default: take } = await takers[kind]();
  return take(given);
}
