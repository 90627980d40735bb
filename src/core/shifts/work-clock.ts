/**
 * Answers about time on a repeating week: when a robot move that starts now is over, when an act fits in before the
 * cell closes, when the operator has found the minutes for a job. All times are seconds since the first Monday 00:00
 * and may lie in any week. Every answer is a never-falling function of the time asked, which keeps a run monotone:
 * what starts earlier ends no later.
 */
import type { WeekCalendar } from './week-calendar.js';

/** What of the calendar counts in a run; switched on one after another to tell losses apart. */
export interface ClockRules {
  /** Robot speed in attended hours as a share of full speed, 0 < pct <= 100. */
  readonly attendedSpeedPct: number;
  /** `attended`: breaks take the operator away; `no breaks`: there all attended time; `always`: all open time. */
  readonly operator: 'attended' | 'no breaks' | 'always';
}

export interface WorkClock {
  /** Seconds after which it repeats. */
  readonly weekS: number;
  /** Longest open span; Infinity where the week never closes, 0 where it never opens. */
  readonly longestSpanS: number;
  /** End of robot travel of that much time at full speed; Infinity where the cell never opens. */
  readonly travelEnd: (fromS: number, workS: number) => number;
  /** End of work that goes on only while the cell is open, at full pace. */
  readonly openEnd: (fromS: number, workS: number) => number;
  /** End of work that goes on only while an operator is there; Infinity where there never is one. */
  readonly operatorEnd: (fromS: number, workS: number) => number;
  /** Earliest start from `fromS` on of an act that must not be cut by closing. */
  readonly fitStart: (fromS: number, actS: number) => number;
  /** End of the open span at `fromS`; `fromS` itself when closed. */
  readonly spanEnd: (fromS: number) => number;
  /** Open time between two moments. */
  readonly openBetween: (fromS: number, toS: number) => number;
  /** Time between two moments in which an operator is there. */
  readonly operatorBetween: (fromS: number, toS: number) => number;
  /** The segment at a moment: index in the calendar, its end, and what holds in it. */
  readonly segmentAt: (timeS: number) => ClockSegment;
}

export interface ClockSegment {
  readonly index: number;
  readonly endS: number;
  readonly open: boolean;
  readonly operator: boolean;
  readonly slow: boolean;
  readonly shift: number;
}

/** Makes the clock of a calendar under the given rules. */
export function workClock(calendar: WeekCalendar, rules: ClockRules): WorkClock {
  const { weekS } = calendar;
  const parts = calendar.segments.map((s) => ({
    ...s,
    rate: s.open ? (s.attended ? rules.attendedSpeedPct / 100 : 1) : 0,
    pace: s.open ? 1 : 0,
    present: operatorThere(s, rules.operator) ? 1 : 0,
  }));
  const locate = segmentFinder(
    parts.map((p) => p.startS),
    weekS,
  );
  const pass = (of: 'rate' | 'pace' | 'present') => {
    const ever = parts.some((p) => p[of] > 0);
    return (fromS: number, workS: number): number => {
      if (!ever || fromS === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
      let { week, index } = locate(fromS);
      let t = fromS;
      let left = workS;
      for (;;) {
        const p = parts[index]!;
        const endS = week * weekS + p.endS;
        if (p[of] > 0) {
          const could = (endS - t) * p[of];
          if (left <= could) return t + left / p[of];
          left -= could;
        }
        t = endS;
        index++;
        if (index === parts.length) {
          index = 0;
          week++;
        }
      }
    };
  };
  const openEnd = pass('pace');
  const closeIn = stretchEnds(
    parts.map(({ open, endS }) => ({ holds: open, endS })),
    weekS,
  );
  const spanEnd = (fromS: number): number => {
    const { week, index } = locate(fromS);
    return parts[index]!.open ? week * weekS + closeIn[index]! : fromS;
  };
  const longestSpanS = parts.reduce(
    (most, p, i) => (p.open ? Math.max(most, closeIn[i]! - p.startS) : most),
    0,
  );
  /** Time with something from the first Monday to a moment. */
  const until = (holds: (p: (typeof parts)[number]) => boolean): ((timeS: number) => number) => {
    const before = cumulative(parts.map((p) => (holds(p) ? p.endS - p.startS : 0)));
    return (timeS) => {
      const { week, index } = locate(timeS);
      const p = parts[index]!;
      return week * before.at(-1)! + before[index]! + (holds(p) ? timeS - week * weekS - p.startS : 0);
    };
  };
  const openUntil = until((p) => p.open);
  const operatorUntil = until((p) => p.present > 0);
  return {
    weekS,
    longestSpanS,
    travelEnd: pass('rate'),
    openEnd,
    operatorEnd: pass('present'),
    spanEnd,
    openBetween: (fromS, toS) => openUntil(toS) - openUntil(fromS),
    operatorBetween: (fromS, toS) => operatorUntil(toS) - operatorUntil(fromS),
    fitStart: (fromS, actS) => {
      if (longestSpanS === 0 || actS > longestSpanS) return Number.POSITIVE_INFINITY;
      let t = openStart(fromS);
      while (t + actS > spanEnd(t) + 1e-9) t = openStart(spanEnd(t));
      return t;
    },
    segmentAt: (timeS) => {
      const { week, index } = locate(timeS);
      const p = parts[index]!;
      return {
        index,
        endS: week * weekS + p.endS,
        open: p.open,
        operator: p.present > 0,
        slow: p.open && p.rate < 1,
        shift: p.shift,
      };
    },
  };

  /** First open moment from a time on. */
  function openStart(fromS: number): number {
    let { week, index } = locate(fromS);
    if (parts[index]!.open) return fromS;
    do {
      index++;
      if (index === parts.length) {
        index = 0;
        week++;
      }
    } while (!parts[index]!.open);
    return week * weekS + parts[index]!.startS;
  }
}

function operatorThere(
  s: { readonly open: boolean; readonly attended: boolean; readonly operator: boolean },
  rule: ClockRules['operator'],
): boolean {
  if (rule === 'always') return s.open;
  return rule === 'no breaks' ? s.attended : s.operator;
}

interface Spot {
  readonly week: number;
  readonly index: number;
}

/** Finds the segment of a time; looks first where it looked last. */
function segmentFinder(starts: readonly number[], weekS: number): (timeS: number) => Spot {
  let last = 0;
  return (timeS) => {
    const week = Math.floor(timeS / weekS);
    const inWeek = timeS - week * weekS;
    const holds = (i: number): boolean => starts[i]! <= inWeek && inWeek < (starts[i + 1] ?? weekS);
    if (!holds(last)) {
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (starts[middle]! <= inWeek) low = middle;
        else high = middle - 1;
      }
      last = low;
    }
    return { week, index: last };
  };
}

/**
 * End of the stretch that each segment belongs to, where segments in which something holds follow each other without a
 * gap: on the clock of its week, so that it may pass the week's end; Infinity where it always holds.
 */
export function stretchEnds(
  parts: readonly { readonly holds: boolean; readonly endS: number }[],
  weekS: number,
): number[] {
  if (parts.every((p) => p.holds)) return parts.map(() => Number.POSITIVE_INFINITY);
  const ends = parts.map((p) => p.endS);
  for (let round = 0; round < 2; round++)
    for (let i = parts.length - 1; i >= 0; i--) {
      const next = (i + 1) % parts.length;
      if (parts[i]!.holds && parts[next]!.holds) ends[i] = ends[next]! + (next === 0 ? weekS : 0);
    }
  return ends;
}

/** Sums before each entry, and at the end of the list that of all. */
function cumulative(amounts: readonly number[]): number[] {
  const before = [0];
  for (const amount of amounts) before.push(before.at(-1)! + amount);
  return before;
}
