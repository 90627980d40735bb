/** Where the robot is at a moment of its cycle, what it does there, and what each station does meanwhile. */
import type { ScheduleFound } from '../../core/schedule/result.js';
import { robotStretches } from '../../render/robot-stretches.js';
import { type StationState, stateAt, stationStretches } from '../../render/station-stretches.js';

export interface RobotMoment {
  /** On the way from one station to another: the share of the time of the way that is over; 1 at a station. */
  readonly from: string;
  readonly to: string;
  readonly share: number;
  readonly isLoaded: boolean;
  readonly words: string;
}

/** @param timeS from 0 to the period */
export function robotAt(schedule: ScheduleFound, timeS: number): RobotMoment {
  const { periodS, order } = schedule;
  const stretches = robotStretches(schedule);
  const first = stretches[0]!.startS;
  // The way to the first action ends the list: its times pass the end of the cycle.
  const at = timeS < first ? timeS + periodS : timeS;
  const now = stretches.find(({ startS, endS }) => at >= startS && at < endS) ?? stretches.at(-1)!;
  const before = order[(now.action - 1 + order.length) % order.length]!;
  const isWay = now.what === 'go';
  const share = isWay ? (at - now.startS) / (now.endS - now.startS) : 1;
  return {
    from: isWay ? before.station : now.station,
    to: now.station,
    share: Math.min(1, Math.max(0, share)),
    isLoaded: now.isLoaded,
    words: WORDS[now.what](now.station, now.part, now.isLoaded),
  };
}

const WORDS = {
  pick: (station, part) => `picks ${part} at ${station}`,
  place: (station, part) => `places ${part} at ${station}`,
  hold: (station, part) => `holds ${part} at ${station}`,
  turn: (station) => `turns its gripper at ${station}`,
  wait: (station) => `waits at ${station}`,
  go: (station, part, isLoaded) => (isLoaded ? `carries ${part} to ${station}` : `goes empty to ${station}`),
} as const satisfies Record<string, (station: string, part: string, isLoaded: boolean) => string>;

/** @returns null for an empty station */
export function stationAt(schedule: ScheduleFound, station: string, timeS: number): StationState | null {
  return stateAt(stationStretches(schedule, station), timeS, schedule.periodS);
}
