/**
 * Tells a clock that was put ahead from a cell that had nothing to say. Across a true silence work goes on: cycles under
 * way end in it, and the robot comes to the end of its move. Where all of that goes on only after a silence far longer
 * than it ever takes, the clock was put ahead, records were lost, or the whole cell was stopped without a signal: the log
 * cannot tell which, and the times across it are no times of work either way.
 *
 * One cycle alone may have been stopped by a fault that this machine does not log, so it takes a second witness: another
 * cycle, or a machine that otherwise logs its stops. The robot in the middle of a move is one by itself, unless a machine is
 * stopped: somebody may be in the cell.
 */
import type { Measure } from './measure.js';

/** Shorter silences are not looked at, seconds. */
export const SHORTEST_SILENCE_S = 20;
/** So many times of its kind must have been measured before a silence is held against them. */
const FEWEST = 10;
/** A silence beyond so many times the time that nine in ten do not exceed is none of the work's own. */
const FAR_BEYOND = 3;

/** True where something of this kind, under way, would have ended in the silence. */
export function endsWithin(silenceS: number, usual: Measure): boolean {
  const { n, total } = usual;
  // The mean first: the quantile sorts.
  return n >= FEWEST && silenceS * n > 2 * total && silenceS > FAR_BEYOND * usual.quantile(0.9);
}

/** What was under way when the log fell silent, and must have ended in the silence had the clock gone right. */
export interface Overdue {
  /** Cycles of stations. */
  readonly cycles: number;
  /** Of those, at stations that log their stops. */
  readonly watched: number;
  readonly robot: boolean;
  /** A stop is under way somewhere. */
  readonly isStopped: boolean;
}

export function isClockAhead({ cycles, watched, robot, isStopped }: Overdue): boolean {
  return watched > 0 || cycles > 1 || (robot && (cycles === 1 || !isStopped));
}
