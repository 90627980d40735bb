/** What happened between the regular work and does not belong to it: counted, timed, kept apart. */
import type { StopwatchReading } from './reading.js';

export interface ForeignElements {
  readonly count: number;
  /** Seconds on average, and all together. */
  readonly meanS: number;
  readonly totalS: number;
  /** Regular readings of the element for each occurrence: "one in so many"; null where there is no regular reading. */
  readonly oneIn: number | null;
  /** Seconds that they add to each regular reading on average; null as above. */
  readonly perReadingS: number | null;
  /** Their notes, each once. */
  readonly notes: readonly string[];
}

/** @returns null where there is none */
export function foreignElements(readings: readonly StopwatchReading[]): ForeignElements | null {
  const foreign = readings.filter((r) => r.foreign);
  if (foreign.length === 0) return null;
  const count = foreign.length;
  const regular = readings.length - count;
  const totalS = foreign.reduce((sum, r) => sum + r.seconds, 0);
  return {
    count,
    meanS: totalS / count,
    totalS,
    oneIn: regular === 0 ? null : regular / count,
    perReadingS: regular === 0 ? null : totalS / regular,
    notes: [...new Set(foreign.map((r) => r.note).filter((note) => note !== ''))],
  };
}
