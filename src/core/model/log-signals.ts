/**
 * The signals of a log, in our own words; where two have the same time at one station, the earlier of this list comes
 * first. Codes are the places in the list.
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
