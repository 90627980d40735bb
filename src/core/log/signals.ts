/**
 * The signals of a log, in our own words, as data: what each one says, what a value of 0 means, and which come first
 * where two have the same time. Codes are the places in the list.
 */

import { LOG_SIGNALS, type LogSignal } from '../model/log-signals.js';

export const ARRIVE = 0;
export const PLACE = 1;
export const PLACED = 2;
export const START = 3;
export const STOP = 4;
export const ATTEND = 5;
export const RUN = 6;
export const PAUSE = 7;
export const RESUME = 8;
export const FINISH = 9;
export const READY = 10;
export const PICK = 11;
export const PICKED = 12;
export const LEAVE = 13;

export interface SignalFormat {
  readonly of: 'machine' | 'robot' | 'operator';
  readonly meaning: string;
  /** What the signal says when it drops (value 0); null = nothing, the drop is passed over. */
  readonly whenLow: LogSignal | null;
}

export const signalFormats: Readonly<Record<LogSignal, SignalFormat>> = {
  start: { of: 'machine', meaning: 'the cycle begins (door closed, part clamped)', whenLow: null },
  finish: { of: 'machine', meaning: 'the cycle has ended', whenLow: null },
  ready: { of: 'machine', meaning: 'the robot may enter (door open)', whenLow: null },
  stop: { of: 'machine', meaning: 'a fault: the machine is down', whenLow: 'run' },
  run: { of: 'machine', meaning: 'the fault is cleared, the machine runs on', whenLow: null },
  pause: { of: 'machine', meaning: 'a planned stop begins (tool change, gauge)', whenLow: 'resume' },
  resume: { of: 'machine', meaning: 'the planned stop is over', whenLow: null },
  attend: { of: 'operator', meaning: 'somebody has come and begins to clear the fault', whenLow: null },
  pick: { of: 'robot', meaning: 'the robot begins to take a part out', whenLow: 'picked' },
  picked: { of: 'robot', meaning: 'the part is out', whenLow: null },
  place: { of: 'robot', meaning: 'the robot begins to put a part in', whenLow: 'placed' },
  placed: { of: 'robot', meaning: 'the part is in and the robot is out of the way', whenLow: null },
  leave: { of: 'robot', meaning: 'the robot sets off from here (part: what it carries)', whenLow: null },
  arrive: { of: 'robot', meaning: 'the robot has come here', whenLow: null },
};

/** Codes of records: the signal's code, or that of what its drop says, with these added. */
export const CODE_MASK = 15;
/** The record came with a value, so that only a change of the value is an edge. */
export const WITH_VALUE = 16;
/** The value is 0. */
export const LOW = 32;

/** The signal whose value it is stands in the bits above these. */
const LEVEL_SHIFT = 6;

/** What the drop of a signal says; the signal itself where that is nothing. */
const LOW_OF = LOG_SIGNALS.map((name) => LOG_SIGNALS.indexOf(signalFormats[name].whenLow ?? name));

/** Code of a record. @param value null = none given */
export function recordCode(signal: number, value: 0 | 1 | null): number {
  if (value === null) return signal;
  const own = (signal << LEVEL_SHIFT) | WITH_VALUE;
  return value === 1 ? own | signal : own | LOW | LOW_OF[signal]!;
}

/** The signal whose value a record with a value gives: `stop` where its drop says `run`. */
export function levelOf(code: number): number {
  return code >> LEVEL_SHIFT;
}

/** True where both the rise and the drop of a signal say something. */
export function isTwoSided(signal: number): boolean {
  return LOW_OF[signal] !== signal;
}

/**
 * True where, at one station and one time, the first of two signals belongs before the second. Pick and place at one
 * moment say nothing of each other.
 */
export function comesBefore(a: number, b: number): boolean {
  const x = a & CODE_MASK;
  const y = b & CODE_MASK;
  return x < y && !(x <= START && y >= PICK && y <= PICKED);
}
