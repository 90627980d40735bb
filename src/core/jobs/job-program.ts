/**
 * The job plan as a mixed-integer program over time windows: at every machine and window the walk from the part that it
 * is set up for, over set-ups, to the part that it is set up for when the window ends (0 or 1), and the amounts of the
 * frame. A part is made only where its machine is set up for it. In which moment of its window a set-up is made is left
 * open, so what the program cannot do better no plan can.
 *
 * Where every set-up onto a part takes the same, the part before does not count, and there is one variable for each part
 * in a window. Otherwise there is one for each pair, and walks are flows; a round of set-ups apart from the walk would
 * pass as a flow, so where an answer has one, `apartRows` forbids it and the program is solved again.
 */

import type { LinearRow } from '../lp/solve-linear-program.js';
import type { Terms } from '../lp/terms.js';
import { goodShare } from '../mix/mix-program.js';
import { type BareMachine, bareWaitRows, isOneAtATime, orderRows } from './bare-waits.js';
import { type JobFrame, legVar } from './job-frame.js';
import { type JobMachine, type JobProblem, visitsOf } from './job-problem.js';
import type { WeekSlot } from './week-slots.js';

export interface JobProgram {
  readonly rows: readonly LinearRow[];
  readonly whole: readonly string[];
  readonly setupMin: Readonly<Terms>;
  /** One variable for each pair of parts, as their set-ups differ. */
  readonly isByPair: boolean;
}

/** Names of the variables. `m` and `p` are places in the problem's machines and their parts. */
const startVar = (slot: number, m: number, p: number): string => `${slot} start ${m} ${p}`;
const setupVar = (slot: number, m: number, from: number, to: number): string =>
  `${slot} setup ${m} ${from} ${to}`;

/** A machine with nothing set up. */
export const NOTHING = -1;
/** Whatever was set up before. */
const ANY = -2;

export function jobProgram(problem: JobProblem, frame: JobFrame): JobProgram {
  const isByPair = hasPairs(problem);
  const places = setupPlaces(problem, isByPair);
  const walks = problem.machines.flatMap((machine, m) =>
    isByPair ? pairWalks(problem, machine, m, places) : plainWalks(problem, machine, m, places),
  );
  const order = firstOrder(problem);
  const { operatorWeek } = frame;
  const peopleTerms = Object.fromEntries(places.map((s) => [s.name, peopleH(problem, s)]));
  const rows = [
    ...hourRows(problem, frame, places),
    ...frame.rows,
    ...walks,
    ...problem.slots.flatMap((slot, t) => [
      ...linkRows(problem, frame, t, places),
      ...peopleRows(problem, slot, t, places),
      // Machines with nothing set up wait for the people one after another.
      ...bareWaitRows(`window ${t}`, bareMachines(problem, slot, t)),
    ]),
    { ...operatorWeek, terms: { ...operatorWeek.terms, ...peopleTerms } },
    ...order.rows,
  ].filter((row) => Object.keys(row.terms).length > 0);
  return {
    rows,
    whole: [...new Set(walks.flatMap((row) => Object.keys(row.terms))), ...order.whole, ...frame.whole],
    setupMin: Object.fromEntries(places.map((place) => [place.name, place.minutes])),
    isByPair,
  };
}

/** Yes-or-no choices of the program, worked out without it. */
export function choicesOf(problem: JobProblem): number {
  const attended = problem.slots.filter((slot) => slot.operatorH > 0).length;
  const isByPair = hasPairs(problem);
  return problem.machines.reduce((sum, machine) => {
    const n = machine.parts.length;
    const setups = (machine.people > 0 ? attended : problem.slots.length) * (isByPair ? n * n : n);
    return sum + setups + (problem.slots.length + 1) * (n + 1);
  }, 0);
}

/** True where the minutes onto a part depend on the part before. */
function hasPairs({ machines }: JobProblem): boolean {
  return machines.some((machine) =>
    machine.parts.some((_, to) => {
      const [least, most] = rangeOnto(machine, to);
      return most - least > 1e-9;
    }),
  );
}

function rangeOnto(machine: JobMachine, to: number): [least: number, most: number] {
  const minutes = [NOTHING, ...machine.parts.keys()]
    .filter((from) => from !== to && (from !== NOTHING || machine.first === NOTHING))
    .map((from) => machine.minutes[from + 1]![to]!);
  return minutes.length === 0 ? [0, 0] : [Math.min(...minutes), Math.max(...minutes)];
}

interface SetupPlace {
  readonly name: string;
  readonly slot: number;
  readonly m: number;
  readonly from: number;
  readonly to: number;
  readonly minutes: number;
  /** Least hours in which the machine is stopped for it. */
  readonly standsH: number;
}

/** Every set-up that could be made: in windows with somebody there, where people are needed for it. */
function setupPlaces({ slots, machines }: JobProblem, isByPair: boolean): SetupPlace[] {
  return slots.flatMap((slot, t) =>
    machines.flatMap((machine, m) =>
      machine.people > 0 && (slot.operatorH === 0 || slot.people < machine.people)
        ? []
        : machine.parts.flatMap((_, to) =>
            (isByPair ? [NOTHING, ...machine.parts.keys()] : [ANY])
              .filter((from) => from !== to && (from !== NOTHING || machine.first === NOTHING))
              .map((from): SetupPlace => {
                const minutes = from === ANY ? rangeOnto(machine, to)[0] : machine.minutes[from + 1]![to]!;
                const share = from === NOTHING ? 1 : machine.internalShare;
                return {
                  ...{ name: setupVar(t, m, from, to), slot: t, m, from, to, minutes },
                  standsH: (minutes / 60) * share,
                };
              }),
          ),
    ),
  );
}

/** Hours of stations and robot in a window, set-ups included. */
function hourRows(problem: JobProblem, frame: JobFrame, places: readonly SetupPlace[]): LinearRow[] {
  return frame.hours.map(({ name, terms, most, slot, resource, perClockH }) => {
    const here = places.filter(
      (s) =>
        s.slot === slot &&
        (problem.machines[s.m]!.station === resource || (resource === 'robot' && problem.robotStands)),
    );
    const stands = Object.fromEntries(here.map((s) => [s.name, s.standsH * perClockH]));
    const m = problem.machines.findIndex(({ station }) => station === resource);
    const waits = m >= 0 && waitsIn(problem, problem.slots[slot]!, m);
    return {
      name,
      terms: { ...terms, ...stands, ...(waits ? { [waitVar(slot, m)]: perClockH } : {}) },
      most,
    };
  });
}

const waitVar = (slot: number, m: number): string => `${slot} wait ${m}`;

function waitsIn({ machines }: JobProblem, slot: WeekSlot, m: number): boolean {
  return slot.operatorH > 0 && isOneAtATime(machines[m]!, slot.people);
}

/** In the first window with somebody there, where most of them are set up, also which goes first. */
function firstOrder(problem: JobProblem): ReturnType<typeof orderRows> {
  const t = problem.slots.findIndex((slot) => slot.operatorH > 0);
  const slot = problem.slots[t];
  return slot === undefined
    ? { rows: [], whole: [] }
    : orderRows(`window ${t}`, bareMachines(problem, slot, t), slot.openH);
}

function bareMachines(problem: JobProblem, slot: WeekSlot, t: number): BareMachine[] {
  return problem.machines.flatMap((machine, m) => {
    if (!waitsIn(problem, slot, m)) return [];
    const setupH = Math.min(...machine.minutes[0]!) / 60;
    const isSetUp = { [startVar(t, m, NOTHING)]: 1, [startVar(t + 1, m, NOTHING)]: -1 };
    return [{ wait: waitVar(t, m), setupH, isSetUp }];
  });
}

function states(machine: JobMachine): number[] {
  return machine.first === NOTHING ? [NOTHING, ...machine.parts.keys()] : [...machine.parts.keys()];
}

function exactly(name: string, terms: Terms, value: number): LinearRow {
  return { name, terms, least: value, most: value };
}

function startRows(problem: JobProblem, machine: JobMachine, m: number): LinearRow[] {
  const all = states(machine);
  return [
    ...all.map((p) =>
      exactly(`${machine.station} at first`, { [startVar(0, m, p)]: 1 }, p === machine.first ? 1 : 0),
    ),
    ...problem.slots.map((_, t) =>
      exactly(
        `${machine.station} is set up for one part`,
        Object.fromEntries(all.map((p) => [startVar(t + 1, m, p), 1])),
        1,
      ),
    ),
  ];
}

/** What a machine is set up for from window to window, where the part before counts. */
function pairWalks(
  problem: JobProblem,
  machine: JobMachine,
  m: number,
  places: readonly SetupPlace[],
): LinearRow[] {
  const rows = startRows(problem, machine, m);
  for (const [t] of problem.slots.entries()) {
    const setups = places.filter((s) => s.slot === t && s.m === m);
    for (const p of states(machine)) {
      const terms: Terms = { [startVar(t, m, p)]: 1, [startVar(t + 1, m, p)]: -1 };
      for (const s of setups) {
        if (s.to === p) terms[s.name] = 1;
        if (s.from === p) terms[s.name] = -1;
      }
      rows.push(exactly(`walk of ${machine.station}`, terms, 0));
      const into = setups.filter((s) => s.to === p);
      if (into.length > 0)
        rows.push({
          name: `${machine.station} is set up once a window`,
          terms: Object.fromEntries(into.map((s) => [s.name, 1])),
          most: 1,
        });
    }
  }
  return rows;
}

/** The same where it does not: a machine ends a window with what it was set up for, or with a part that was set up. */
function plainWalks(
  problem: JobProblem,
  machine: JobMachine,
  m: number,
  places: readonly SetupPlace[],
): LinearRow[] {
  const rows = startRows(problem, machine, m);
  for (const [t] of problem.slots.entries()) {
    const setups = places.filter((s) => s.slot === t && s.m === m);
    for (const s of setups) rows.push({ name: `set up once a window`, terms: { [s.name]: 1 }, most: 1 });
    for (const p of states(machine)) {
      const into = setups.find((s) => s.to === p);
      const end: Terms = { [startVar(t + 1, m, p)]: 1, [startVar(t, m, p)]: -1 };
      rows.push({
        name: `${machine.station} after window ${t}`,
        terms: into ? { ...end, [into.name]: -1 } : end,
        most: 0,
      });
      // With another part between, the first has to be set up again.
      for (const other of setups)
        if (other.to !== p)
          rows.push({
            name: `${machine.station} goes back`,
            terms: {
              [startVar(t, m, p)]: 1,
              [startVar(t + 1, m, p)]: 1,
              [other.name]: 1,
              ...(into ? { [into.name]: -1 } : {}),
            },
            most: 2,
          });
    }
  }
  return rows;
}

/** A part is made only in a window in which its machine is set up for it, or was when it began. */
function linkRows(
  problem: JobProblem,
  { legs, hours }: JobFrame,
  t: number,
  places: readonly SetupPlace[],
): LinearRow[] {
  return problem.machines.flatMap((machine, m) => {
    const row = hours.find(({ slot, resource }) => slot === t && resource === machine.station);
    return machine.parts.map((part, p) => {
      const here = legs.flatMap((leg, l) =>
        leg.to === machine.station && problem.cell.routes[leg.route]!.part === part ? [l] : [],
      );
      const terms: Terms = Object.fromEntries(here.map((l) => [legVar(t, l), 1]));
      const eachH = Math.min(...here.map((l) => row?.terms[legVar(t, l)] ?? 0));
      const wanted = visitsOf(problem, part, machine.station) * startsWanted(problem, part);
      const mostIn = (openH: number): number => (eachH > 0 ? Math.min(wanted, openH / eachH) : wanted);
      const openH = row?.most ?? 0;
      terms[startVar(t, m, p)] = -mostIn(openH);
      for (const s of places)
        if (s.slot === t && s.m === m && s.to === p)
          terms[s.name] = -mostIn(Math.max(0, openH - s.standsH * (row?.perClockH ?? 0)));
      return { name: `${part} needs its changeover at ${machine.station}`, terms, most: 0 };
    });
  });
}

/** Parts that must be started for all jobs of a part. */
function startsWanted({ jobs, cell }: JobProblem, part: string): number {
  const good = goodShare(cell, part);
  const wanted = jobs.filter((job) => job.part === part).reduce((sum, job) => sum + job.quantity, 0);
  return good > 0 ? wanted / good : 0;
}

const peopleH = (problem: JobProblem, { m, minutes }: SetupPlace): number =>
  (minutes / 60) * problem.machines[m]!.people;

/** People and the clock: the set-ups of a window fit into the hours in which somebody is there. */
function peopleRows(
  problem: JobProblem,
  slot: WeekSlot,
  t: number,
  places: readonly SetupPlace[],
): LinearRow[] {
  const here = places.filter((s) => s.slot === t && problem.machines[s.m]!.people > 0);
  return [
    {
      name: `people in window ${t}`,
      terms: Object.fromEntries(here.map((s) => [s.name, peopleH(problem, s)])),
      most: slot.operatorH,
    },
    ...problem.machines.map((machine, m) => ({
      name: `changeovers of ${machine.station} in window ${t}`,
      terms: Object.fromEntries(here.filter((s) => s.m === m).map((s) => [s.name, s.minutes / 60])),
      most: slot.presentH,
    })),
  ];
}

type At = Readonly<Record<string, number>>;

/** Set-ups of an answer, machine by machine in each window, in the order in which they are made. */
export interface Walk {
  readonly slot: number;
  readonly m: number;
  readonly to: readonly number[];
}

export function walksOf(problem: JobProblem, { isByPair }: JobProgram, at: At): Walk[] {
  return problem.slots.flatMap((_, slot) =>
    problem.machines.map((machine, m) => {
      const isMade = (from: number, to: number): boolean => (at[setupVar(slot, m, from, to)] ?? 0) > 0.5;
      const isAt = (t: number, p: number): boolean => (at[startVar(t, m, p)] ?? 0) > 0.5;
      const places = [NOTHING, ...machine.parts.keys()];
      const start = places.find((p) => isAt(slot, p)) ?? NOTHING;
      if (isByPair) {
        const hops = places.flatMap((from) =>
          [...machine.parts.keys()].filter((to) => isMade(from, to)).map((to) => ({ from, to })),
        );
        return { slot, m, to: (trail(start, hops) ?? []).map(({ to }) => to) };
      }
      const into = [...machine.parts.keys()].filter((to) => isMade(ANY, to));
      const last = into.find((p) => isAt(slot + 1, p));
      const to = [...into.filter((p) => p !== last && p !== start), ...(last === undefined ? [] : [last])];
      return { slot, m, to: to[0] === start ? to.slice(1) : to };
    }),
  );
}

interface Hop {
  readonly from: number;
  readonly to: number;
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

/**
 * Rows that forbid rounds of set-ups apart from a machine's walk, for those that an answer has.
 * Source: cut of a set of places that is not reached, as for subtours (Dantzig, Fulkerson & Johnson 1954).
 */
export function apartRows(problem: JobProblem, { isByPair }: JobProgram, at: At): LinearRow[] {
  if (!isByPair) return [];
  const places = setupPlaces(problem, true);
  return problem.slots.flatMap((_, t) =>
    problem.machines.flatMap((machine, m) => {
      const setups = places.filter((s) => s.slot === t && s.m === m);
      const made = setups.filter((s) => (at[s.name] ?? 0) > 0.5);
      const reached = new Set(states(machine).filter((p) => (at[startVar(t, m, p)] ?? 0) > 0.5));
      for (let grown = -1; grown !== reached.size; ) {
        grown = reached.size;
        for (const s of made) if (reached.has(s.from)) reached.add(s.to);
      }
      const apart = new Set(made.map((s) => s.to).filter((p) => !reached.has(p)));
      return [...apart].map((p): LinearRow => {
        const terms: Terms = Object.fromEntries([...apart].map((q) => [startVar(t, m, q), 1]));
        for (const s of setups) {
          if (apart.has(s.to) && !apart.has(s.from)) terms[s.name] = 1;
          if (s.to === p) terms[s.name] = (terms[s.name] ?? 0) - 1;
        }
        return { name: `walk of ${machine.station} in one piece`, terms, least: 0 };
      });
    }),
  );
}
