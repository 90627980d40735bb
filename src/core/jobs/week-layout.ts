/** Set-ups of a week with their moments, and the times between them in which each machine can make parts. */
import type { JobProblem } from './job-problem.js';
import type { SetupSpan } from './setup-clock.js';

/** A set-up in its time window. `m`, `from` and `to` are places in the problem's machines and their parts; from -1 = nothing. */
export interface TimedSetup extends SetupSpan {
  readonly slot: number;
  readonly m: number;
  readonly from: number;
  readonly to: number;
}

/** Set-ups in the order of their starts. */
export type WeekLayout = readonly TimedSetup[];

/** Time in which a machine is set up for a part. */
export interface Segment {
  readonly slot: number;
  readonly m: number;
  /** Place in the machine's parts; -1 = nothing. */
  readonly p: number;
  readonly startS: number;
  readonly endS: number;
}

export function segmentsOf({ machines, slots }: JobProblem, layout: WeekLayout): Segment[] {
  return machines.flatMap((machine, m) => {
    const own = layout.filter((setup) => setup.m === m);
    let p = machine.first;
    return slots.flatMap(({ startS, endS }, slot) => {
      const segments: Segment[] = [];
      let fromS = startS;
      for (const setup of own.filter((s) => s.slot === slot)) {
        segments.push({ slot, m, p, startS: fromS, endS: Math.max(fromS, setup.standsFromS) });
        p = setup.to;
        fromS = setup.endS;
      }
      return [...segments, { slot, m, p, startS: fromS, endS }];
    });
  });
}
