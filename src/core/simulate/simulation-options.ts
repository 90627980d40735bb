/** Options of a simulation, with their defaults and limits. */
import type { YearOfChangeovers } from '../floor/floor-job.js';
import type { OpenSpan } from '../floor/open-calendar.js';
import type { FixedOrder } from '../floor/order-plan.js';
import { isCallRule, type Program } from '../floor/robot.js';
import type { ReplicationRunner, StopSignal } from './replication-job.js';

export interface SimulateOptions {
  /** Hours counted in each replication; rounded up to whole shifts, with a calendar to whole weeks. Default 40. */
  readonly hours?: number;
  /** Independent replications, or the most of them where a half-width is asked. Default 20, or 1000. */
  readonly replications?: number;
  /** Goes on until the interval of good parts per shift is this narrow, per cent of the mean to either side. */
  readonly halfWidthPct?: number;
  /** Confidence of all intervals. Default 0.95. */
  readonly confidence?: number;
  readonly seed?: number;
  /** What the robot is programmed to do. */
  readonly program: Program;
  /** The schedule, needed where the program follows its sequence. */
  readonly order?: FixedOrder;
  /** Changeovers of the year; none when not given. */
  readonly changeovers?: YearOfChangeovers;
  /** Before it closes the cell takes no part that would not be out in time. Default false. */
  readonly runsOut?: boolean;
  /** The week's open hours; without them the cell runs day and night, attended, at full speed. */
  readonly openSpans?: readonly OpenSpan[];
  /** Operators where there is no calendar. Default 1. */
  readonly operators?: number;
  /** Length of a shift where there is no calendar, hours. Default 8. */
  readonly shiftHours?: number;
  /** Hours left out at the start; default: found by the MSER-5 rule on a pilot run. */
  readonly warmupH?: number;
  /** Find the losses by cause (further runs). Default true. */
  readonly losses?: boolean;
}

/** How a simulation is run, apart from what it computes. */
export interface SimulateContext {
  readonly run?: ReplicationRunner;
  readonly signal?: StopSignal;
  readonly onProgress?: (done: number, planned: number) => void;
  /** Clock for the events per second, milliseconds; default Date.now. */
  readonly nowMs?: () => number;
}

export interface ResolvedOptions
  extends Required<
    Omit<SimulateOptions, 'halfWidthPct' | 'order' | 'openSpans' | 'warmupH' | 'changeovers'>
  > {
  readonly halfWidthPct: number | null;
  readonly order: FixedOrder | null;
  readonly changeovers: YearOfChangeovers | null;
  readonly openSpans: readonly OpenSpan[] | null;
  readonly warmupH: number | null;
}

const MOST_REPLICATIONS = 100_000;

/** @throws RangeError, in plain words, for an option outside its range */
export function resolveOptions(options: SimulateOptions): ResolvedOptions {
  const halfWidthPct = options.halfWidthPct ?? null;
  const resolved: ResolvedOptions = {
    hours: options.hours ?? 40,
    replications: options.replications ?? (halfWidthPct === null ? 20 : 1000),
    halfWidthPct,
    confidence: options.confidence ?? 0.95,
    seed: options.seed ?? 1,
    program: options.program,
    changeovers: options.changeovers ?? null,
    runsOut: options.runsOut ?? false,
    order: options.order ?? null,
    openSpans: options.openSpans ?? null,
    operators: options.operators ?? 1,
    shiftHours: options.shiftHours ?? 8,
    warmupH: options.warmupH ?? null,
    losses: options.losses ?? true,
  };
  check(resolved);
  return resolved;
}

function check(o: ResolvedOptions): void {
  const need = (holds: boolean, text: string): void => {
    if (!holds) throw new RangeError(text);
  };
  need(
    o.hours > 0 && o.hours <= 1e6,
    `the hours to simulate must be above 0 and at most 1,000,000, found ${o.hours}`,
  );
  need(
    Number.isInteger(o.replications) && o.replications >= 1 && o.replications <= MOST_REPLICATIONS,
    `replications must be a whole number from 1 to ${MOST_REPLICATIONS}, found ${o.replications}`,
  );
  need(
    o.halfWidthPct === null || (o.halfWidthPct > 0 && o.halfWidthPct <= 100),
    `the precision must be above 0 and at most 100 per cent, found ${o.halfWidthPct}`,
  );
  need(
    o.confidence > 0 && o.confidence < 1,
    `the confidence must lie between 0 and 1, found ${o.confidence}`,
  );
  need(Number.isSafeInteger(o.seed), `the seed must be a whole number, found ${o.seed}`);
  need(
    Number.isInteger(o.operators) && o.operators >= 0 && o.operators <= 64,
    `operators must be a whole number from 0 to 64, found ${o.operators}`,
  );
  need(
    o.shiftHours > 0 && o.shiftHours <= 168,
    `a shift must be above 0 and at most 168 hours, found ${o.shiftHours}`,
  );
  need(
    o.warmupH === null || (o.warmupH >= 0 && o.warmupH <= 1e6),
    `the warm-up must be 0 hours or more, found ${o.warmupH}`,
  );
  need(isCallRule(o.program) || o.order !== null, 'to follow a sequence, the simulation needs a schedule');
}
