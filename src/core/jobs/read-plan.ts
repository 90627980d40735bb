/** Turns the solver's numbers into the plan's jobs, set-ups, runs and hours. */

import { valueAt } from '../lp/terms.js';
import { goodVar, type HourRow, type JobFrame, legVar, partTerms } from './job-frame.js';
import type { PlannedJob, PlannedResource, PlannedRun, PlannedSetup } from './job-plan.js';
import { type JobProblem, setupPeopleH } from './job-problem.js';
import { NOTHING } from './job-program.js';
import type { At } from './made-amounts.js';
import { segmentsOf, type WeekLayout } from './week-layout.js';

/** Less than this of a part is rounding. */
export const ROUNDING = 1e-3;

/** Whole good parts: a part counts in the stretch in which it is finished. */
export function jobsMade(problem: JobProblem, at: At): PlannedJob[] {
  return problem.jobs.map((job, j) => {
    const amounts = problem.slots.map((_, t) => at[goodVar(t, j)] ?? 0);
    const made = wholeSteps(amounts, (sum) => Math.floor(sum + ROUNDING)).flatMap((parts, stretch) =>
      parts > 0 ? [{ stretch, parts }] : [],
    );
    const count = (shares: typeof made): number => shares.reduce((sum, share) => sum + share.parts, 0);
    const inTime = count(made.filter((share) => problem.slots[share.stretch]!.endS <= job.dueMin * 60));
    return {
      job: job.job,
      part: job.part,
      quantity: job.quantity,
      dueMin: job.dueMin,
      notBeforeMin: job.notBeforeMin,
      made,
      inTime,
      lateParts: job.quantity - inTime,
      notMade: job.quantity - count(made),
      inTimeAlone: null,
      reason: null,
    };
  });
}

/** Steps of a running sum in whole numbers. */
function wholeSteps(amounts: readonly number[], whole: (sum: number) => number): number[] {
  let sum = 0;
  let before = 0;
  return amounts.map((amount) => {
    sum += amount;
    const now = whole(sum);
    const step = now - before;
    before = now;
    return step;
  });
}

/** Set-ups in the order in which they begin. */
export function setupsMade({ machines }: JobProblem, layout: WeekLayout): PlannedSetup[] {
  return [...layout]
    .sort((a, b) => a.slot - b.slot || a.startS - b.startS || a.m - b.m)
    .map(({ slot, m, from, to, startS, standsFromS, endS }) => {
      const machine = machines[m]!;
      return {
        stretch: slot,
        station: machine.station,
        from: from === NOTHING ? null : machine.parts[from]!,
        to: machine.parts[to]!,
        minutes: machine.minutes[from + 1]![to]!,
        startS,
        endS,
        standsMin: (endS - standsFromS) / 60,
        people: machine.people,
        way: machine.way,
      };
    });
}

/** Parts begun at each machine by window, in the order in which it is set up for them. */
export function runsMade(problem: JobProblem, frame: JobFrame, layout: WeekLayout, at: At): PlannedRun[] {
  const { legs } = frame;
  const firstAt = new Map<string, number>();
  for (const { slot, m, p, startS } of segmentsOf(problem, layout)) {
    const key = `${slot} ${m} ${p}`;
    if (!firstAt.has(key)) firstAt.set(key, startS);
  }
  const runs = problem.machines.flatMap((machine, m) => {
    const hours = new Map(
      frame.hours.filter((row) => row.resource === machine.station).map((row) => [row.slot, row] as const),
    );
    return machine.parts.flatMap((part, p) => {
      const route = problem.cell.routes.findIndex((r) => r.part === part);
      const into = legs.flatMap((leg, l) => (leg.to === machine.station && leg.route === route ? [l] : []));
      const amounts = problem.slots.map((_, t) => into.reduce((sum, l) => sum + (at[legVar(t, l)] ?? 0), 0));
      return wholeSteps(amounts, (sum) => Math.ceil(sum - ROUNDING)).flatMap((parts, stretch) => {
        if (parts <= 0) return [];
        const row = hours.get(stretch);
        const machineH = row === undefined ? 0 : valueAt(partTerms(legs, row, route), at);
        const place = firstAt.get(`${stretch} ${m} ${p}`) ?? 0;
        return [{ m, place, run: { stretch, station: machine.station, part, parts, machineH } }];
      });
    });
  });
  return runs
    .sort((a, b) => a.run.stretch - b.run.stretch || a.m - b.m || a.place - b.place)
    .map(({ run }) => run);
}

/** Hours of a resource that are used in a window: by parts, and while it is stopped for set-ups. */
export function usedHours(problem: JobProblem, layout: WeekLayout, row: HourRow, at: At): number {
  const counts = (m: number): boolean =>
    problem.machines[m]!.station === row.resource || (row.resource === 'robot' && problem.robotStands);
  const stoppedH = layout
    .filter((s) => s.slot === row.slot && counts(s.m))
    .reduce((sum, s) => sum + (s.endS - s.standsFromS) / 3600, 0);
  return valueAt(row.terms, at) + stoppedH * row.perClockH;
}

/** Hours used over the week: stations and robot by window, people over all. */
export function resourcesUsed(
  problem: JobProblem,
  frame: JobFrame,
  layout: WeekLayout,
  at: At,
): PlannedResource[] {
  const names = [...new Set(frame.hours.map((row) => row.resource))];
  const ofHours = names.map((resource) => {
    const rows = frame.hours.filter((row) => row.resource === resource);
    return resourceOf(
      resource,
      rows.reduce((sum, row) => sum + usedHours(problem, layout, row, at), 0),
      rows.reduce((sum, row) => sum + row.most, 0),
    );
  });
  const { terms, most } = frame.operatorWeek;
  const setupH = layout.reduce((sum, setup) => sum + setupPeopleH(problem, setup), 0);
  const isManned = problem.slots.some((slot) => slot.operatorH > 0);
  return isManned ? [...ofHours, resourceOf('operators', valueAt(terms, at) + setupH, most)] : ofHours;
}

function resourceOf(resource: string, usedH: number, availableH: number): PlannedResource {
  const usedPct = availableH > 0 ? (100 * usedH) / availableH : 0;
  return { resource, usedH, availableH, usedPct };
}
