/**
 * The timetable of a repeating order: earliest times at its least period, so that longest waits are kept, and how long
 * each part's life takes in it. Robot travel may be stretched, as in attended hours.
 */
import type { Cell } from '../model/cell.js';
import { leastPeriod, type PeriodArc } from '../schedule/evaluate/least-period.js';
import type { OrderEvent } from '../schedule/result.js';
import type { OrderLives } from './order-lives.js';

export interface OrderTimes {
  readonly hasLongestWaits: boolean;
  /** Least time from the start of the previous event in the order; null where no timetable is needed or possible. */
  readonly gapS: readonly number[] | null;
  /** The same at the reduced speed of attended hours. */
  readonly slowGapS: readonly number[] | null;
  /** By life: time that it takes, the robot's way to its first event included. */
  readonly lifeS: readonly number[];
}

/** @throws RangeError where the order takes no time at all */
export function orderTimes(cell: Cell, order: readonly OrderEvent[], lives: OrderLives): OrderTimes {
  const hasLongestWaits = order.some((e) => e.waitsFor.some((w) => w.maxWaitS !== null));
  const full = timetable(cell, order, 1);
  if (full?.periodS === 0) throw new RangeError('the order takes no time at all, so it cannot be run');
  const slow =
    cell.robot.attendedSpeedPct < 100 ? timetable(cell, order, 100 / cell.robot.attendedSpeedPct) : full;
  return {
    hasLongestWaits,
    gapS: hasLongestWaits ? (full?.gapS ?? null) : null,
    slowGapS: hasLongestWaits ? (slow?.gapS ?? null) : null,
    lifeS: lifeSpans(lives, full, slow),
  };
}

interface Timetable {
  readonly periodS: number;
  readonly startS: readonly number[];
  readonly gapS: readonly number[];
}

/** Earliest times at the least period, with travel stretched; null where the longest waits allow none. */
function timetable(cell: Cell, order: readonly OrderEvent[], stretch: number): Timetable | null {
  const n = order.length;
  const arcs: PeriodArc[] = [];
  order.forEach((e, i) => {
    const next = (i + 1) % n;
    const travelS = order[next]!.station === e.station ? e.toNextS : e.toNextS * stretch;
    arcs.push({ from: i, to: next, weightS: e.robotS + travelS, periods: next === 0 ? 1 : 0 });
    for (const w of e.waitsFor) {
      const weightS = order[w.placeIndex]!.robotS + w.processS;
      arcs.push({ from: w.placeIndex, to: i, weightS, periods: w.lag });
      if (w.maxWaitS !== null)
        arcs.push({ from: i, to: w.placeIndex, weightS: -(weightS + w.maxWaitS), periods: -w.lag });
    }
  });
  arcs.push(...feederArcs(cell, order));
  const found = leastPeriod(arcs);
  if (!found.feasible) return null;
  const { startS, periodS } = found;
  const gapS = startS.map((t, i) => (i === 0 ? t + periodS - startS[n - 1]! : t - startS[i - 1]!));
  return { periodS, startS, gapS };
}

/** An infeed that needs time to present the next part, or an outfeed to clear, serves all parts one after another. */
function feederArcs(cell: Cell, order: readonly OrderEvent[]): PeriodArc[] {
  const feeders = cell.stations.filter(({ kind }) => kind === 'infeed' || kind === 'outfeed');
  return feeders.flatMap((station) => {
    const at = [...order.keys()].filter((i) => order[i]!.station === station.name);
    return at.map((from, i) => ({
      from,
      to: at[(i + 1) % at.length]!,
      weightS: order[from]!.robotS + station.closeS + cycleAt(cell, order[from]!) + station.readyS,
      periods: i + 1 === at.length ? 1 : 0,
    }));
  });
}

function cycleAt(cell: Cell, { part, step }: OrderEvent): number {
  const route = cell.routes.find((r) => r.part === part)!;
  return route.steps.find((s) => s.step === step)!.cycleS;
}

/** Time that each life takes from its first event to the end of its last, at the slower of the two timetables. */
function lifeSpans(lives: OrderLives, full: Timetable | null, slow: Timetable | null): number[] {
  const count = Math.max(...lives.lifeOf) + 1;
  return Array.from({ length: count }, (_, life) =>
    Math.max(...[full, slow].map((t) => (t === null ? 0 : lifeSpan(lives, t, life)))),
  );
}

function lifeSpan(lives: OrderLives, table: Timetable, life: number): number {
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  lives.lifeOf.forEach((of, i) => {
    if (of !== life) return;
    const t = table.startS[i]! + lives.firstPeriod[i]! * table.periodS;
    // From the event before the first, so that the robot's way to it counts; to the one after the last.
    first = Math.min(first, t - table.gapS[i]!);
    last = Math.max(last, t + table.gapS[(i + 1) % table.gapS.length]!);
  });
  return last - first;
}
