/**
 * The job plan as a mixed-integer program. In every stretch of the week: parts on each leg of their routes and empty
 * trips of the robot (continuous), and at every machine the walk from the part that it is set up for, over set-ups, to
 * the part that it is set up for when the stretch ends (0 or 1). A part is made only where its machine is set up for it.
 *
 * Walks are flows through the parts of a machine. A round of set-ups apart from the walk would pass as a flow; where an
 * answer has one, `apartRows` forbids it and the program is solved again.
 */
import type { LinearProgram, LinearRow } from '../lp/solve-linear-program.js';
import { goodShare, type MixProgram, mixProgram, operatorNeed } from '../mix/mix-program.js';
import type { Leg } from '../schedule/legs.js';
import type { JobMachine, JobProblem } from './job-problem.js';
import type { WeekSlot } from './week-slots.js';

export type Terms = Record<string, number>;

export interface JobProgram {
  readonly rows: readonly LinearRow[];
  readonly whole: readonly string[];
  readonly legs: readonly Leg[];
  /** Parts of jobs that are made after they are due, or not at all. */
  readonly late: Readonly<Terms>;
  /** Parts of jobs that are not made in the week. */
  readonly missing: Readonly<Terms>;
  readonly setupMin: Readonly<Terms>;
  /** Good parts by the number of the stretch, so that less means earlier. */
  readonly when: Readonly<Terms>;
  /** The hours of a resource in a stretch: a machine, bench or buffer, or the robot. */
  readonly hours: readonly (LinearRow & { readonly slot: number; readonly resource: string })[];
  /** Hours of people: in a stretch for set-ups, over the week for everything. */
  readonly operatorWeek: LinearRow;
}

/** Names of the variables. `m` and `p` are places in the problem's machines and their parts. */
export const legVar = (slot: number, leg: number): string => `${slot} leg${leg}`;
export const startVar = (slot: number, m: number, p: number): string => `${slot} start ${m} ${p}`;
export const setupVar = (slot: number, m: number, from: number, to: number): string =>
  `${slot} setup ${m} ${from} ${to}`;
export const goodVar = (slot: number, job: number): string => `${slot} good ${job}`;
export const missVar = (job: number): string => `miss ${job}`;

/** A machine with nothing set up. */
export const NOTHING = -1;

export function jobProgram(problem: JobProblem): JobProgram {
  const mixes = problem.slots.map((slot) => slotMix(problem, slot));
  const legs = mixes[0]?.legs ?? [];
  const setupMin: Terms = {};
  const hours = problem.slots.flatMap((_, t) => hourRows(problem, mixes[t]!, t));
  const walks = problem.machines.flatMap((machine, m) => walkRows(problem, machine, m));
  for (const { slot, m, from, to } of setupsOf(problem))
    setupMin[setupVar(slot, m, from, to)] = problem.machines[m]!.minutes[from + 1]![to]!;
  const operatorWeek = operatorWeekRow(problem, legs);
  const rows = [
    ...hours,
    ...mixes.flatMap((mix, t) => flowRowsOf(mix, t)),
    ...walks,
    ...problem.slots.flatMap((slot, t) => [
      ...linkRows(problem, legs, t, mixes[t]!),
      ...operatorSlotRows(problem, slot, t),
      ...goodRows(problem, legs, t),
    ]),
    ...rackRows(problem, legs),
    ...jobRows(problem),
    operatorWeek,
  ].filter((row) => Object.keys(row.terms).length > 0);
  return {
    rows,
    whole: [...new Set(walks.flatMap((row) => Object.keys(row.terms)))],
    legs,
    late: lateTerms(problem),
    missing: Object.fromEntries(problem.jobs.map((_, j) => [missVar(j), 1])),
    setupMin,
    when: Object.fromEntries(goodPlaces(problem).map(({ slot, job }) => [goodVar(slot, job), slot])),
    hours,
    operatorWeek,
  };
}

/** The program that makes least of a goal, with what earlier goals have reached held fast. */
export function leastOf(
  program: JobProgram,
  goal: Readonly<Terms>,
  held: readonly LinearRow[],
): LinearProgram {
  return { sense: 'least', objective: goal, rows: [...program.rows, ...held], whole: program.whole };
}

function slotMix({ cell, hoursShare }: JobProblem, slot: WeekSlot): MixProgram {
  const openH = slot.openH * hoursShare;
  return mixProgram({
    cell,
    hours: { openH, attendedH: slot.attendedH * hoursShare, operatorH: null },
    demand: new Map(),
    value: () => 0,
    goal: 'value',
  });
}

function named(terms: Readonly<Terms>, slot: number): Terms {
  return Object.fromEntries(Object.entries(terms).map(([name, value]) => [`${slot} ${name}`, value]));
}

/** Hours of stations and robot in a stretch, set-ups included. */
function hourRows(problem: JobProblem, mix: MixProgram, slot: number): JobProgram['hours'] {
  return mix.resources.map((row) => {
    const terms = named(row.terms, slot);
    for (const s of setupsOf(problem, slot)) {
      const machine = problem.machines[s.m]!;
      const counts = row.name === machine.station || (row.name === 'robot' && problem.robotStands);
      if (counts) terms[setupVar(slot, s.m, s.from, s.to)] = standsH(machine, s);
    }
    return { name: `${row.name} in stretch ${slot}`, terms, most: row.most!, slot, resource: row.name };
  });
}

/** What the mix says of parts in and out at the stations and of the robot's ways. */
function flowRowsOf({ program, resources }: MixProgram, slot: number): LinearRow[] {
  return program.rows
    .filter((row) => !resources.includes(row))
    .map((row) => ({ ...row, name: `${slot} ${row.name}`, terms: named(row.terms, slot) }));
}

interface SetupPlace {
  readonly slot: number;
  readonly m: number;
  readonly from: number;
  readonly to: number;
}

/** Every set-up that could be made: in stretches with somebody there, where people are needed for it. */
function setupsOf({ slots, machines }: JobProblem, only?: number): SetupPlace[] {
  return slots.flatMap((slot, t) =>
    only !== undefined && t !== only
      ? []
      : machines.flatMap((machine, m) =>
          machine.people > 0 && slot.operatorH === 0
            ? []
            : machine.parts.flatMap((_, to) =>
                [NOTHING, ...machine.parts.keys()]
                  .filter((from) => from !== to && (from !== NOTHING || machine.first === NOTHING))
                  .map((from) => ({ slot: t, m, from, to })),
              ),
        ),
  );
}

function states(machine: JobMachine): number[] {
  return machine.first === NOTHING ? [NOTHING, ...machine.parts.keys()] : [...machine.parts.keys()];
}

/** What a machine is set up for from stretch to stretch. */
function walkRows(problem: JobProblem, machine: JobMachine, m: number): LinearRow[] {
  const rows: LinearRow[] = [];
  const all = states(machine);
  const exactly = (name: string, terms: Terms, value: number) =>
    rows.push({ name, terms, least: value, most: value });
  for (const p of all)
    exactly(`${machine.station} at first`, { [startVar(0, m, p)]: 1 }, p === machine.first ? 1 : 0);
  for (const [t] of problem.slots.entries()) {
    exactly(
      `${machine.station} is set up for one part`,
      Object.fromEntries(all.map((p) => [startVar(t + 1, m, p), 1])),
      1,
    );
    const setups = setupsOf(problem, t).filter((s) => s.m === m);
    for (const p of all) {
      const terms: Terms = { [startVar(t, m, p)]: 1, [startVar(t + 1, m, p)]: -1 };
      for (const s of setups) {
        if (s.to === p) terms[setupVar(t, m, s.from, s.to)] = 1;
        if (s.from === p) terms[setupVar(t, m, s.from, s.to)] = -1;
      }
      exactly(`walk of ${machine.station}`, terms, 0);
      const into = setups.filter((s) => s.to === p);
      if (into.length > 0)
        rows.push({
          name: `${machine.station} is set up once a stretch`,
          terms: Object.fromEntries(into.map((s) => [setupVar(t, m, s.from, s.to), 1])),
          most: 1,
        });
    }
  }
  return rows;
}

/** A part is made only in a stretch in which its machine is set up for it, or was when it began. */
function linkRows(problem: JobProblem, legs: readonly Leg[], t: number, mix: MixProgram): LinearRow[] {
  const setups = setupsOf(problem, t);
  return problem.machines.flatMap((machine, m) => {
    const hours = mix.resources.find((row) => row.name === machine.station);
    return machine.parts.map((part, p) => {
      const here = legs.flatMap((leg, l) =>
        leg.to === machine.station && problem.cell.routes[leg.route]!.part === part ? [l] : [],
      );
      const terms: Terms = Object.fromEntries(here.map((l) => [legVar(t, l), 1]));
      const eachH = Math.min(...here.map((l) => hours?.terms[`leg${l}`] ?? 0));
      const wanted = visitsOf(problem, part, machine.station) * startsWanted(problem, part);
      const mostIn = (openH: number): number => (eachH > 0 ? Math.min(wanted, openH / eachH) : wanted);
      const openH = hours?.most ?? 0;
      terms[startVar(t, m, p)] = -mostIn(openH);
      for (const s of setups)
        if (s.m === m && s.to === p)
          terms[setupVar(t, m, s.from, s.to)] = -mostIn(Math.max(0, openH - standsH(machine, s)));
      return { name: `${part} needs its set-up at ${machine.station}`, terms, most: 0 };
    });
  });
}

/** Hours in which a machine stands for a set-up. */
function standsH(machine: JobMachine, { from, to }: Pick<SetupPlace, 'from' | 'to'>): number {
  return (machine.minutes[from + 1]![to]! / 60) * machine.internalShare;
}

function visitsOf(problem: JobProblem, part: string, station: string): number {
  const { steps } = problem.cell.routes.find((route) => route.part === part)!;
  return steps.filter((step) => step.stations.includes(station)).length;
}

/** Parts that must be started for all jobs of a part. */
function startsWanted({ jobs, cell }: JobProblem, part: string): number {
  const good = goodShare(cell, part);
  const wanted = jobs.filter((job) => job.part === part).reduce((sum, job) => sum + job.quantity, 0);
  return good > 0 ? wanted / good : 0;
}

function setupPeopleH(problem: JobProblem, { m, from, to }: SetupPlace): number {
  const machine = problem.machines[m]!;
  return (machine.minutes[from + 1]![to]! / 60) * machine.people;
}

/** People and the clock: the set-ups of a stretch fit into the hours in which somebody is there. */
function operatorSlotRows(problem: JobProblem, slot: WeekSlot, t: number): LinearRow[] {
  const setups = setupsOf(problem, t);
  const peopleH: Terms = {};
  const elapsed = problem.machines.map((): Terms => ({}));
  for (const s of setups) {
    const name = setupVar(t, s.m, s.from, s.to);
    peopleH[name] = setupPeopleH(problem, s);
    if (problem.machines[s.m]!.people > 0)
      elapsed[s.m]![name] = problem.machines[s.m]!.minutes[s.from + 1]![s.to]! / 60;
  }
  return [
    { name: `people in stretch ${t}`, terms: peopleH, most: slot.operatorH },
    ...elapsed.map((terms, m) => ({
      name: `set-ups of ${problem.machines[m]!.station} in stretch ${t}`,
      terms,
      most: slot.presentH,
    })),
  ];
}

/** Over the week people do the set-ups, and the stops that wait for them. */
function operatorWeekRow(problem: JobProblem, legs: readonly Leg[]): LinearRow {
  const terms: Terms = {};
  const openH = problem.slots.reduce((sum, slot) => sum + slot.openH * problem.hoursShare, 0);
  const need = operatorNeed(problem.cell, legs, openH);
  for (const t of problem.slots.keys()) Object.assign(terms, named(need.terms, t));
  for (const s of setupsOf(problem)) terms[setupVar(s.slot, s.m, s.from, s.to)] = setupPeopleH(problem, s);
  const thereH = problem.slots.reduce((sum, slot) => sum + slot.operatorH, 0);
  return { name: 'people in the week', terms, most: Math.max(0, thereH - need.byClockH) };
}

/** Racks are filled and emptied while somebody is there: between two such stretches they hold what they hold. */
function rackRows({ cell, slots }: JobProblem, legs: readonly Leg[]): LinearRow[] {
  const alone: number[][] = [];
  for (const [t, slot] of slots.entries()) {
    if (slot.attendedH > 0) continue;
    const before = alone.at(-1);
    if (before?.at(-1) === t - 1) before.push(t);
    else alone.push([t]);
  }
  return cell.stations.flatMap((station) => {
    if (station.capacityParts === null || (station.kind !== 'infeed' && station.kind !== 'outfeed'))
      return [];
    const here = legs.flatMap((leg, l) =>
      (station.kind === 'infeed' ? leg.from : leg.to) === station.name ? [l] : [],
    );
    return alone.map((stretch) => ({
      name: `rack ${station.name}`,
      terms: Object.fromEntries(stretch.flatMap((t) => here.map((l) => [legVar(t, l), 1]))),
      most: station.capacityParts!,
    }));
  });
}

interface GoodPlace {
  readonly slot: number;
  readonly job: number;
}

/** Stretches in which parts of a job can be made: from the moment on at which its material is there. */
function goodPlaces({ jobs, slots }: JobProblem): GoodPlace[] {
  return jobs.flatMap((job, j) =>
    slots.flatMap((slot, t) => (slot.startS >= job.notBeforeMin * 60 ? [{ slot: t, job: j }] : [])),
  );
}

/** Good parts of a stretch go to the jobs that want them. */
function goodRows(problem: JobProblem, legs: readonly Leg[], t: number): LinearRow[] {
  const places = goodPlaces(problem).filter((place) => place.slot === t);
  return problem.cell.routes.map((route, r) => {
    const terms: Terms = {};
    const good = goodShare(problem.cell, route.part);
    for (const [l, leg] of legs.entries())
      if (leg.route === r && leg.fromStep === 0) terms[legVar(t, l)] = good;
    for (const { job } of places) if (problem.jobs[job]!.part === route.part) terms[goodVar(t, job)] = -1;
    return { name: `good ${route.part} in stretch ${t}`, terms, least: 0, most: 0 };
  });
}

function jobRows(problem: JobProblem): LinearRow[] {
  const places = goodPlaces(problem);
  return problem.jobs.map((job, j) => {
    const terms: Terms = { [missVar(j)]: 1 };
    for (const place of places) if (place.job === j) terms[goodVar(place.slot, j)] = 1;
    return { name: `job ${job.job}`, terms, least: job.quantity, most: job.quantity };
  });
}

function lateTerms(problem: JobProblem): Terms {
  const terms: Terms = Object.fromEntries(problem.jobs.map((_, j) => [missVar(j), 1]));
  for (const { slot, job } of goodPlaces(problem))
    if (problem.slots[slot]!.endS > problem.jobs[job]!.dueMin * 60) terms[goodVar(slot, job)] = 1;
  return terms;
}

/**
 * Rows that forbid rounds of set-ups apart from a machine's walk, for those that an answer has.
 * Source: cut of a set of places that is not reached, as for subtours (Dantzig, Fulkerson & Johnson 1954).
 */
export function apartRows(problem: JobProblem, at: Readonly<Record<string, number>>): LinearRow[] {
  return problem.slots.flatMap((_, t) =>
    problem.machines.flatMap((machine, m) => {
      const setups = setupsOf(problem, t).filter((s) => s.m === m);
      const made = setups.filter((s) => (at[setupVar(t, m, s.from, s.to)] ?? 0) > 0.5);
      const reached = new Set(states(machine).filter((p) => (at[startVar(t, m, p)] ?? 0) > 0.5));
      for (let grown = -1; grown !== reached.size; ) {
        grown = reached.size;
        for (const s of made) if (reached.has(s.from)) reached.add(s.to);
      }
      const apart = new Set(made.map((s) => s.to).filter((p) => !reached.has(p)));
      return [...apart].map((p): LinearRow => {
        const terms: Terms = Object.fromEntries([...apart].map((q) => [startVar(t, m, q), 1]));
        for (const s of setups) {
          const name = setupVar(t, m, s.from, s.to);
          if (apart.has(s.to) && !apart.has(s.from)) terms[name] = 1;
          if (s.to === p) terms[name] = (terms[name] ?? 0) - 1;
        }
        return { name: `walk of ${machine.station} in one piece`, terms, least: 0 };
      });
    }),
  );
}
