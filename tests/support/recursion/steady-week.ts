/**
 * The week that a pattern settles into: week after week is run from where the one before ended, until a week ends as
 * an earlier one did; then the weeks between the two are the whole truth and their mean is taken. Where none repeats
 * within the limit, the mean of all weeks after the first is taken and said to be one.
 */
import type { OrderPlan } from './order-plan.js';
import { type RunConditions, type RunTally, runOrder, type Standstill } from './run-order.js';
import { alikeStates, emptyRunState, partsInside, type RunState } from './run-state.js';

export interface SteadyWeek {
  /** By part of the plan, a week: put out well, and put out with a longest wait overrun. */
  readonly out: readonly number[];
  readonly overrun: readonly number[];
  readonly outByShift: readonly number[];
  readonly busyS: number;
  /** Standstills of a week, in order, on a clock from a Monday 00:00. */
  readonly standstills: readonly Standstill[];
  /** Parts inside when the last week ends. */
  readonly inside: number;
  /** True when the weeks repeat exactly; false when a mean of several stands in. */
  readonly repeats: boolean;
  /** Number of weeks in the mean. */
  readonly weeks: number;
  /** Where the last week ended, and how many weeks were run. */
  readonly state: RunState;
  readonly weeksRun: number;
  /** The weeks that repeat from there on, in order; null where none does. */
  readonly cycle: readonly RunTally[] | null;
}

/**
 * @param shifts number of shifts in the calendar
 * @param mostWeeks weeks to run at most, 2 or more
 */
export function steadyWeek(
  plan: OrderPlan,
  conditions: RunConditions,
  shifts: number,
  mostWeeks = 9,
): SteadyWeek {
  const { weekS } = conditions.clock;
  let state = emptyRunState(plan, conditions.racks, conditions.stops.length);
  const states: RunState[] = [];
  const tallies: RunTally[] = [];
  const slackS = memoryS(plan, weekS);
  let first = 1;
  let repeats = false;
  for (let week = 1; week <= mostWeeks && !repeats; week++) {
    const run = runOrder(plan, conditions, week * weekS, shifts, state);
    state = run.state;
    const like = states.findIndex((s, i) =>
      alikeStates(s, (i + 1) * weekS, state, week * weekS, plan, slackS),
    );
    states.push(state);
    tallies.push(run.tally);
    if (like >= 0) {
      repeats = true;
      first = like + 1;
    }
  }
  return {
    ...meanWeek(tallies.slice(first)),
    standstills: weekOf(tallies.at(-1)!.standstills, (tallies.length - 1) * weekS, weekS),
    inside: partsInside(state),
    repeats,
    state,
    weeksRun: tallies.length,
    cycle: repeats ? tallies.slice(first) : null,
  };
}

/** How long after its end an event can still hold up another. */
function memoryS(plan: OrderPlan, weekS: number): number {
  const finite = (s: number): number => (Number.isFinite(s) ? s : 0);
  const longest = plan.links.flat().map((l) => l.processS + finite(l.maxWaitS));
  return Math.max(0, ...longest, ...plan.feederS, ...(plan.gapS ?? []), ...(plan.slowGapS ?? [])) + weekS / 7;
}

function meanWeek(
  tallies: readonly RunTally[],
): Pick<SteadyWeek, 'out' | 'overrun' | 'outByShift' | 'busyS' | 'weeks'> {
  const mean = (of: (t: RunTally) => Float64Array): number[] =>
    Array.from(of(tallies[0]!), (_, i) => tallies.reduce((sum, t) => sum + of(t)[i]!, 0) / tallies.length);
  return {
    out: mean((t) => t.out),
    overrun: mean((t) => t.overrun),
    outByShift: mean((t) => t.outByShift),
    busyS: tallies.reduce((sum, t) => sum + t.busyS, 0) / tallies.length,
    weeks: tallies.length,
  };
}

/**
 * Standstills that a week's run tells, on a clock from its Monday. One over the weekend is told by the week in which it
 * ends: it is folded back to the day on which it began.
 *
 * @param mondayS the week's Monday 00:00 on the clock of the run
 */
export function weekOf(standstills: readonly Standstill[], mondayS: number, weekS: number): Standstill[] {
  return standstills
    .map((s) => {
      const byS = mondayS - (s.fromS < mondayS ? weekS : 0);
      return { ...s, fromS: s.fromS - byS, untilS: s.untilS - byS };
    })
    .sort((a, b) => a.fromS - b.fromS);
}
