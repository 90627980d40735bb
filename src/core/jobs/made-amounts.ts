/**
 * The amounts of a week whose set-ups and their moments are fixed, as a linear program: fewest parts late, then fewest not
 * made, then early. Making nothing always fits, so there always is an answer.
 */
import type { MixedSolver } from '../lp/mixed-solver.js';
import type { LinearRow } from '../lp/solve-linear-program.js';
import type { Terms } from '../lp/terms.js';
import { withoutVanishing } from '../lp/vanishing.js';
import { type JobFrame, legVar, partTerms } from './job-frame.js';
import { type JobProblem, setupPeopleH } from './job-problem.js';
import { segmentsOf, type WeekLayout } from './week-layout.js';

export type At = Readonly<Record<string, number>>;

/** Steps of the search for the numbers of planned stops that are done before each night; they are few. */
const STOP_NODES = 200;

/** How far a goal that is held may give way: the solver's own rounding, far below what counts as a part. */
export const GIVE = 1e-6;

/** A goal that was reached, held fast while the next one is looked at. */
export function heldRow(name: string, terms: Readonly<Terms>, value: number): LinearRow {
  return { name, terms, most: value + GIVE * Math.max(1, value / 100) };
}

/** @returns the amounts by variable; null where the solver has none */
export function madeAmounts(
  problem: JobProblem,
  frame: JobFrame,
  layout: WeekLayout,
  solve: MixedSolver,
): At | null {
  const rows = layoutRows(problem, frame, layout);
  const there = new Set(rows.flatMap((row) => Object.keys(row.terms)));
  const whole = frame.whole.filter((name) => there.has(name));
  const held: LinearRow[] = [];
  let at: At | null = null;
  for (const [name, all] of [
    ['late', frame.late],
    ['missing', frame.missing],
    ['when', frame.when],
  ] as const) {
    const terms = Object.fromEntries(Object.entries(all).filter(([variable]) => there.has(variable)));
    const program = { sense: 'least', objective: terms, rows: [...rows, ...held], whole } as const;
    const answer = solve(program, whole.length > 0 ? STOP_NODES : 1);
    if (answer.status === 'infeasible' || answer.status === 'unsure') return at;
    at = answer.at;
    held.push(heldRow(name, terms, answer.value));
  }
  return at;
}

function layoutRows(problem: JobProblem, frame: JobFrame, layout: WeekLayout): LinearRow[] {
  const machineOf = new Map(problem.machines.map(({ station }, m) => [station, m]));
  const clockH = new Map<string, number>();
  for (const { slot, m, p, startS, endS } of segmentsOf(problem, layout)) {
    const key = `${slot} ${m} ${p}`;
    clockH.set(key, (clockH.get(key) ?? 0) + (endS - startS) / 3600);
  }
  // Legs to a machine that is not set up for their part in a window are not there.
  const none = new Set<string>();
  const placeOf = frame.legs.map((leg) => {
    const m = machineOf.get(leg.to);
    return m === undefined ? null : problem.machines[m]!.parts.indexOf(problem.cell.routes[leg.route]!.part);
  });
  for (const t of problem.slots.keys())
    for (const [l, leg] of frame.legs.entries())
      if (placeOf[l] !== null && !clockH.has(`${t} ${machineOf.get(leg.to)} ${placeOf[l]}`))
        none.add(legVar(t, l));
  const stands = (slot: number): number =>
    problem.robotStands
      ? layout.filter((s) => s.slot === slot).reduce((sum, s) => sum + (s.endS - s.standsFromS) / 3600, 0)
      : 0;
  const hours = frame.hours.flatMap((row): LinearRow[] => {
    const m = machineOf.get(row.resource);
    if (m === undefined) {
      const most =
        row.resource === 'robot' ? Math.max(0, row.most - stands(row.slot) * row.perClockH) : row.most;
      return [{ ...row, most }];
    }
    const each = problem.machines[m]!.parts.flatMap((_, p) => {
      const h = clockH.get(`${row.slot} ${m} ${p}`);
      if (h === undefined) return [];
      const route = problem.cell.routes.findIndex((r) => r.part === problem.machines[m]!.parts[p]);
      const terms = partTerms(frame.legs, row, route);
      return [{ name: `${row.name} for ${p}`, terms, most: h * row.perClockH }];
    });
    // A stop that waits for somebody leaves fewer hours than the clock.
    const isStopped = row.most < row.perClockH * problem.slots[row.slot]!.openH - GIVE;
    return isStopped && each.length > 0 ? [...each, row] : each;
  });
  const peopleH = layout.reduce((sum, setup) => sum + setupPeopleH(problem, setup), 0);
  const week = { ...frame.operatorWeek, most: Math.max(0, frame.operatorWeek.most - peopleH) };
  return withoutVanishing([...hours, ...frame.rows, week], none);
}
