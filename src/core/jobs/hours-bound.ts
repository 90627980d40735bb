/**
 * What no plan can do better, from hours alone: until each due time, every machine, the robot and the people have only so
 * many. A linear program with few rows, for weeks whose set-ups are too many to be looked at one by one; a part counts
 * its set-up at a machine in the share in which it is made there.
 */

import type { MixedSolver } from '../lp/mixed-solver.js';
import type { LinearRow } from '../lp/solve-linear-program.js';
import type { Terms } from '../lp/terms.js';
import { goodShare } from '../mix/mix-program.js';
import { bareWaitRows, isOneAtATime } from './bare-waits.js';
import { type JobFrame, legVar } from './job-frame.js';
import { type JobProblem, visitsOf } from './job-problem.js';
import { isKeptOut, waitingStops } from './unattended-rows.js';
import type { WeekSlot } from './week-slots.js';

export interface HoursProgram {
  readonly rows: readonly LinearRow[];
  readonly late: Readonly<Terms>;
  readonly missing: Readonly<Terms>;
  readonly setupMin: Readonly<Terms>;
  /** Shares of set-ups: where there are few, they can be asked to be 0 or 1. */
  readonly shares: readonly string[];
}

/** Pairs of a time of material and a due time that get rows of their own. */
const MOST_SPANS = 150;

export function hoursProgram(problem: JobProblem, frame: JobFrame): HoursProgram {
  const { jobs, cell } = problem;
  const dues = [...new Set(jobs.map((job) => job.dueMin * 60))].sort((a, b) => a - b);
  const routeOf = jobs.map((job) => cell.routes.findIndex((route) => route.part === job.part));
  const legsOf = cell.routes.map((_, r) =>
    frame.legs.flatMap((leg, l) => (leg.route === r ? [{ ...leg, l }] : [])),
  );
  const rows: LinearRow[] = [];
  const late: Terms = {};
  const missing: Terms = {};
  for (const [j, job] of jobs.entries()) {
    const good = goodShare(cell, job.part);
    const legs = legsOf[routeOf[j]!]!;
    const terms: Terms = { [`miss ${j}`]: 1, [`in ${j}`]: 1, [`after ${j}`]: 1 };
    rows.push({ name: `job ${job.job}`, terms, least: job.quantity, most: job.quantity });
    late[`miss ${j}`] = 1;
    late[`after ${j}`] = 1;
    missing[`miss ${j}`] = 1;
    for (const kind of ['in', 'after']) {
      const first = legs.filter((leg) => leg.fromStep === 0);
      rows.push({
        name: `good of ${job.job}`,
        terms: {
          ...Object.fromEntries(first.map(({ l }) => [`${kind} ${j} leg${l}`, good])),
          [`${kind} ${j}`]: -1,
        },
        least: 0,
        most: 0,
      });
      for (const [s, step] of cell.routes[routeOf[j]!]!.steps.entries()) {
        if (s === 0 || s === cell.routes[routeOf[j]!]!.steps.length - 1) continue;
        for (const station of step.stations) {
          const flow: Terms = {};
          for (const leg of legs) {
            if (leg.toStep === s && leg.to === station) flow[`${kind} ${j} leg${leg.l}`] = 1;
            if (leg.fromStep === s && leg.from === station) flow[`${kind} ${j} leg${leg.l}`] = -1;
          }
          rows.push({ name: `flow of ${job.job}`, terms: flow, least: 0, most: 0 });
        }
        if (step.everyParts > 1) {
          const share: Terms = {};
          for (const leg of legs) {
            if (leg.fromStep === 0) share[`${kind} ${j} leg${leg.l}`] = -1 / step.everyParts;
            if (leg.toStep === s)
              share[`${kind} ${j} leg${leg.l}`] = (share[`${kind} ${j} leg${leg.l}`] ?? 0) + 1;
          }
          rows.push({ name: `share of ${job.job}`, terms: share, least: 0, most: 0 });
        }
      }
    }
  }
  const setups = setupTerms(problem, frame, dues, routeOf, rows);
  addWaits(problem, frame, dues, setups, rows);
  hourRows(problem, frame, dues, routeOf, setups.hoursOf, rows);
  return {
    rows: rows.filter((row) => Object.keys(row.terms).length > 0),
    late,
    missing,
    setupMin: setups.minutes,
    shares: setups.shares,
  };
}

/** Hours of set-ups of a resource, or of people, until a due time; `week` for all of it. */
type SetupHours = (resource: string, until: number | 'week') => Terms;

/** For each part at each machine and due time the share in which it has been set up: from 0 to 1. */
function setupTerms(
  problem: JobProblem,
  frame: JobFrame,
  dues: readonly number[],
  routeOf: readonly number[],
  rows: LinearRow[],
): {
  readonly minutes: Terms;
  readonly hoursOf: SetupHours;
  readonly shares: readonly string[];
  /** Shares by machine and due time. */
  readonly names: ReadonlyMap<string, readonly string[]>;
} {
  const { jobs, machines, cell } = problem;
  const perClockH = new Map(frame.hours.map((row) => [row.resource, row.perClockH]));
  const minutes: Terms = {};
  const shares: string[] = [];
  const names = new Map<string, string[]>();
  const hours = new Map<string, Terms>();
  for (const [m, machine] of machines.entries())
    for (const [p, part] of machine.parts.entries()) {
      if (machine.first === p) continue;
      const route = cell.routes.findIndex((r) => r.part === part);
      const onto = machine.minutes
        .map((row, from) => ({ min: row[p]!, from: from - 1 }))
        .filter(({ from }) => from !== p && (from >= 0 || machine.first < 0));
      const least = Math.min(...onto.map(({ min }) => min));
      const leastStandsH =
        Math.min(...onto.map(({ min, from }) => min * (from < 0 ? 1 : machine.internalShare))) / 60;
      const into = frame.legs.flatMap((leg, l) =>
        leg.route === route && leg.to === machine.station ? [l] : [],
      );
      for (const until of [...dues, 'week'] as const) {
        const own = jobs.flatMap((job, j) =>
          routeOf[j] === route && (until === 'week' || job.dueMin * 60 <= until) ? [j] : [],
        );
        if (own.length === 0) continue;
        const name = `set up ${m} ${p} ${until}`;
        const made: Terms = {};
        let most = 0;
        for (const j of own) {
          const good = goodShare(cell, part);
          most += (good > 0 ? jobs[j]!.quantity / good : 0) * visitsOf(problem, part, machine.station);
          for (const l of into) {
            made[`in ${j} leg${l}`] = 1;
            if (until === 'week') made[`after ${j} leg${l}`] = 1;
          }
        }
        rows.push({ name: `${name} is needed`, terms: { ...made, [name]: -most }, most: 0 });
        const canBe = problem.slots.some(
          (slot) =>
            (until === 'week' || slot.endS <= until) &&
            (machine.people === 0 || (slot.operatorH > 0 && slot.people >= machine.people)),
        );
        rows.push({ name: `${name} once`, terms: { [name]: 1 }, most: canBe ? 1 : 0 });
        shares.push(name);
        names.set(`${m} ${until}`, [...(names.get(`${m} ${until}`) ?? []), name]);
        if (until === 'week') minutes[name] = least;
        const at = (resource: string): Terms => {
          const key = `${resource} ${until}`;
          if (!hours.has(key)) hours.set(key, {});
          return hours.get(key)!;
        };
        at(machine.station)[name] = leastStandsH * (perClockH.get(machine.station) ?? 0);
        at('people')[name] = (least / 60) * machine.people;
      }
    }
  return { minutes, shares, names, hoursOf: (resource, until) => hours.get(`${resource} ${until}`) ?? {} };
}

/** Machines with nothing set up wait for the people one after another; those that are set up until a due time count. */
function addWaits(
  problem: JobProblem,
  frame: JobFrame,
  dues: readonly number[],
  {
    hoursOf,
    names,
  }: { readonly hoursOf: SetupHours; readonly names: ReadonlyMap<string, readonly string[]> },
  rows: LinearRow[],
): void {
  const people = Math.max(0, ...problem.slots.map((slot) => slot.people));
  for (const until of [...dues, 'week'] as const) {
    const bare = problem.machines.flatMap((machine, m) => {
      const shares = names.get(`${m} ${until}`) ?? [];
      if (shares.length === 0 || !isOneAtATime(machine, people)) return [];
      const used = `used ${m} ${until}`;
      const wait = `wait ${m} ${until}`;
      for (const share of shares) rows.push({ name: used, terms: { [share]: 1, [used]: -1 }, most: 0 });
      const perClockH = frame.hours.find((row) => row.resource === machine.station)?.perClockH ?? 0;
      hoursOf(machine.station, until)[wait] = perClockH;
      return [{ wait, setupH: Math.min(...machine.minutes[0]!) / 60, isSetUp: { [used]: 1 } }];
    });
    rows.push(...bareWaitRows(`until ${until}`, bare));
  }
}

function hourRows(
  problem: JobProblem,
  frame: JobFrame,
  dues: readonly number[],
  routeOf: readonly number[],
  setupHours: SetupHours,
  rows: LinearRow[],
): void {
  const { jobs, slots } = problem;
  const attendedOnly = jobs.map((job) => slots.some((slot) => isKeptOut(problem.cell, job.part, slot)));
  const byResource = new Map<string, JobFrame['hours'][number][]>();
  for (const row of frame.hours) {
    if (!byResource.has(row.resource)) byResource.set(row.resource, []);
    byResource.get(row.resource)!.push(row);
  }
  const begins = [...new Set(jobs.map((job) => job.notBeforeMin * 60))].sort((a, b) => a - b);
  const spans = begins.flatMap((fromS) => dues.map((toS) => ({ fromS, toS })));
  const wanted = spans.filter(({ fromS }, i) => fromS === 0 || i < MOST_SPANS);
  const legs = jobs.map((_, j) => frame.legs.flatMap((leg, l) => (leg.route === routeOf[j] ? [l] : [])));
  for (const [resource, list] of byResource) {
    // The robot is slower while somebody is there: its least hours count.
    const each = (l: number): number => Math.min(...list.map((row) => row.terms[legVar(row.slot, l)] ?? 0));
    const eachOf = new Map(frame.legs.map((_, l) => [l, each(l)] as const));
    const used = (of: readonly number[], kinds: readonly string[]): Terms =>
      Object.fromEntries(
        of.flatMap((j) =>
          legs[j]!.filter((l) => eachOf.get(l)! > 0).flatMap((l) =>
            kinds.map((kind) => [`${kind} ${j} leg${l}`, eachOf.get(l)!] as const),
          ),
        ),
      );
    const usable = list.map((row) => Math.min(row.most, nightH(problem, frame, row)));
    const hoursIn = (holds: (slot: WeekSlot) => boolean): number =>
      list.reduce((sum, row, i) => (holds(slots[row.slot]!) ? sum + usable[i]! : sum), 0);
    for (const { fromS, toS } of wanted) {
      const own = jobs.flatMap((job, j) =>
        job.notBeforeMin * 60 >= fromS && job.dueMin * 60 <= toS ? [j] : [],
      );
      if (own.length === 0) continue;
      const most = hoursIn((slot) => slot.startS >= fromS && slot.endS <= toS);
      // Set-ups may be made before the material is there.
      const setups = fromS === 0 ? setupHours(resource, toS) : {};
      rows.push({ name: `${resource} until ${toS}`, terms: { ...used(own, ['in']), ...setups }, most });
      const kept = own.filter((j) => attendedOnly[j]);
      if (kept.length > 0)
        rows.push({
          name: `${resource} with people until ${toS}`,
          terms: used(kept, ['in']),
          most: hoursIn((slot) => slot.attendedH > 0 && slot.startS >= fromS && slot.endS <= toS),
        });
    }
    rows.push({
      name: `${resource} in the week`,
      terms: { ...used([...jobs.keys()], ['in', 'after']), ...setupHours(resource, 'week') },
      most: hoursIn(() => true),
    });
    const kept = [...jobs.keys()].filter((j) => attendedOnly[j]);
    if (kept.length > 0)
      rows.push({
        name: `${resource} with people in the week`,
        terms: used(kept, ['in', 'after']),
        most: hoursIn((slot) => slot.attendedH > 0),
      });
  }
  for (const until of [...dues, 'week'] as const)
    rows.push({
      name: `people until ${until}`,
      terms: setupHours('people', until),
      most: slots
        .filter((slot) => until === 'week' || slot.endS <= until)
        .reduce((sum, slot) => sum + slot.operatorH, 0),
    });
}

/** Hours that a station can use while nobody is there: until its next stop by parts, of which each takes its longest. */
function nightH({ cell, slots }: JobProblem, { legs }: JobFrame, row: JobFrame['hours'][number]): number {
  const parts = waitingStops(cell)
    .filter(({ stop }) => stop.station === row.resource && slots[row.slot]!.attendedH === 0)
    .map(({ stop, places }) => places * stop.everyParts);
  if (parts.length === 0) return Number.POSITIVE_INFINITY;
  const longest = (end: 'from' | 'to'): number => {
    const here = legs.flatMap((leg, l) => (leg[end] === row.resource ? [legVar(row.slot, l)] : []));
    return Math.max(0, ...here.map((name) => row.terms[name] ?? 0));
  };
  return Math.min(...parts) * (longest('from') + longest('to'));
}

/**
 * Bound of a goal with the goals before it held.
 *
 * @param isWhole a set-up is made or not, where there are few
 * @returns 0 where the solver has no answer: no goal is below it
 */
export function hoursBound(
  program: HoursProgram,
  goal: Readonly<Terms>,
  held: readonly LinearRow[],
  solve: MixedSolver,
  isWhole = false,
): number {
  const whole = isWhole ? { whole: program.shares } : {};
  const answer = solve({ sense: 'least', objective: goal, rows: [...program.rows, ...held], ...whole }, 100);
  if (answer.status === 'optimal') return Math.max(0, answer.value);
  return answer.status === 'limit' && isWhole ? Math.max(0, answer.bound) : 0;
}
