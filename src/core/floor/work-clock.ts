/**
 * Answers about time on a repeating week: when a robot move that starts now is over, when an act fits in before the
 * cell closes, when the operator has found the minutes for a job. All times are seconds since the first Monday 00:00
 * and may lie in any week. Every answer is a never-falling function of the time asked, which keeps a run monotone:
 * what starts earlier ends no later.
 */
import type { WeekCalendar } from '../calendar/week-calendar.js';

/** What of the calendar counts in a run; switched on one after another to tell losses apart. */
export interface ClockRules {
  /** Robot speed in attended hours as a share of full speed, 0 < pct <= 100. */
  readonly attendedSpeedPct: number;
  /** `attended`: breaks take the operator away; `no breaks`: there all attended time; `always`: all open time. */
  readonly operator: 'attended' | 'no breaks' | 'always';
}

export interface ClockSegment {
  readonly index: number;
  readonly endS: number;
  readonly open: boolean;
  readonly operator: boolean;
  readonly slow: boolean;
  readonly shift: number;
}

/** Its methods are made once for all clocks, which keeps the runs that ask them fast. */
export class WorkClock {
  /** Seconds after which it repeats. */
  readonly weekS: number;
  /** Longest open span; Infinity where the week never closes, 0 where it never opens. */
  readonly longestSpanS: number;
  private readonly count: number;
  /** By segment. */
  private readonly startS: Float64Array;
  private readonly endS: Float64Array;
  private readonly open: Uint8Array;
  private readonly shift: Int32Array;
  /** Robot's speed, pace of all else that stops when the cell closes, and operator there: each a share of full. */
  private readonly rate: Float64Array;
  private readonly pace: Float64Array;
  private readonly present: Float64Array;
  /** End of the open span of each segment, on the clock of its week. */
  private readonly closesS: Float64Array;
  /** Open time, and time with an operator, of the week before each segment; at the end those of the whole week. */
  private readonly openBeforeS: Float64Array;
  private readonly operatorBeforeS: Float64Array;
  /** Week and segment found last. */
  private week = 0;
  private index = 0;

  constructor({ segments, weekS }: Pick<WeekCalendar, 'segments' | 'weekS'>, rules: ClockRules) {
    this.weekS = weekS;
    this.count = segments.length;
    this.startS = Float64Array.from(segments, (s) => s.startS);
    this.endS = Float64Array.from(segments, (s) => s.endS);
    this.open = Uint8Array.from(segments, (s) => (s.open ? 1 : 0));
    this.shift = Int32Array.from(segments, (s) => s.shift);
    this.rate = Float64Array.from(segments, (s) =>
      s.open ? (s.attended ? rules.attendedSpeedPct / 100 : 1) : 0,
    );
    this.pace = Float64Array.from(segments, (s) => (s.open ? 1 : 0));
    this.present = Float64Array.from(segments, (s) => (operatorThere(s, rules.operator) ? 1 : 0));
    this.closesS = Float64Array.from(
      stretchEnds(
        segments.map(({ open, endS }) => ({ holds: open, endS })),
        weekS,
      ),
    );
    this.openBeforeS = cumulative(segments.map((s) => (s.open ? s.endS - s.startS : 0)));
    this.operatorBeforeS = cumulative(segments.map((s, i) => (this.present[i]! > 0 ? s.endS - s.startS : 0)));
    this.longestSpanS = segments.reduce(
      (most, s, i) => (s.open ? Math.max(most, this.closesS[i]! - s.startS) : most),
      0,
    );
  }

  /** End of robot travel of that much time at full speed; Infinity where the cell never opens. */
  travelEnd(fromS: number, workS: number): number {
    return this.pass(this.rate, this.openBeforeS, fromS, workS);
  }

  /** End of work that goes on only while the cell is open, at full pace. */
  openEnd(fromS: number, workS: number): number {
    return this.pass(this.pace, this.openBeforeS, fromS, workS);
  }

  /** End of work that goes on only while an operator is there; Infinity where there never is one. */
  operatorEnd(fromS: number, workS: number): number {
    return this.pass(this.present, this.operatorBeforeS, fromS, workS);
  }

  /** Earliest start from `fromS` on of an act that must not be cut by closing. */
  fitStart(fromS: number, actS: number): number {
    if (this.longestSpanS === 0 || actS > this.longestSpanS) return Number.POSITIVE_INFINITY;
    let t = this.openStart(fromS);
    while (t + actS > this.spanEnd(t) + 1e-9) t = this.openStart(this.spanEnd(t));
    return t;
  }

  /** End of the open span at `fromS`; `fromS` itself when closed. */
  spanEnd(fromS: number): number {
    this.locate(fromS);
    return this.open[this.index] === 1 ? this.week * this.weekS + this.closesS[this.index]! : fromS;
  }

  /** Open time between two moments. */
  openBetween(fromS: number, toS: number): number {
    return this.until(this.pace, this.openBeforeS, toS) - this.until(this.pace, this.openBeforeS, fromS);
  }

  /** Time between two moments in which an operator is there. */
  operatorBetween(fromS: number, toS: number): number {
    const { present, operatorBeforeS } = this;
    return this.until(present, operatorBeforeS, toS) - this.until(present, operatorBeforeS, fromS);
  }

  /** The segment at a moment: index in the calendar, its end, and what holds in it. */
  segmentAt(timeS: number): ClockSegment {
    this.locate(timeS);
    const { index } = this;
    return {
      index,
      endS: this.week * this.weekS + this.endS[index]!,
      open: this.open[index] === 1,
      operator: this.present[index]! > 0,
      slow: this.open[index] === 1 && this.rate[index]! < 1,
      shift: this.shift[index]!,
    };
  }

  /** End of work that goes on at a pace that each segment sets. */
  private pass(pace: Float64Array, before: Float64Array, fromS: number, workS: number): number {
    if (before[this.count]! === 0 || fromS === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
    this.locate(fromS);
    let { week, index } = this;
    let t = fromS;
    let left = workS;
    for (;;) {
      const endS = week * this.weekS + this.endS[index]!;
      if (pace[index]! > 0) {
        const could = (endS - t) * pace[index]!;
        if (left <= could) return t + left / pace[index]!;
        left -= could;
      }
      t = endS;
      index++;
      if (index === this.count) {
        index = 0;
        week++;
      }
    }
  }

  /** Time with something from the first Monday to a moment. */
  private until(holds: Float64Array, before: Float64Array, timeS: number): number {
    this.locate(timeS);
    const { week, index } = this;
    const here = holds[index]! > 0 ? timeS - week * this.weekS - this.startS[index]! : 0;
    return week * before[this.count]! + before[index]! + here;
  }

  /** First open moment from a time on. */
  private openStart(fromS: number): number {
    this.locate(fromS);
    let { week, index } = this;
    if (this.open[index] === 1) return fromS;
    do {
      index++;
      if (index === this.count) {
        index = 0;
        week++;
      }
    } while (this.open[index] === 0);
    return week * this.weekS + this.startS[index]!;
  }

  /** Finds the week and the segment of a time; looks first where it looked last. */
  private locate(timeS: number): void {
    const { startS, endS, weekS } = this;
    this.week = Math.floor(timeS / weekS);
    const inWeek = timeS - this.week * weekS;
    if (startS[this.index]! <= inWeek && inWeek < endS[this.index]!) return;
    let low = 0;
    let high = this.count - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (startS[middle]! <= inWeek) low = middle;
      else high = middle - 1;
    }
    this.index = low;
  }
}

function operatorThere(
  s: { readonly open: boolean; readonly attended: boolean; readonly operator: boolean },
  rule: ClockRules['operator'],
): boolean {
  if (rule === 'always') return s.open;
  return rule === 'no breaks' ? s.attended : s.operator;
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
function cumulative(amounts: readonly number[]): Float64Array {
  const before = new Float64Array(amounts.length + 1);
  amounts.forEach((amount, i) => {
    before[i + 1] = before[i]! + amount;
  });
  return before;
}
