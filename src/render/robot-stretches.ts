/** The robot's period as stretches of time in order: going, waiting, acting, holding. */
import type { OrderEvent, ScheduleFound } from '../core/schedule/result.js';

export interface RobotStretch {
  readonly startS: number;
  readonly endS: number;
  readonly what: 'pick' | 'place' | 'hold' | 'go' | 'turn' | 'wait';
  /** Where the robot acts or waits, or goes to. */
  readonly station: string;
  /** The part acted on; for going and waiting, the one of the next action. */
  readonly part: string;
  /** Index of the action in the order; going and waiting belong to the action that follows. */
  readonly action: number;
  /** A part is in hand on the way. */
  readonly isLoaded: boolean;
}

/** Of those, the ones in which it does something to a part. */
export function isAct({ what }: RobotStretch): boolean {
  return what === 'pick' || what === 'place' || what === 'hold';
}

/** Differences below this are rounding. */
const TOLERANCE_S = 1e-6;

/** @returns stretches without gaps from 0 to the period; none of no length, but every action */
export function robotStretches(schedule: ScheduleFound): RobotStretch[] {
  const starts = startTimes(schedule);
  return schedule.order.flatMap((event, index) => {
    const nextIndex = (index + 1) % schedule.order.length;
    const next = schedule.order[nextIndex]!;
    const startS = starts[index]!;
    const endS = startS + event.robotS;
    const isLast = nextIndex === 0;
    const arriveS = endS + event.toNextS;
    const nextS = isLast ? starts[0]! + schedule.periodS : starts[nextIndex]!;
    const way = { station: next.station, part: next.part, action: nextIndex, isLoaded: event.loadedToNext };
    const { station, part, action: what } = event;
    const act = { startS, endS, what, station, part, action: index, isLoaded: true };
    const stretches: RobotStretch[] = [act];
    if (event.toNextS > TOLERANCE_S)
      stretches.push({ startS: endS, endS: arriveS, what: wayOf(event, next), ...way });
    if (nextS - arriveS > TOLERANCE_S) stretches.push({ startS: arriveS, endS: nextS, what: 'wait', ...way });
    return stretches;
  });
}

/** Start of each action of the order, from 0 up. */
export function startTimes(schedule: ScheduleFound): number[] {
  let [events, holds] = [0, 0];
  return schedule.order.map((event) =>
    event.action === 'hold' ? schedule.holds[holds++]!.startS : schedule.events[events++]!.startS,
  );
}

function wayOf(event: OrderEvent, next: OrderEvent): 'go' | 'turn' {
  return event.station === next.station ? 'turn' : 'go';
}
