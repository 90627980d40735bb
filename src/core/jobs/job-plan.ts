/** The job plan of a week as plain data. */
import type { SetupWay } from '../cost/way-minutes.js';
import type { WeekSlot } from './week-slots.js';

/** Good parts of a job in one stretch of the week. */
export interface JobShare {
  /** Index into `stretches`. */
  readonly stretch: number;
  readonly parts: number;
}

export interface PlannedJob {
  readonly job: string;
  readonly part: string;
  readonly quantity: number;
  /** Minutes after Monday 00:00. */
  readonly dueMin: number;
  readonly notBeforeMin: number;
  /** Good parts by stretch, whole, in the order of the week. */
  readonly made: readonly JobShare[];
  readonly inTime: number;
  /** Parts made after they are due, or not at all. */
  readonly lateParts: number;
  /** Of these, parts that are not made in the week. */
  readonly notMade: number;
  /** Parts that could be in time if this were the only job; null where nothing is late or it was not found out. */
  readonly inTimeAlone: number | null;
  /** Why parts are late; null where none is. */
  readonly reason: string | null;
}

export interface PlannedSetup {
  readonly stretch: number;
  readonly station: string;
  /** null = nothing was set up. */
  readonly from: string | null;
  readonly to: string;
  /** Minutes of work. */
  readonly minutes: number;
  /** Seconds after Monday 00:00; breaks between are no work. */
  readonly startS: number;
  readonly endS: number;
  /** Minutes before the end in which the machine is stopped, breaks included. */
  readonly standsMin: number;
  readonly people: number;
  readonly way: SetupWay;
}

/** Parts begun at a machine in a stretch; those in the stretch's first place come first. */
export interface PlannedRun {
  readonly stretch: number;
  readonly station: string;
  readonly part: string;
  /** Good and bad parts, rounded up over the week so far. */
  readonly parts: number;
  /** Hours of the machine for them in this stretch. */
  readonly machineH: number;
}

export interface PlannedResource {
  /** A station, `robot` or `operators`. */
  readonly resource: string;
  readonly usedH: number;
  readonly availableH: number;
  readonly usedPct: number;
}

/** A goal of the search, what was reached, and what no plan goes below that is as good in the goals before it. */
export interface PlanGoal {
  readonly goal: 'late parts' | 'parts not made' | 'set-up minutes';
  readonly value: number;
  readonly bound: number;
  readonly proven: boolean;
}

export interface JobPlan {
  readonly pattern: string;
  /** `in time`: every job is; `late`: some parts are. */
  readonly status: 'in time' | 'late';
  readonly stretches: readonly WeekSlot[];
  readonly jobs: readonly PlannedJob[];
  readonly setups: readonly PlannedSetup[];
  readonly runs: readonly PlannedRun[];
  readonly resources: readonly PlannedResource[];
  readonly lateParts: number;
  readonly notMade: number;
  readonly setupMin: number;
  /** In the order in which they count. */
  readonly goals: readonly PlanGoal[];
  /** True where no plan of the model is better in any goal. */
  readonly proven: boolean;
  /** How the goals' bounds were found: all set-ups of the week looked at, or hours by machine alone. */
  readonly boundBy: 'set-ups' | 'hours';
  /** True where the time that the user gave ended the work before the plan was proven. */
  readonly timeUp: boolean;
  readonly labourPerWeek: number;
}
