/**
 * Checks a job plan from its own figures and the tables alone: nothing of the programs that found it is used. Parts are
 * whole in a plan and were not in the search, so every sum may be out by one part of each kind.
 */

import { weekCalendar } from '../calendar/week-calendar.js';
import type { Cell, Step } from '../model/cell.js';
import type { JobPlan, PlannedRun, PlannedSetup } from './job-plan.js';
import type { JobMachine, JobProblem } from './job-problem.js';

const HOURS_GIVE = 1e-6;
/** What the solver's own rounding may add to hours, as a share. */
const SHARE_GIVE = 1e-6;
/** Seconds; moments are worked out in steps. */
const MOMENT_S = 1e-3;
/** Twice what counts as a whole part, and some. */
const PARTS_GIVE = 0.01;

/** @returns what is wrong with the plan, in words; empty where it holds */
export function planFaults(problem: JobProblem, plan: JobPlan): string[] {
  return [
    ...jobFaults(problem, plan),
    ...problem.machines.flatMap((machine) => machineFaults(problem, plan, machine)),
    ...problem.slots.flatMap((_, t) => stretchFaults(problem, plan, t)),
    ...peopleFaults(problem, plan),
    ...problem.cell.routes.flatMap((route) => partFaults(problem, plan, route.part)),
    ...rackFaults(problem, plan),
    ...keptOutFaults(problem, plan),
    ...stopFaults(problem, plan),
  ];
}

function jobFaults({ jobs, slots }: JobProblem, plan: JobPlan): string[] {
  return plan.jobs.flatMap((planned, j) => {
    const job = jobs[j]!;
    const total = planned.made.reduce((sum, share) => sum + share.parts, 0);
    const inTime = planned.made
      .filter((share) => slots[share.stretch]!.endS <= job.dueMin * 60)
      .reduce((sum, share) => sum + share.parts, 0);
    const early = planned.made.some((share) => slots[share.stretch]!.startS < job.notBeforeMin * 60);
    return [
      ...(total + planned.notMade === job.quantity ? [] : [`the parts of ${job.job} do not add up`]),
      ...(inTime === planned.inTime && job.quantity - inTime === planned.lateParts
        ? []
        : [`the late parts of ${job.job} do not add up`]),
      ...(early ? [`${job.job} is made before its material is there`] : []),
    ];
  });
}

/**
 * The set-ups follow on each other and do not overlap, parts are made only while the machine is set up for them, and the
 * time between the set-ups suffices.
 */
function machineFaults(problem: JobProblem, plan: JobPlan, machine: JobMachine): string[] {
  const faults: string[] = [];
  const { station } = machine;
  let current = machine.parts[machine.first] ?? null;
  for (const [t, slot] of problem.slots.entries()) {
    const setups = plan.setups.filter((s) => s.stretch === t && s.station === station);
    const runs = plan.runs.filter((run) => run.stretch === t && run.station === station);
    const freeH = new Map<string | null, number>();
    let freeS = slot.startS;
    const runUntil = (untilS: number): void => {
      freeH.set(current, (freeH.get(current) ?? 0) + Math.max(0, untilS - freeS) / 3600);
    };
    for (const setup of setups) {
      const standsFromS = setup.endS - setup.standsMin * 60;
      if (setup.from !== current) faults.push(`the changeovers of ${station} do not follow on each other`);
      if (
        setup.startS < freeS - MOMENT_S ||
        standsFromS < setup.startS - MOMENT_S ||
        setup.endS > slot.endS + MOMENT_S
      )
        faults.push(`the changeovers of ${station} overlap or leave their time window`);
      runUntil(standsFromS);
      current = setup.to;
      freeS = setup.endS;
    }
    runUntil(slot.endS);
    for (const part of new Set(runs.map((run) => run.part))) {
      if (!freeH.has(part)) {
        faults.push(`${station} makes a part that it is not set up for`);
        continue;
      }
      const own = runs.filter((run) => run.part === part);
      const runH = own.reduce((sum, run) => sum + (run.parts - 1) * partH(problem.cell, run), 0);
      const countedH = own.reduce((sum, run) => sum + run.machineH, 0);
      if (runH > freeH.get(part)! + HOURS_GIVE) faults.push(`${station} has too little time`);
      if (countedH > (freeH.get(part)! * (1 + SHARE_GIVE) + HOURS_GIVE) * capacityOf(problem.cell, station))
        faults.push(`${station} is used for longer than it is set up for ${part}`);
    }
  }
  return faults;
}

/** At every moment the people are there whom the set-ups take, and each set-up gets the minutes that it needs. */
function peopleFaults({ cell, pattern }: JobProblem, plan: JobPlan): string[] {
  const calendar = weekCalendar(cell.shifts, pattern);
  const rows = cell.shifts.filter((shift) => shift.pattern === pattern);
  const there = calendar.segments.map((s) => ({
    ...s,
    people: s.operator ? Math.ceil(rows[calendar.shifts[s.shift]!.row]!.operators) : 0,
  }));
  const manned = plan.setups.filter((setup) => setup.people > 0);
  const workS = (setup: PlannedSetup): number =>
    there.reduce(
      (sum, s) =>
        s.people > 0
          ? sum + Math.max(0, Math.min(s.endS, setup.endS) - Math.max(s.startS, setup.startS))
          : sum,
      0,
    );
  // What is needed at a moment can only grow where a set-up begins.
  const tooMany = manned.filter(({ startS, endS }) => {
    const needed = manned
      .filter((o) => o.startS <= startS + MOMENT_S && o.endS > startS + 2 * MOMENT_S)
      .reduce((sum, o) => sum + o.people, 0);
    const people = there
      .filter((s) => s.endS > startS + MOMENT_S && s.startS < endS - MOMENT_S && s.people > 0)
      .map((s) => s.people);
    return endS > startS + 2 * MOMENT_S && needed > Math.max(0, Math.min(...people));
  });
  return [
    ...tooMany.map(
      (s) => `more people than are there set up machines when ${s.station} is set up for ${s.to}`,
    ),
    ...manned
      .filter((s) => workS(s) < s.minutes * 60 - MOMENT_S)
      .map((s) => `the changeover of ${s.station} to ${s.to} has too little time with somebody there`),
  ];
}

function stepsAt(cell: Cell, { station, part }: Pick<PlannedRun, 'station' | 'part'>): Step[] {
  const route = cell.routes.find((r) => r.part === part)!;
  return route.steps.filter((step) => step.stations.includes(station));
}

/** Least hours of one part at a machine. */
function partH(cell: Cell, run: PlannedRun): number {
  const station = cell.stations.find((s) => s.name === run.station)!;
  const each = stepsAt(cell, run).map(
    (step) => step.loadS + step.unloadS + station.closeS + step.cycleS + station.readyS,
  );
  return Math.min(...each) / capacityOf(cell, run.station) / 3600;
}

function capacityOf(cell: Cell, name: string): number {
  return cell.stations.find((s) => s.name === name)!.capacityParts ?? 1;
}

/** People and robot suffice in a stretch. */
function stretchFaults(problem: JobProblem, plan: JobPlan, t: number): string[] {
  const slot = problem.slots[t]!;
  const setups = plan.setups.filter((s) => s.stretch === t);
  const runs = plan.runs.filter((run) => run.stretch === t);
  const peopleH = setups.reduce((sum, s) => sum + s.minutes * s.people, 0) / 60;
  const handlingH = (run: PlannedRun): number =>
    Math.min(...stepsAt(problem.cell, run).map((step) => step.loadS + step.unloadS)) / 3600;
  const robotH = runs.reduce((sum, run) => sum + (run.parts - 1) * handlingH(run), 0);
  return [
    ...(peopleH > slot.operatorH + HOURS_GIVE ? ['people have too little time for the changeovers'] : []),
    ...(robotH > slot.openH + HOURS_GIVE ? ['the robot has too little time'] : []),
  ];
}

/** No more good parts come out than were begun. */
function partFaults(problem: JobProblem, plan: JobPlan, part: string): string[] {
  const { cell, slots } = problem;
  const machines = new Set(problem.machines.map((m) => m.station));
  const route = cell.routes.find((r) => r.part === part)!;
  const first = route.steps.find((step) => step.stations.some((name) => machines.has(name)));
  if (!first || first.everyParts > 1 || !first.stations.every((name) => machines.has(name))) return [];
  const share = (cell.parts.find((p) => p.part === part)?.yieldPct ?? 100) / 100;
  let begun = 0;
  let good = 0;
  for (const [t] of slots.entries()) {
    for (const run of plan.runs)
      if (run.stretch === t && run.part === part && first.stations.includes(run.station)) begun += run.parts;
    for (const job of plan.jobs)
      if (job.part === part)
        good += job.made.reduce((sum, made) => sum + (made.stretch === t ? made.parts : 0), 0);
    if (good > begun * share + PARTS_GIVE) return [`more good ${part} come out than were begun`];
  }
  return [];
}

/** Where nobody is there, no more parts are taken than a rack holds. */
function rackFaults({ cell, slots }: JobProblem, plan: JobPlan): string[] {
  return cell.stations.flatMap((rack) => {
    const isRack = rack.kind === 'infeed' || rack.kind === 'outfeed';
    if (!isRack || rack.capacityParts === null) return [];
    const parts = new Set(
      cell.routes
        .filter((route) => {
          const end = rack.kind === 'infeed' ? route.steps[0]! : route.steps.at(-1)!;
          return end.stations.length === 1 && end.stations[0] === rack.name;
        })
        .map((route) => route.part),
    );
    const jobs = plan.jobs.filter((job) => parts.has(job.part));
    let taken = 0;
    return slots.flatMap((slot, t) => {
      if (slot.attendedH > 0) {
        taken = 0;
        return [];
      }
      for (const job of jobs)
        taken += job.made.reduce((sum, made) => sum + (made.stretch === t ? made.parts : 0), 0);
      return taken > rack.capacityParts! + jobs.length ? [`${rack.name} does not hold so many parts`] : [];
    });
  });
}

/** What is taken in only while people are there is not made while nobody is. */
function keptOutFaults({ cell, slots }: JobProblem, plan: JobPlan): string[] {
  return cell.parts
    .filter((p) => p.unattended === false)
    .flatMap(({ part }) =>
      plan.runs.some((run) => run.part === part && slots[run.stretch]!.attendedH === 0)
        ? [`${part} is made while nobody is there`]
        : [],
    );
}

/**
 * A machine makes no more parts while nobody is there than bring its next stop that waits for somebody. Counted part by part
 * from the beginning of the week: each count since the last stop that is possible, as a stop may be made early or not.
 */
function stopFaults({ cell, slots, machines }: JobProblem, plan: JobPlan): string[] {
  return cell.stops.flatMap(({ station, name, operator, everyParts, earlyParts = 0 }) => {
    const machine = machines.find((m) => m.station === station);
    if (!operator || everyParts === null || machine === undefined) return [];
    // Parts are rounded up in the week so far, each kind at the machine once.
    const most = capacityOf(cell, station) * (everyParts - 1) + 2 * machine.parts.length;
    let counts = [0];
    const faults: string[] = [];
    for (const [t, { attendedH }] of slots.entries()) {
      const isAlone = attendedH === 0;
      const wasAlone = t > 0 && slots[t - 1]!.attendedH === 0;
      if (isAlone && !wasAlone && counts.some((count) => everyParts - count <= earlyParts)) counts.push(0);
      const made = plan.runs
        .filter((run) => run.stretch === t && run.station === station)
        .reduce((sum, run) => sum + run.parts, 0);
      counts = counts.map((count) => (isAlone ? count + made : (count + made) % everyParts));
      if (isAlone) counts = counts.filter((count) => count <= most);
      if (counts.length > 0) continue;
      faults.push(`"${name}" would have stopped ${station} before so many parts`);
      counts = [0];
    }
    return faults;
  });
}
