/** The jobs of a week, the stretches in which they can be made and the set-ups between them, as one problem. */

import { unasked } from '../calendar/asked-amounts.js';
import type { SetupWay, WayMinutes } from '../cost/way-minutes.js';
import type { Cell, Job } from '../model/cell.js';
import { setupTable } from '../model/setup-minutes.js';
import { WEEK_MIN } from '../model/week-minutes.js';
import { type WeekSlot, weekSlots } from './week-slots.js';

export interface JobOptions {
  readonly pattern: string;
  /** By machine; none named: left out, 0 minutes. */
  readonly ways: Readonly<Record<string, WayMinutes>>;
  /** Part that a machine is set up for when the week begins; none named: a set-up is needed. */
  readonly setUpFor: Readonly<Record<string, string>>;
  /** Share of the hours of machines and robot that the plan counts on, above 0 and up to 100; default 100. */
  readonly hoursPct?: number;
  /** True where the robot stands while a machine is set up; default false. */
  readonly robotStands?: boolean;
}

/** A machine with the parts that may be set up on it. */
export interface JobMachine {
  readonly station: string;
  readonly parts: readonly string[];
  /** Index into `parts` of what it is set up for at the beginning; -1 = nothing. */
  readonly first: number;
  /** Share of a set-up in which it stands, 0 to 1. */
  readonly internalShare: number;
  readonly people: number;
  readonly way: SetupWay;
  /** minutes[from + 1][to]: a set-up, its way included; from -1 = nothing set up yet. */
  readonly minutes: readonly (readonly number[])[];
}

export interface JobProblem {
  /** The cell with the routes of the wanted parts only, and without ratios, demands and yearly changeovers. */
  readonly cell: Cell;
  readonly pattern: string;
  readonly jobs: readonly Job[];
  readonly slots: readonly WeekSlot[];
  readonly machines: readonly JobMachine[];
  /** Share of the hours that counts, 0 to 1. */
  readonly hoursShare: number;
  readonly robotStands: boolean;
}

export function jobProblem(cell: Cell, options: JobOptions): JobProblem {
  const wanted = new Set(cell.jobs.map((job) => job.part));
  const plain: Cell = {
    ...cell,
    routes: cell.routes.filter((route) => wanted.has(route.part)),
    parts: cell.parts.map((part) => ({ ...unasked(part), ratio: null })),
    changeovers: [],
  };
  const cuts = cell.jobs.flatMap((job) => [job.dueMin, job.notBeforeMin]).filter((min) => min < WEEK_MIN);
  return {
    cell: plain,
    pattern: options.pattern,
    jobs: cell.jobs,
    slots: weekSlots(cell.shifts, options.pattern, [...new Set(cuts.map((min) => min * 60))]),
    machines: machinesOf(cell, plain, options),
    hoursShare: (options.hoursPct ?? 100) / 100,
    robotStands: options.robotStands ?? false,
  };
}

/** The same week with one of its jobs alone. */
export function onlyJob(problem: JobProblem, j: number): JobProblem {
  const job = problem.jobs[j]!;
  return {
    ...problem,
    cell: { ...problem.cell, routes: problem.cell.routes.filter((route) => route.part === job.part) },
    jobs: [job],
    machines: problem.machines.flatMap((machine) => {
      const p = machine.parts.indexOf(job.part);
      if (p < 0) return [];
      const isSet = machine.first === p;
      // From whatever it is set up for: as from nothing, in the minutes of that set-up.
      const from = machine.first + 1;
      return [
        {
          ...machine,
          parts: [job.part],
          first: isSet ? 0 : -1,
          minutes: [[machine.minutes[from]![p]!], [0]],
        },
      ];
    }),
  };
}

function machinesOf(cell: Cell, plain: Cell, options: JobOptions): JobMachine[] {
  return cell.stations.flatMap((station) => {
    if (station.kind !== 'machine') return [];
    const parts = plain.routes
      .filter((route) => route.steps.some((step) => step.stations.includes(station.name)))
      .map((route) => route.part);
    if (parts.length === 0) return [];
    const row = cell.changeovers.find((c) => c.station === station.name);
    const way = options.ways[station.name] ?? { way: 'left out', minutes: 0 };
    return [
      {
        station: station.name,
        parts,
        first: parts.indexOf(options.setUpFor[station.name] ?? ''),
        internalShare: (row?.internalPct ?? 100) / 100,
        people: row?.people ?? 1,
        way: way.way,
        minutes: setupMinutes(cell, station.name, parts, row?.minutesOther ?? 0, way.minutes),
      },
    ];
  });
}

/** setups.csv where it has the pair, else the job's own minutes, else those of changeovers.csv; the way comes on top. */
function setupMinutes(
  cell: Cell,
  station: string,
  parts: readonly string[],
  otherMin: number,
  wayMin: number,
): number[][] {
  const table = setupTable(cell.setups, station);
  const minutes = (from: string | null, to: string): number => {
    const [a, b] = [from === null ? -1 : table.jobs.indexOf(from), table.jobs.indexOf(to)];
    const listed = a >= 0 && b >= 0 ? table.minutes[a]![b] : null;
    return listed ?? cell.jobs.find((job) => job.part === to)?.setupMin ?? otherMin;
  };
  return [null, ...parts].map((from) => parts.map((to) => (from === to ? 0 : minutes(from, to) + wayMin)));
}

/** Person-hours of one set-up; from -1 = nothing was set up. */
export function setupPeopleH(
  { machines }: JobProblem,
  { m, from, to }: { readonly m: number; readonly from: number; readonly to: number },
): number {
  const machine = machines[m]!;
  return (machine.people * machine.minutes[from + 1]![to]!) / 60;
}

/** Least minutes of a set-up onto a part, whatever was set up before; Infinity where there is none. */
export function leastMinutesOnto({ minutes }: JobMachine, to: number): number {
  return Math.min(...minutes.map((row) => row[to]!).filter((_, from) => from !== to + 1));
}

/** Steps of a part's route that a station can make. */
export function visitsOf({ cell }: JobProblem, part: string, station: string): number {
  const { steps } = cell.routes.find((route) => route.part === part)!;
  return steps.filter((step) => step.stations.includes(station)).length;
}
