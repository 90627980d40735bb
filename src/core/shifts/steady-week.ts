/**
 * The week that a pattern settles into: week after week is run without chance from where the one before ended, until a
 * week ends as an earlier one did; then the weeks between the two are the whole truth and their mean is taken. Where none
 * repeats within the limit, the mean of all weeks after the first is taken and said to be one.
 */
import type { ChangeoverRow, DoneChangeover } from '../floor/changeovers.js';
import { type FloorJob, floorSetup, withoutChance } from '../floor/floor-job.js';
import { FloorRun } from '../floor/floor-run.js';
import { floorState, isAlike } from '../floor/floor-state.js';
import type { FloorHold } from '../floor/holds.js';
import type { OpenWeek } from '../floor/open-calendar.js';
import type { OrderPlan } from '../floor/order-plan.js';
import { WAITING } from '../floor/slot-state.js';

/** What one week made, by route of the cell. */
export interface WeekMade {
  readonly good: readonly number[];
  readonly scrap: readonly number[];
  /** Put out after a longest wait was overrun. */
  readonly late: readonly number[];
  /** Good parts of all routes by shift of the open week, in order. */
  readonly goodByShift: readonly number[];
  /** The same by [shift * routes + route]. */
  readonly goodByShiftRoute: readonly number[];
  /** By shift: open seconds from its start to the last part put out in it. */
  readonly lastOutS: readonly number[];
  /** Robot handling, holding and travel, open seconds. */
  readonly busyS: number;
}

export interface SteadyWeek extends WeekMade {
  /** Good parts of all routes by shift of the open week, in order, of each week in the mean. */
  readonly goodByShiftOfWeeks: readonly (readonly number[])[];
  /** Holds of the last week, in order, on a clock from its Monday 00:00. */
  readonly holds: readonly FloorHold[];
  /** Parts inside when the last week ends. */
  readonly inside: number;
  /** True when the weeks repeat exactly; false when a mean of several stands in. */
  readonly repeats: boolean;
  /** Number of weeks in the mean. */
  readonly weeks: number;
  /** Who waits for whom, where the cell locks up. */
  readonly locked: boolean;
}

/** A job made ready, with its open week. */
export interface WeekRunner {
  readonly open: OpenWeek;
  readonly plan: OrderPlan | null;
  /** A new run from the empty cell. */
  readonly start: (changeovers: readonly ChangeoverRow[]) => WeekPlayer;
}

/** One run, week after week. */
export interface WeekPlayer {
  readonly next: () => WeekMade;
  readonly state: () => Float64Array;
  readonly holds: () => FloorHold[];
  readonly changeovers: () => readonly DoneChangeover[];
  readonly inside: () => number;
  readonly alive: () => boolean;
}

/** @param job with a calendar */
export function weekRunner(job: FloorJob): WeekRunner {
  const { compiled, setup } = floorSetup({ ...job, cell: withoutChance(job.cell) });
  const open = setup.calendar!;
  return {
    open,
    plan: setup.plan,
    start: (changeovers) => {
      const run = new FloorRun(compiled, { ...setup, changeovers, chance: false }, 0);
      let week = 0;
      let told = 0;
      return {
        next: () => nextWeek(run, open, week++),
        state: () => Float64Array.from([...floorState(run), ...countsLeft(run)]),
        holds: () => {
          const mondayS = (week - 1) * open.weekS;
          const fresh = run.floor.holds.over.slice(told);
          told = run.floor.holds.over.length;
          const never = open.operators.every((n) => n === 0) ? run.floor.holds.notOver() : [];
          return weekOf([...fresh, ...never], mondayS, open.weekS);
        },
        changeovers: () => run.floor.changeovers.done,
        inside: () => run.partsInside(),
        alive: () => run.alive,
      };
    },
  };
}

/** Counters on which what comes next depends. */
function countsLeft({ floor }: FloorRun): number[] {
  const dueIn = (dueS: number): number => (dueS === Number.POSITIVE_INFINITY ? -1 : dueS - floor.now);
  return [...floor.stops.count, ...[...floor.stops.dueAtS].map(dueIn), ...floor.racks.left].map((n) =>
    Number.isFinite(n) ? n : -1,
  );
}

function nextWeek(run: FloorRun, open: OpenWeek, week: number): WeekMade {
  const { floor, robot } = run;
  run.clear();
  const goodByShift: number[] = [];
  const goodByShiftRoute: number[] = [];
  const lastOutS: number[] = [];
  let before = floor.good.slice();
  let startS = week * open.openS;
  for (const endS of open.shiftEndsS) {
    run.to(run.momentOf(week * open.openS + endS));
    const made = floor.good.map((good, r) => good - before[r]!);
    goodByShiftRoute.push(...made);
    goodByShift.push(made.reduce((a, b) => a + b, 0));
    lastOutS.push(Math.max(0, floor.hours.openAt(floor.lastOutS) - startS));
    before = floor.good.slice();
    startS = week * open.openS + endS;
  }
  run.to((week + 1) * open.weekS);
  const busyS = robot.clock.time.reduce((sum, s, state) => sum + (state === WAITING ? 0 : s), 0);
  return {
    ...{ good: [...floor.good], scrap: [...floor.scrap], late: [...floor.late] },
    ...{ goodByShift, goodByShiftRoute, lastOutS, busyS },
  };
}

/** @param mostWeeks weeks to run at most, 2 or more */
export function steadyWeek(runner: WeekRunner, mostWeeks = 9): SteadyWeek {
  const player = runner.start([]);
  const states: Float64Array[] = [];
  const made: WeekMade[] = [];
  let holds: FloorHold[] = [];
  let first = 1;
  let repeats = false;
  while (made.length < mostWeeks && !repeats) {
    made.push(player.next());
    holds = player.holds();
    const state = player.state();
    const like = states.findIndex((s) => isAlike(s, state));
    states.push(state);
    if (like >= 0) {
      repeats = true;
      first = like + 1;
    }
  }
  const counted = made.slice(first);
  return {
    ...meanWeek(counted),
    goodByShiftOfWeeks: counted.map((w) => w.goodByShift),
    holds,
    inside: player.inside(),
    repeats,
    weeks: counted.length,
    locked: !player.alive(),
  };
}

export function meanWeek(weeks: readonly WeekMade[]): WeekMade {
  const mean = (of: (w: WeekMade) => readonly number[]): number[] =>
    of(weeks[0]!).map((_, i) => weeks.reduce((sum, w) => sum + of(w)[i]!, 0) / weeks.length);
  return {
    good: mean((w) => w.good),
    scrap: mean((w) => w.scrap),
    late: mean((w) => w.late),
    goodByShift: mean((w) => w.goodByShift),
    goodByShiftRoute: mean((w) => w.goodByShiftRoute),
    lastOutS: mean((w) => w.lastOutS),
    busyS: weeks.reduce((sum, w) => sum + w.busyS, 0) / weeks.length,
  };
}

/**
 * Holds on a clock from the Monday of their week. One over the weekend counts with the week in which it ends: it is
 * folded back to the day on which it began.
 */
function weekOf(holds: readonly FloorHold[], mondayS: number, weekS: number): FloorHold[] {
  return holds
    .map((h) => {
      const byS = mondayS - (h.fromS < mondayS ? weekS : 0);
      return { ...h, fromS: h.fromS - byS, untilS: h.untilS - byS };
    })
    .sort((a, b) => a.fromS - b.fromS);
}
