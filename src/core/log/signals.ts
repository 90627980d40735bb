/**
 * The signals of a log, in our own words, as data: what each one says, what a value of 0 means, and which come first
 * where two have the same time. Codes are the places in the list.
 */

export const LOG_SIGNALS = [
  'arrive',
  'place',
  'placed',
  'start',
  'stop',
  'attend',
  'run',
  'pause',
  'resume',
  'finish',
  'ready',
  'pick',
  'picked',
  'leave',
] as const;
export type LogSignal = (typeof LOG_SIGNALS)[number];

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
  stop: { of: 'machine', meaning: 'a fault: the machine stands', whenLow: 'run' },
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

/** Code that a drop (value 0) of each signal stands for; -1 = none. */
export const CODE_WHEN_LOW: readonly number[] = LOG_SIGNALS.map((name) => {
  const low = signalFormats[name].whenLow;
  return low === null ? -1 : LOG_SIGNALS.indexOf(low);
});

/**
 * True where, at one station and one time, the first of two signals belongs before the second. Pick and place at one
 * moment say nothing of each other.
 */
export function comesBefore(a: number, b: number): boolean {
  return a < b && !(a <= START && b >= PICK && b <= PICKED);
}
