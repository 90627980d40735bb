/**
 * The best job plan by trying every order of set-ups in every stretch, each with a linear program of its own written
 * from the tables. Shares nothing with the search but the linear-programming package, which is not the one it uses.
 */
import { type LinearRow, solveLinearProgram } from '../../../src/core/lp/solve-linear-program.js';
import { AT_MACHINE_S, ROBOT_S } from './job-cell.js';

export interface TinyStretch {
  readonly openH: number;
  /** Hours in which one person is there. */
  readonly mannedH: number;
  readonly startMin: number;
  readonly endMin: number;
}

export interface TinyJob {
  readonly part: number;
  readonly quantity: number;
  readonly dueMin: number;
  readonly notBeforeMin: number;
}

export interface TinyWeek {
  readonly stretches: readonly TinyStretch[];
  /** Cycle of each part in seconds. */
  readonly cycleS: readonly number[];
  /** Parts that each machine can make. */
  readonly machines: readonly (readonly number[])[];
  readonly jobs: readonly TinyJob[];
  /** Minutes by machine, from part + 1 (0 = nothing), to part. */
  readonly minutes: readonly (readonly (readonly number[])[])[];
}

/** What is set up before and during a stretch, and the minutes of it. */
interface Stage {
  readonly setUp: readonly number[];
  readonly setupMin: number;
  /** Minutes of the set-up of a machine with nothing on it; 0 where it has something, or stays without. */
  readonly bareMin: number;
}

export interface TinyAnswer {
  readonly late: number;
  readonly notMade: number;
  readonly setupMin: number;
}

export function enumeratedPlan(week: TinyWeek): TinyAnswer {
  let best: TinyAnswer = { late: Infinity, notMade: Infinity, setupMin: Infinity };
  const tried = new Map<string, { late: number; notMade: number } | null>();
  for (const plans of combinations(week.machines.map((_, m) => machinePlans(week, m)))) {
    if (!peopleSuffice(week, plans)) continue;
    const setupMin = plans.flat().reduce((sum, stage) => sum + stage.setupMin, 0);
    const key = JSON.stringify(plans);
    if (!tried.has(key)) tried.set(key, leastLateOfOrders(week, plans));
    const found = tried.get(key);
    if (!found) continue;
    if (isLess([found.late, found.notMade, setupMin], [best.late, best.notMade, best.setupMin]))
      best = { ...found, setupMin };
  }
  return best;
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const first = a.findIndex((value, i) => Math.abs(value - b[i]!) > 1e-5 || b[i] === Infinity);
  return first >= 0 && a[first]! < b[first]!;
}

function combinations<T>(lists: readonly (readonly T[])[]): T[][] {
  return lists.reduce<T[][]>((sofar, list) => sofar.flatMap((c) => list.map((x) => [...c, x])), [[]]);
}

/** Every way through the week for one machine; set-ups only where somebody is there for as long as they take. */
function machinePlans(week: TinyWeek, m: number): Stage[][] {
  let open: { at: number; stages: Stage[] }[] = [{ at: -1, stages: [] }];
  for (const stretch of week.stretches)
    open = open.flatMap(({ at, stages }) =>
      // Where nobody is there, not even a set-up that takes no time is made.
      walks(week, m, at, stretch.mannedH > 0 ? stretch.mannedH * 60 : -1).map((walk) => ({
        at: walk.at(-1)!,
        stages: [
          ...stages,
          {
            setUp: [...new Set(walk)].filter((p) => p >= 0),
            bareMin: at < 0 && walk.length > 1 ? week.minutes[m]![0]![walk[1]!]! : 0,
            setupMin: walk.slice(1).reduce((sum, to, i) => sum + week.minutes[m]![walk[i]! + 1]![to]!, 0),
          },
        ],
      })),
    );
  return dedupe(open.map((o) => o.stages));
}

function dedupe(plans: Stage[][]): Stage[][] {
  const best = new Map<string, Stage[]>();
  for (const plan of plans)
    best.set(JSON.stringify(plan.map((s) => [[...s.setUp].sort(), s.setupMin, s.bareMin])), plan);
  return [...best.values()];
}

/** Every part is set up at most once in a stretch. */
function walks(week: TinyWeek, m: number, from: number, leftMin: number, used: number[] = []): number[][] {
  const on = week.machines[m]!.flatMap((to) => {
    if (to === from || used.includes(to)) return [];
    const minutes = week.minutes[m]![from + 1]![to]!;
    if (minutes > leftMin + 1e-9) return [];
    return walks(week, m, to, leftMin - minutes, [...used, to]).map((rest) => [from, ...rest]);
  });
  return [[from], ...on];
}

function peopleSuffice(week: TinyWeek, plans: readonly (readonly Stage[])[]): boolean {
  return week.stretches.every((stretch, t) => {
    const minutes = plans.reduce((sum, stages) => sum + stages[t]!.setupMin, 0);
    return minutes <= stretch.mannedH * 60 + 1e-9;
  });
}

/** Machines with nothing on them wait for the one person, one after another: every order of them. */
function leastLateOfOrders(
  week: TinyWeek,
  plans: readonly (readonly Stage[])[],
): { late: number; notMade: number } | null {
  const found = ordersOf(plans.map((_, m) => m)).map((order) => leastLate(week, plans, order));
  return found.reduce(
    (best, one) =>
      one !== null && (best === null || isLess([one.late, one.notMade], [best.late, best.notMade]))
        ? one
        : best,
    null,
  );
}

function ordersOf(list: readonly number[]): number[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((first) => ordersOf(list.filter((m) => m !== first)).map((rest) => [first, ...rest]));
}

function leastLate(
  week: TinyWeek,
  plans: readonly (readonly Stage[])[],
  order: readonly number[],
): { late: number; notMade: number } | null {
  const rows: LinearRow[] = [];
  const late: Record<string, number> = {};
  const missing: Record<string, number> = {};
  for (const [j, job] of week.jobs.entries()) {
    const terms: Record<string, number> = { [`u${j}`]: 1 };
    late[`u${j}`] = 1;
    missing[`u${j}`] = 1;
    for (const [t, stretch] of week.stretches.entries()) {
      if (stretch.startMin < job.notBeforeMin) continue;
      terms[`y${j}_${t}`] = 1;
      if (stretch.endMin > job.dueMin) late[`y${j}_${t}`] = 1;
    }
    rows.push({ name: `job ${j}`, terms, least: job.quantity, most: job.quantity });
  }
  for (const [t, stretch] of week.stretches.entries()) {
    const robot: Record<string, number> = {};
    const made = week.cycleS.map((): Record<string, number> => ({}));
    for (const [m, stages] of plans.entries()) {
      const hours: Record<string, number> = {};
      for (const p of stages[t]!.setUp) {
        const name = `x${p}_${m}_${t}`;
        hours[name] = (week.cycleS[p]! + AT_MACHINE_S) / 3600;
        robot[name] = ROBOT_S / 3600;
        made[p]![name] = 1;
      }
      const before = stages[t]!.bareMin > 0 ? order.slice(0, order.indexOf(m)) : [];
      const waitMin = before.reduce((sum, other) => sum + plans[other]![t]!.bareMin, 0);
      rows.push({
        name: `m${m} ${t}`,
        terms: hours,
        most: stretch.openH - (stages[t]!.setupMin + waitMin) / 60,
      });
    }
    rows.push({ name: `robot ${t}`, terms: robot, most: stretch.openH });
    for (const [p, terms] of made.entries()) {
      for (const [j, job] of week.jobs.entries())
        if (job.part === p && stretch.startMin >= job.notBeforeMin) terms[`y${j}_${t}`] = -1;
      rows.push({ name: `good ${p} ${t}`, terms, least: 0, most: 0 });
    }
  }
  const filled = rows.filter((row) => Object.keys(row.terms).length > 0 || row.most! < 0);
  if (filled.some((row) => Object.keys(row.terms).length === 0)) return null;
  const first = solveLinearProgram({ sense: 'least', objective: late, rows: filled });
  if (first.status === 'infeasible') return null;
  if (first.status !== 'optimal')
    throw new Error(`the second engine has no answer: ${JSON.stringify(first)}`);
  const held = { name: 'late', terms: late, most: first.value + 1e-6 };
  const second = solveLinearProgram({ sense: 'least', objective: missing, rows: [...filled, held] });
  if (second.status !== 'optimal')
    throw new Error(`the second engine has no answer: ${JSON.stringify(second)}`);
  return { late: first.value, notMade: second.value };
}
