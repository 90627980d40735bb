/**
 * Where a run of the order stands: what the robot does next, when the last places ended, what racks and stop counters
 * show. Plain data, so that a week can go on where the one before ended.
 */
import type { Booking } from '../../../src/core/floor/crew-clock.js';
import type { OrderPlan } from './order-plan.js';

export interface RunState {
  /** Next event of the order, and how many periods have begun before it. */
  readonly next: number;
  readonly period: number;
  /** Last event done; -1 at the start. */
  readonly last: number;
  /** End of the last event, seconds. */
  readonly nowS: number;
  /** Start of the last event in the timetable's sense. */
  readonly lastStartS: number;
  readonly inHand: number;
  /** End of each event, [lag * events + event]; lag 0 = the current period. */
  readonly endS: Float64Array;
  /** Parts whose longest wait was overrun, laid out like endS. */
  readonly spoiled: Uint8Array;
  /** Lives that the run-out leaves out, [life * lifePeriods + period]. */
  readonly leftOut: Uint8Array;
  /** End of the last act by feeder and by station. */
  readonly feederEndS: Float64Array;
  readonly stationEndS: Float64Array;
  /** Parts inside by station, without infeeds and outfeeds. */
  readonly content: Int32Array;
  /** Parts left in an infeed's rack, room left in an outfeed's; by station. */
  readonly rack: Float64Array;
  /** Moment for which that count holds, by station. */
  readonly rackSeenS: Float64Array;
  /** Parts since the last stop, and moment from which an hourly stop is due; by stop. */
  readonly stopCount: Float64Array;
  readonly stopDueS: Float64Array;
  /** Changeovers begun so far. */
  readonly changeovers: readonly DoneChangeover[];
}

/** A changeover as it came to pass. */
export interface DoneChangeover extends Booking {
  /** Index of its machine among the changeovers of the run. */
  readonly row: number;
  /** The machine runs again; endS of the people's work may be later. */
  readonly standsUntilS: number;
}

/** The empty cell: nothing inside, racks full, all stops just done, the robot at its first event. */
export function emptyRunState(
  plan: OrderPlan,
  racks: readonly number[],
  stops: number,
  startS = 0,
): RunState {
  const n = plan.events.length;
  return {
    next: 0,
    period: 0,
    last: -1,
    nowS: startS,
    lastStartS: Number.NEGATIVE_INFINITY,
    inHand: 0,
    endS: new Float64Array(n * (plan.depth + 1)).fill(Number.NEGATIVE_INFINITY),
    spoiled: new Uint8Array(n * (plan.depth + 1)),
    leftOut: new Uint8Array((Math.max(...plan.lifeOf) + 1) * plan.lifePeriods),
    feederEndS: new Float64Array(plan.feeders).fill(Number.NEGATIVE_INFINITY),
    stationEndS: new Float64Array(plan.stations.length).fill(Number.NEGATIVE_INFINITY),
    content: new Int32Array(plan.stations.length),
    rack: Float64Array.from(racks),
    rackSeenS: new Float64Array(plan.stations.length).fill(startS),
    stopCount: new Float64Array(stops),
    stopDueS: new Float64Array(stops).fill(Number.NaN),
    changeovers: [],
  };
}
