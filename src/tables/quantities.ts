/**
 * The ranges of times, counts and money that the tables and the options take. They are wider than any shop needs; beyond
 * them a slipped decimal point or a wrong unit is likelier than a real value, and the work would not end.
 */
import type { NumberRule } from './number-column.js';

const TIME = { min: 0, least: 0.01 } as const;

export const quantities = {
  /** Up to eleven days. */
  seconds: { words: 'seconds', ...TIME, max: 1_000_000 },
  /** Up to ten weeks. */
  minutes: { words: 'minutes', ...TIME, max: 100_000 },
  /** Between stops; up to a hundred years. */
  hoursBetween: { words: 'hours', min: 0.01, max: 1_000_000 },
  changeoversAYear: { words: 'changeovers', min: 0, max: 100_000 },
  partsHeld: { words: 'parts', min: 1, max: 10_000, whole: true },
  partsBetween: { words: 'parts', min: 1, max: 10_000_000, whole: true },
  partsWanted: { words: 'parts', min: 0, max: 10_000_000 },
  metres: { words: 'metres', min: -10_000, max: 10_000 },
  metresPerSecond: { words: 'metres per second', min: 0.001, max: 1000 },
  metresPerSecondSquared: { words: 'metres per second squared', min: 0.001, max: 10_000 },
  perCent: { words: 'per cent', min: 0, max: 100 },
  perCentAbove0: { words: 'per cent', min: 0, aboveMin: true, max: 100 },
  people: { words: 'people', min: 0, max: 1000 },
  money: { words: 'money', min: -1e9, max: 1e9 },
  moneyPerHour: { words: 'money per hour', min: 0, max: 1e9 },
} as const satisfies Record<string, NumberRule>;
