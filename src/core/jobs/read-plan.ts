/** Turns the solver's numbers into the plan's jobs, set-ups, runs and hours. */

import type { PlannedJob, PlannedResource, PlannedRun, PlannedSetup } from './job-plan.js';
import type { JobMachine, JobProblem } from './job-problem.js';
import { goodVar, type JobProgram, legVar, NOTHING, setupVar, startVar, type Terms } from './job-program.js';

type At = Readonly<Record<string, number>>;

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

/** Set-ups in the order in which they are made. */
export function setupsMade(problem: JobProblem, at: At): PlannedSetup[] {
  return problem.slots.flatMap((_, stretch) =>
    problem.machines.flatMap((machine, m) =>
      walkOf(machine, m, stretch, at).map(({ from, to }) => {
        const minutes = machine.minutes[from + 1]![to]!;
        return {
          stretch,
          station: machine.station,
          from: from === NOTHING ? null : machine.parts[from]!,
          to: machine.parts[to]!,
          minutes,
          standsMin: minutes * machine.internalShare,
          people: machine.people,
          way: machine.way,
        };
      }),
    ),
  );
}

interface Hop {
  readonly from: number;
  readonly to: number;
}

/** The set-ups of a machine in a stretch as one walk; where the walk could go round, the round comes first. */
function walkOf(machine: JobMachine, m: number, stretch: number, at: At): Hop[] {
  const places = [NOTHING, ...machine.parts.keys()];
  const left = places.flatMap((from) =>
    [...machine.parts.keys()]
      .filter((to) => (at[setupVar(stretch, m, from, to)] ?? 0) > 0.5)
      .map((to) => ({ from, to })),
  );
  const start = places.find((p) => (at[startVar(stretch, m, p)] ?? 0) > 0.5) ?? NOTHING;
  return trail(start, left) ?? left;
}

/** An order of all hops in which each begins where the one before ends; null where there is none. */
function trail(from: number, left: readonly Hop[]): Hop[] | null {
  if (left.length === 0) return [];
  for (const hop of left) {
    if (hop.from !== from) continue;
    const rest = trail(
      hop.to,
      left.filter((other) => other !== hop),
    );
    if (rest) return [hop, ...rest];
  }
  return null;
}

/** Parts begun at each machine by stretch, in the order of its walk. */
export function runsMade(problem: JobProblem, program: JobProgram, at: At): PlannedRun[] {
  const { legs } = program;
  const runs = problem.machines.flatMap((machine, m) =>
    machine.parts.flatMap((part, p) => {
      const into = legs.flatMap((leg, l) =>
        leg.to === machine.station && problem.cell.routes[leg.route]!.part === part ? [l] : [],
      );
      const amounts = problem.slots.map((_, t) => into.reduce((sum, l) => sum + (at[legVar(t, l)] ?? 0), 0));
      return wholeSteps(amounts, (sum) => Math.ceil(sum - ROUNDING)).flatMap((parts, stretch) =>
        parts > 0
          ? [
              {
                ...{ stretch, station: machine.station, part, parts },
                machineH: machineHours(problem, program, { stretch, station: machine.station, part }, at),
                place: placeOf(machine, m, p, stretch, at),
              },
            ]
          : [],
      );
    }),
  );
  const order = new Map(problem.machines.map((machine, m) => [machine.station, m]));
  return runs
    .sort(
      (a, b) => a.stretch - b.stretch || order.get(a.station)! - order.get(b.station)! || a.place - b.place,
    )
    .map(({ place: _place, ...run }) => run);
}

function machineHours(
  problem: JobProblem,
  { hours, legs }: JobProgram,
  { stretch, station, part }: Pick<PlannedRun, 'stretch' | 'station' | 'part'>,
  at: At,
): number {
  const row = hours.find(({ slot, resource }) => slot === stretch && resource === station);
  return legs.reduce((sum, leg, l) => {
    const name = legVar(stretch, l);
    const isOfPart = problem.cell.routes[leg.route]!.part === part;
    return isOfPart ? sum + (row?.terms[name] ?? 0) * (at[name] ?? 0) : sum;
  }, 0);
}

function placeOf(machine: JobMachine, m: number, p: number, stretch: number, at: At): number {
  if ((at[startVar(stretch, m, p)] ?? 0) > 0.5) return 0;
  return 1 + walkOf(machine, m, stretch, at).findIndex((hop) => hop.to === p);
}

/** Hours used over the week: stations and robot by stretch, people over all. */
export function resourcesUsed(program: JobProgram, at: At, problem: JobProblem): PlannedResource[] {
  const names = [...new Set(program.hours.map((row) => row.resource))];
  const ofHours = names.map((resource) => {
    const rows = program.hours.filter((row) => row.resource === resource);
    return resourceOf(
      resource,
      rows.reduce((sum, row) => sum + useOf(row.terms, at), 0),
      rows.reduce((sum, row) => sum + row.most!, 0),
    );
  });
  const { terms, most } = program.operatorWeek;
  const isManned = problem.slots.some((slot) => slot.operatorH > 0);
  return isManned ? [...ofHours, resourceOf('operators', useOf(terms, at), most!)] : ofHours;
}

function resourceOf(resource: string, usedH: number, availableH: number): PlannedResource {
  const usedPct = availableH > 0 ? (100 * usedH) / availableH : 0;
  return { resource, usedH, availableH, usedPct };
}

/** What the terms of a row come to. */
export function useOf(terms: Readonly<Terms>, at: At): number {
  return Object.entries(terms).reduce((sum, [name, by]) => sum + by * (at[name] ?? 0), 0);
}
