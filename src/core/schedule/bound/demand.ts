/**
 * Amounts that parts.csv asks for. They are served first: where the schedule that earns most leaves one short which the
 * cell could make, the parts are made in a fixed mix that serves all of them, with the rest of the time for what earns
 * most. The mix comes from the linear program of the rates; since that leaves out interference, the amounts that still
 * fall short are asked for once more, by as much higher.
 */

import { askedPerWeek, firstWeek } from '../../calendar/asked-amounts.js';
import { patternNames } from '../../calendar/week-calendar.js';
import { solveLinearProgram } from '../../lp/solve-linear-program.js';
import { type Terms, termsOf, valueAt } from '../../lp/terms.js';
import type { Cell } from '../../model/cell.js';
import { type Goal, smallSet } from '../plan/weights.js';
import { cellProgram, startsOf } from './cell-program.js';
import { hourRows } from './rate-bound.js';

/** Parts an hour asked for, by route; 0 = not asked for. Parts that turn out bad come on top. */
export interface Demand {
  readonly perH: readonly number[];
  /** Words for the shift or week that it is asked for. */
  readonly shift: string;
}

/** A cell that makes this share of the part made least, against what any sequence could, serves what is asked as it is. */
const NEARLY = 0.9;

/** @returns null where nothing is asked for, or the goal is a fixed mix anyway */
export function demandOf(cell: Cell, goal: Goal): Demand | null {
  if (goal.mix !== null) return null;
  const name = patternNames(cell.shifts)[0];
  const { shifts, hours } = firstWeek(cell);
  const perH = cell.routes.map(({ part }) => {
    const row = cell.parts.find((p) => p.part === part);
    const asked = askedPerWeek(row, shifts);
    const yieldPct = row?.yieldPct ?? 100;
    return asked === null || yieldPct <= 0 ? 0 : asked / hours / (yieldPct / 100);
  });
  if (perH.every((rate) => rate === 0)) return null;
  const isWeekly = cell.parts.some(({ perWeek = null }) => perWeek !== null);
  const of = name === undefined ? `of ${isWeekly ? hours : hours / shifts} h` : `of the pattern ${name}`;
  return { perH, shift: `a ${isWeekly ? 'week' : 'shift'} ${of}` };
}

/** The least share of what is asked for that some part is made in, at most 1. */
export function shareMade(demand: Demand, perH: readonly number[]): number {
  return demand.perH.reduce((least, asked, r) => (asked > 0 ? Math.min(least, perH[r]! / asked) : least), 1);
}

/** No sequence makes a larger share of every amount asked for; null where the program gave no sure answer. */
export function mostShare(cell: Cell, demand: Demand): number | null {
  return ratesFor(cell, demand, null)?.share ?? null;
}

/** @returns whether a schedule that makes this share of what is asked needs no mix */
export function isServed(share: number, most: number): boolean {
  return share >= 1 - 1e-9 || (most < 1 && share >= NEARLY * most);
}

/**
 * A mix that serves what is asked for, as far as any can, and earns most beside it.
 *
 * @param raised by how much more is asked for of each part, 1 = as it is
 * @returns null where no rates are known
 */
export function demandGoal(cell: Cell, demand: Demand, goal: Goal, raised: readonly number[]): Goal | null {
  const asked = { ...demand, perH: demand.perH.map((rate, r) => rate * raised[r]!) };
  const rates = ratesFor(cell, asked, goal.weight)?.perH;
  if (rates === undefined) return null;
  const sum = rates.reduce((total, rate) => total + rate, 0);
  const made = rates.flatMap((rate, r) => (rate > 1e-6 * sum ? [r] : []));
  if (made.length === 0) return null;
  const { set } = smallSet(made.map((r) => rates[r]!));
  return {
    basis: 'mix',
    weight: goal.weight.map(() => 1),
    mix: rates.map((_, r) => (made.includes(r) ? set[made.indexOf(r)]! : 0)),
    note: `Parts are made in the mix ${made.map((r, i) => `${set[i]} ${cell.routes[r]!.part}`).join(', ')}: first the amounts asked for in parts.csv, then what earns most.`,
  };
}

/** @param perH of every route, in the schedule that is shown */
export function demandNote(cell: Cell, demand: Demand, perH: readonly number[], most: number | null): string {
  const share = shareMade(demand, perH);
  if (share >= 1 - 1e-9) return `All amounts that parts.csv asks for in ${demand.shift} are made.`;
  const short = demand.perH.flatMap((asked, r) =>
    asked > 0 && perH[r]! < asked * (1 - 1e-9)
      ? [`${cell.routes[r]!.part} ${Math.floor((100 * perH[r]!) / asked)}%`]
      : [],
  );
  const why =
    most !== null && most < 1
      ? ` No sequence makes more than ${Math.ceil(100 * most)}% of every amount.`
      : ' No sequence was found that makes all of them.';
  return `Of the amounts that parts.csv asks for in ${demand.shift} not all are made: ${short.join(', ')}.${why}`;
}

interface Rates {
  readonly share: number;
  /** Parts an hour, by route. */
  readonly perH: readonly number[];
}

/** Rates that make the largest share of what is asked for, and with weights those of them that are worth most. */
function ratesFor(cell: Cell, demand: Demand, weight: readonly number[] | null): Rates | null {
  const program = cellProgram(cell);
  const starts = cell.routes.map((_, r) => startsOf(program.legs, r));
  const rows = hourRows(program);
  const asked = demand.perH.flatMap((perH, r) => (perH > 0 ? [{ perH, r }] : []));
  const first = solveLinearProgram({
    sense: 'most',
    objective: { share: 1 },
    rows: [
      ...rows,
      { name: 'all of it', terms: { share: 1 }, most: 1 },
      ...asked.map(({ perH, r }) => ({
        name: `asked of ${r}`,
        terms: termsOf(['share', -perH], ...Object.entries(starts[r]!)),
        least: 0,
      })),
    ],
  });
  if (first.status !== 'optimal') return null;
  const share = Math.min(1, first.value);
  const ratesAt = (at: Readonly<Record<string, number>>): number[] =>
    starts.map((terms: Terms) => Math.max(0, valueAt(terms, at)));
  if (weight === null) return { share, perH: ratesAt(first.at) };
  const second = solveLinearProgram({
    sense: 'most',
    objective: termsOf(...weight.flatMap((_, r) => Object.entries(startsOf(program.legs, r, weight[r]!)))),
    rows: [
      ...rows,
      ...asked.map(({ perH, r }) => ({
        name: `asked of ${r}`,
        terms: starts[r]!,
        least: perH * share * (1 - 1e-9),
      })),
    ],
  });
  return { share, perH: ratesAt((second.status === 'optimal' ? second : first).at) };
}
