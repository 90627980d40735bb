/** The clock of a log: how it writes times, and what moment they mean. */

/**
 * `seconds` from a start of its own; `zoned`, moments of the calendar; `local`, what a clock on the wall shows in a
 * zone that is not said.
 */
export type ClockForm = 'seconds' | 'zoned' | 'local';

export interface LogClock {
  readonly form: ClockForm;
  /** Moment of clock time 0, seconds since 1970-01-01 00:00 UTC (`local`: as if that were the zone); 0 for `seconds`. */
  readonly baseS: number;
  /** Minutes east of UTC in which the log's first time is written. */
  readonly offsetMin: number;
  /** The shortest step in which the log writes times, seconds. */
  readonly resolutionS: number;
}

/** A moment, and the zone in which it is written. */
export interface Moment {
  /** Milliseconds since 1970-01-01 00:00 UTC. */
  readonly epochMs: number;
  /** Minutes east of UTC. */
  readonly offsetMin: number;
}

/** A moment as the log would write it, to the second. @param clockS seconds of the log's clock */
export function momentText(clock: LogClock, clockS: number): string {
  if (clock.form === 'seconds') return `${Math.round(clockS)} s`;
  const ms = Math.round(clock.baseS + clockS) * 1000 + clock.offsetMin * 60_000;
  const text = new Date(ms).toISOString().slice(0, 19);
  return clock.form === 'local' ? text.replace('T', ' ') : `${text}${offsetText(clock.offsetMin)}`;
}

/** @example offsetText(120) // '+02:00' */
export function offsetText(offsetMin: number): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const size = Math.abs(offsetMin);
  return `${offsetMin < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
