/**
 * What every program over the jobs of a week has in common, whatever is set up when: in each time window the parts on each
 * leg of their routes and the empty trips of the robot, hours of stations and robot, parts in and out, racks, and the
 * good parts that go to the jobs.
 */
import type { LinearRow } from '../lp/solve-linear-program.js';
import type { Terms } from '../lp/terms.js';
import { goodShare, type MixProgram, mixProgram, operatorNeed } from '../mix/mix-program.js';
import type { Leg } from '../schedule/bound/legs.js';
import type { JobProblem } from './job-problem.js';
import { isKeptOut, sharesUntilStops, unattendedRows } from './unattended-rows.js';
import type { WeekSlot } from './week-slots.js';

/** Hours of a station's places or of the robot in a window, set-ups not counted. */
export interface HourRow extends LinearRow {
  readonly slot: number;
  readonly resource: string;
  readonly most: number;
  /** Hours of `most` for each hour by the clock. */
  readonly perClockH: number;
}

export interface JobFrame {
  readonly legs: readonly Leg[];
  readonly hours: readonly HourRow[];
  /** Parts in and out, jobs, and what holds while nobody is there. */
  readonly rows: readonly LinearRow[];
  /** Variables of these that are whole numbers. */
  readonly whole: readonly string[];
  /** Hours of people over the week without set-ups. */
  readonly operatorWeek: LinearRow & { readonly most: number };
  /** Parts of jobs that are made after they are due, or not at all. */
  readonly late: Readonly<Terms>;
  /** Parts of jobs that are not made in the week. */
  readonly missing: Readonly<Terms>;
  /** Good parts by the number of the window, so that less means earlier. */
  readonly when: Readonly<Terms>;
}

export const legVar = (slot: number, leg: number): string => `${slot} leg${leg}`;
export const goodVar = (slot: number, job: number): string => `${slot} good ${job}`;
export const missVar = (job: number): string => `miss ${job}`;

/**
 * Terms of a machine's hours that are of one part: from its placing to its picking, and for each that leaves what the
 * robot's exchange takes at least.
 *
 * @param route place of the part in the cell's routes
 */
export function partTerms(legs: readonly Leg[], row: HourRow, route: number): Terms {
  const own = legs.flatMap((leg, l): [string, number][] => {
    const name = legVar(row.slot, l);
    const isHere = leg.to === row.resource || leg.from === row.resource;
    return leg.route === route && isHere && name in row.terms ? [[name, row.terms[name]!]] : [];
  });
  return Object.fromEntries(own);
}

export function jobFrame(problem: JobProblem): JobFrame {
  const mixes = problem.slots.map((slot) => slotMix(problem, slot));
  const legs = mixes[0]?.legs ?? [];
  const places = goodPlaces(problem);
  const starts = startsByRoute(problem, legs);
  const untilStops = sharesUntilStops(problem.cell, problem.slots);
  const unattended = unattendedRows(problem.cell, problem.slots, legs, legVar);
  return {
    legs,
    hours: problem.slots.flatMap((slot, t) => hourRows(slot, mixes[t]!, t, untilStops)),
    rows: [
      ...mixes.flatMap((mix, t) => flowRowsOf(mix, t)),
      ...problem.slots.flatMap((_, t) => goodRows(problem, starts, places, t)),
      ...unattended.rows,
      ...jobRows(problem),
    ].filter((row) => Object.keys(row.terms).length > 0),
    whole: unattended.whole,
    operatorWeek: operatorWeekRow(problem, legs),
    late: lateTerms(problem),
    missing: Object.fromEntries(problem.jobs.map((_, j) => [missVar(j), 1])),
    when: Object.fromEntries(places.map(({ slot, job }) => [goodVar(slot, job), slot])),
  };
}

function slotMix({ cell, hoursShare }: JobProblem, slot: WeekSlot): MixProgram {
  const openH = slot.openH * hoursShare;
  return mixProgram({
    cell,
    hours: { openH, attendedH: slot.attendedH * hoursShare, operatorH: null, leavings: null },
    demand: new Map(),
    value: () => 0,
    goal: 'value',
  });
}

function named(terms: Readonly<Terms>, slot: number): Terms {
  return Object.fromEntries(Object.entries(terms).map(([name, value]) => [`${slot} ${name}`, value]));
}

function hourRows(
  slot: WeekSlot,
  mix: MixProgram,
  t: number,
  untilStops: ReadonlyMap<string, readonly number[]>,
): HourRow[] {
  return mix.resources.map((row) => ({
    name: `${row.name} in window ${t}`,
    terms: named(row.terms, t),
    most: row.most! * (untilStops.get(row.name)?.[t] ?? 1),
    slot: t,
    resource: row.name,
    perClockH: slot.openH > 0 ? row.most! / slot.openH : 0,
  }));
}

/** What the mix says of parts in and out at the stations and of the robot's ways. */
function flowRowsOf({ program, resources }: MixProgram, slot: number): LinearRow[] {
  return program.rows
    .filter((row) => !resources.includes(row))
    .map((row) => ({ ...row, name: `${slot} ${row.name}`, terms: named(row.terms, slot) }));
}

/** Over the week people see to the stops that wait for them. */
function operatorWeekRow(problem: JobProblem, legs: readonly Leg[]): JobFrame['operatorWeek'] {
  const terms: Terms = {};
  const openH = problem.slots.reduce((sum, slot) => sum + slot.openH * problem.hoursShare, 0);
  const need = operatorNeed(problem.cell, legs, openH);
  for (const t of problem.slots.keys()) Object.assign(terms, named(need.terms, t));
  const thereH = problem.slots.reduce((sum, slot) => sum + slot.operatorH, 0);
  return { name: 'people in the week', terms, most: Math.max(0, thereH - need.byClockH) };
}

interface GoodPlace {
  readonly slot: number;
  readonly job: number;
}

/** Windows in which parts of a job can be made: from the moment on at which its material is there, and with people if it asks. */
function goodPlaces({ cell, jobs, slots }: JobProblem): GoodPlace[] {
  return jobs.flatMap((job, j) =>
    slots.flatMap((slot, t) =>
      slot.startS >= job.notBeforeMin * 60 && !isKeptOut(cell, job.part, slot) ? [{ slot: t, job: j }] : [],
    ),
  );
}

/** By route the legs on which its parts begin. */
function startsByRoute({ cell }: JobProblem, legs: readonly Leg[]): number[][] {
  const starts = cell.routes.map((): number[] => []);
  for (const [l, leg] of legs.entries()) if (leg.fromStep === 0) starts[leg.route]!.push(l);
  return starts;
}

/** Good parts of a stretch go to the jobs that want them. */
function goodRows(
  problem: JobProblem,
  starts: readonly (readonly number[])[],
  places: readonly GoodPlace[],
  t: number,
): LinearRow[] {
  const here = places.filter((place) => place.slot === t);
  return problem.cell.routes.map((route, r) => {
    const terms: Terms = {};
    const good = goodShare(problem.cell, route.part);
    for (const l of starts[r]!) terms[legVar(t, l)] = good;
    for (const { job } of here) if (problem.jobs[job]!.part === route.part) terms[goodVar(t, job)] = -1;
    return { name: `good ${route.part} in window ${t}`, terms, least: 0, most: 0 };
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
