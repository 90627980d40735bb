/**
 * The rate bound: linear programs over rates that no policy of the robot, repeating or not, can exceed (see
 * `cell-program.ts`). Each bound is of what it is the objective of: all parts together whatever the mix, each part by
 * itself, and what the schedule is chosen for. It leaves out interference, so the true best rate can lie below.
 */
import {
  type LinearAnswer,
  type LinearProgram,
  type LinearRow,
  solveLinearProgram,
} from '../../lp/solve-linear-program.js';
import { type Terms, termsOf, valueAt } from '../../lp/terms.js';
import type { Cell } from '../../model/cell.js';
import { type Goal, goalOf } from '../plan/weights.js';
import type { GoalBound, RateBound } from '../result.js';
import { type CellProgram, cellProgram, startsOf } from './cell-program.js';

export interface RateBoundFound extends RateBound {
  readonly found: true;
  readonly goal: GoalBound;
  /** Value of the goal per second (contribution, machine seconds or sets of the mix). */
  readonly valuePerS: number;
}

export interface RateBoundUnsure {
  readonly found: false;
  readonly why: string;
}

const SHORT_S = 3600;

/**
 * @param untilMs moment (Date.now()) after which nothing more is solved, where the user gave a time limit
 * @returns the bounds per hour with what binds them, or why they could not be had
 */
export function rateBound(
  cell: Cell,
  goal: Goal = goalOf(cell),
  untilMs = Number.POSITIVE_INFINITY,
): RateBoundFound | RateBoundUnsure {
  const program = cellProgram(cell);
  const rows = hourRows(program);
  const starts = cell.routes.map((_, r) => startsOf(program.legs, r));
  const all = termsOf(...starts.flatMap((terms) => Object.entries(terms)));
  const solve = (objective: Terms, more: readonly LinearRow[] = []): Solved => {
    const asked: LinearProgram = { sense: 'most', objective, rows: [...rows, ...more] };
    return { program: asked, answer: solveUntil(asked, untilMs) };
  };
  const total = solve(all);
  const reached = cell.routes.length === 1 ? total : solve(...goalTerms(cell, goal, program));
  const parts = cell.routes.length === 1 ? [total] : starts.map((terms) => solve(terms));
  const unsure = [total, reached, ...parts].find(({ answer }) => answer.status !== 'optimal');
  if (unsure !== undefined) return { found: false, why: whyUnsure(unsure.answer) };
  const one = cell.routes.length === 1 ? worthOfOne(goal) : 1;
  const valuePerS = (mostOf(reached) * one) / SHORT_S;
  return {
    found: true,
    total: mostOf(total),
    perPart: Object.fromEntries(cell.routes.map(({ part }, r) => [part, mostOf(parts[r]!)])),
    binding: bindingRows(total),
    goal: { ...goalUnit(cell, goal, valuePerS), binding: bindingRows(reached) },
    valuePerS,
  };
}

/**
 * The most of the goal per second that any sequence makes in any layout: with no travel at all.
 *
 * @param untilMs as above
 * @returns null where it could not be had
 */
export function mostInAnyLayout(cell: Cell, goal: Goal, untilMs = Number.POSITIVE_INFINITY): number | null {
  const answer = mostOfGoal(cell, goal, cellProgram(cell, 0), untilMs);
  return answer.status === 'optimal' ? answer.value / SHORT_S : null;
}

/** The best rates for a goal alone: their value, and parts an hour on each leg. */
export function mostOfGoal(cell: Cell, goal: Goal, program: CellProgram, untilMs: number): LinearAnswer {
  const [objective, more] = goalTerms(cell, goal, program);
  return solveUntil({ sense: 'most', objective, rows: [...hourRows(program), ...more] }, untilMs);
}

interface Solved {
  readonly program: LinearProgram;
  readonly answer: LinearAnswer;
}

function solveUntil(program: LinearProgram, untilMs: number): LinearAnswer {
  const leftMs = untilMs - Date.now();
  return leftMs > 0
    ? solveLinearProgram(program, leftMs)
    : { status: 'unsure', why: 'the time limit came first' };
}

function mostOf({ answer }: Solved): number {
  return answer.status === 'optimal' ? answer.value : Number.NaN;
}

function whyUnsure(answer: LinearAnswer): string {
  if (answer.status === 'unsure') return answer.why;
  return answer.status === 'unbounded'
    ? 'no time at all is spent on some part, so its rate has no bound'
    : 'the demanded mix leaves no rate above zero';
}

/** Value of one part in a cell that makes no other. */
function worthOfOne(goal: Goal): number {
  return goal.mix === null ? goal.weight[0]! : 1 / goal.mix[0]!;
}

/** Rates in the program are parts per hour, so that its numbers are of like size. */
export function hourRows({ stations, robot, rows }: CellProgram): LinearRow[] {
  const inHours = (terms: Readonly<Terms>): Terms =>
    Object.fromEntries(Object.entries(terms).map(([name, seconds]) => [name, seconds / SHORT_S]));
  return [
    ...rows,
    ...stations.map(({ station, seconds, room }) => ({
      name: station.name,
      terms: inHours(seconds),
      most: room,
    })),
    { name: 'robot', terms: inHours(robot), most: 1 },
  ];
}

/** What is to be made most of, and the rows that keep the mix. */
export function goalTerms(cell: Cell, goal: Goal, { legs }: CellProgram): [Terms, LinearRow[]] {
  const { mix, weight } = goal;
  if (mix === null)
    return [termsOf(...weight.flatMap((worth, r) => Object.entries(startsOf(legs, r, worth)))), []];
  const rows = mix.map((count, r) => ({
    name: `mix of ${cell.routes[r]!.part}`,
    terms: termsOf(['sets', -count], ...Object.entries(startsOf(legs, r))),
    least: 0,
    most: 0,
  }));
  return [{ sets: 1 }, rows];
}

/** The bound on the goal, in the unit that users know it by. */
function goalUnit(cell: Cell, goal: Goal, valuePerS: number): Omit<GoalBound, 'binding'> {
  const perH = valuePerS * SHORT_S;
  if (goal.mix !== null)
    return { of: 'parts in the mix', perH: perH * goal.mix.reduce((sum, n) => sum + n, 0) };
  if (goal.basis === 'contribution') return { of: 'contribution', perH };
  if (cell.routes.length === 1) return { of: 'parts', perH: perH / goal.weight[0]! };
  return { of: 'machine-cycle seconds', perH };
}

/** The robot and the stations that would be busy all the time. */
function bindingRows({ program, answer }: Solved): string[] {
  if (answer.status !== 'optimal') return [];
  return program.rows.flatMap((row) => {
    if (row.most === undefined || row.most === 0) return [];
    return valueAt(row.terms, answer.at) >= row.most - 1e-6 * Math.max(1, row.most) ? [row.name] : [];
  });
}
