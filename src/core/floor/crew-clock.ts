/**
 * When people can begin a changeover: in attended hours outside breaks, not while others keep them busy, and so that
 * the work ends before they leave, and while as many are there as it asks for, or as many as ever are. Work longer than
 * any attended stretch goes on in the next one; work that has been put off for a week is begun by those who are there.
 */
import type { OpenWeek } from './open-calendar.js';
import { stretchEnds, type WorkClock } from './work-clock.js';

/** People at work from a moment to another. */
export interface Booking {
  readonly startS: number;
  readonly endS: number;
  readonly people: number;
}

export interface CrewClock {
  /** The clock of the people: breaks take them away. */
  readonly clock: WorkClock;
  /**
   * Earliest start from `fromS` on of work that was due at `dueS`; Infinity where nobody ever comes.
   */
  readonly start: (
    fromS: number,
    dueS: number,
    work: { readonly workS: number; readonly people: number },
    booked: readonly Booking[],
  ) => number;
  /** Most people there at once. */
  readonly mostPeople: number;
}

export function crewClock(calendar: OpenWeek): CrewClock {
  const { clock, operators: people } = calendar;
  const ends = stretchEnds(
    calendar.segments.map(({ attended, endS }) => ({ holds: attended, endS })),
    calendar.weekS,
  );
  const stretchEnd = (timeS: number): number => {
    const week = Math.floor(timeS / calendar.weekS);
    return week * calendar.weekS + ends[clock.segmentAt(timeS).index]!;
  };
  const lengths = calendar.segments.flatMap((s, i) => {
    if (!s.attended) return [];
    return [Number.isFinite(ends[i]!) ? clock.operatorBetween(s.startS, ends[i]!) : Number.POSITIVE_INFINITY];
  });
  const longestS = Math.max(0, ...lengths);

  const mostPeople = Math.max(0, ...people);

  return { clock, start, mostPeople };

  function start(
    fromS: number,
    dueS: number,
    work: { readonly workS: number; readonly people: number },
    booked: readonly Booking[],
  ): number {
    let t = clock.operatorEnd(fromS, 0);
    while (t < Number.POSITIVE_INFINITY) {
      const endS = clock.operatorEnd(t, work.workS);
      const isLate = t > dueS + clock.weekS;
      if (!isLate && work.workS <= longestS && endS > stretchEnd(t)) t = clock.operatorEnd(stretchEnd(t), 0);
      else {
        const freeS =
          (isLate ? null : fewerUntil(t, endS, Math.min(work.people, mostPeople))) ??
          tooFewUntil(t, endS, work.people, booked);
        if (freeS === null) return t;
        t = clock.operatorEnd(freeS, 0);
      }
    }
    return t;
  }

  /** Where fewer are there at some moment than wanted: the end of that stretch; null = never. */
  function fewerUntil(startS: number, endS: number, wanted: number): number | null {
    for (let t = startS; t < endS; ) {
      const segment = clock.segmentAt(t);
      if (segment.operator && people[segment.index]! < wanted) return segment.endS;
      t = segment.endS;
    }
    return null;
  }

  /** Where others keep too many busy at some moment: the next moment at which that may change; null = enough. */
  function tooFewUntil(
    startS: number,
    endS: number,
    wanted: number,
    booked: readonly Booking[],
  ): number | null {
    const moments = booked.flatMap((b) => [b.startS, b.endS]).filter((t) => t > startS && t < endS);
    for (const at of [startS, ...moments]) {
      const busy = booked.filter((b) => b.startS <= at && at < b.endS);
      if (busy.length === 0) continue;
      const taken = busy.reduce((sum, b) => sum + b.people, 0);
      const untilS = Math.min(...busy.map((b) => b.endS));
      const moreS = fewerUntil(at, Math.min(endS, untilS), taken + wanted);
      if (moreS !== null) return Math.min(moreS, untilS);
    }
    return null;
  }
}
