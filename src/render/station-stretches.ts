/** A station's period as stretches of time: at work, waiting for the robot, partly loaded, the robot there. */
import type { ScheduleFound } from '../core/schedule/result.js';
import { startTimes } from './robot-stretches.js';

export type StationState = 'robot' | 'working' | 'waiting' | 'filling';

export interface StationStretch {
  /** Seconds; may lie outside 0 to the period: the pattern repeats with it. */
  readonly startS: number;
  readonly endS: number;
  readonly state: StationState;
  /** The part that is inside, or that the robot picks or places. */
  readonly part: string;
}

/** @returns stretches in no order; where there is none the station is empty */
export function stationStretches(schedule: ScheduleFound, station: string): StationStretch[] {
  const starts = startTimes(schedule);
  return schedule.order.flatMap((event, index) => {
    if (event.station !== station) return [];
    const startS = starts[index]!;
    const act: StationStretch = { startS, endS: startS + event.robotS, state: 'robot', part: event.part };
    if (event.action !== 'pick' || event.waitsFor.length === 0) return [act];
    return [act, ...stay(schedule, starts, index)];
  });
}

/** The stay of the part that a pick takes: loading of a batch, work, waiting. */
function stay(schedule: ScheduleFound, starts: readonly number[], pick: number): StationStretch[] {
  const { part, waitsFor } = schedule.order[pick]!;
  const places = waitsFor.map((link) => {
    const placedS =
      starts[link.placeIndex]! + schedule.order[link.placeIndex]!.robotS - link.lag * schedule.periodS;
    return { placedS, finishS: placedS + link.processS, processS: link.processS };
  });
  const last = places.reduce((a, b) => (b.finishS > a.finishS ? b : a));
  const firstS = Math.min(...places.map((place) => place.placedS));
  const workS = last.finishS - last.processS;
  const stretches: StationStretch[] = [
    { startS: firstS, endS: workS, state: 'filling', part },
    { startS: workS, endS: last.finishS, state: 'working', part },
    { startS: last.finishS, endS: starts[pick]!, state: 'waiting', part },
  ];
  return stretches.filter((stretch) => stretch.endS - stretch.startS > 1e-6);
}

const RANK: readonly StationState[] = ['robot', 'working', 'waiting', 'filling'];

/** The state at a time of the period; null = empty. Where several parts are inside, work hides waiting. */
export function stateAt(
  stretches: readonly StationStretch[],
  timeS: number,
  periodS: number,
): StationState | null {
  return stretchAt(stretches, timeS, periodS)?.state ?? null;
}

/** The stretch that gives that state. */
export function stretchAt(
  stretches: readonly StationStretch[],
  timeS: number,
  periodS: number,
): StationStretch | null {
  const here = stretches.filter((stretch) => covers(stretch, timeS, periodS));
  here.sort((a, b) => RANK.indexOf(a.state) - RANK.indexOf(b.state));
  return here[0] ?? null;
}

function covers({ startS, endS }: StationStretch, timeS: number, periodS: number): boolean {
  if (endS - startS >= periodS) return true;
  // Distance from the start, counted forward around the period.
  const since = (((timeS - startS) % periodS) + periodS) % periodS;
  return since < endS - startS;
}
