/**
 * What a schedule is to make most of. With a demanded mix: sets of the mix. Otherwise parts weighed by contribution
 * per good part where every part has one, else by their machine-cycle seconds, so that the machines' time is used.
 */

import { askedPerWeek, firstWeek, isAsked } from '../../calendar/asked-amounts.js';
import type { Cell } from '../../model/cell.js';
import { amountOf } from '../../model/name-text.js';

export interface Goal {
  readonly basis: 'mix' | 'contribution' | 'machine seconds';
  /** By route: value of one part. */
  readonly weight: readonly number[];
  /**
   * By route: parts in one set of the mix, whole numbers without a common divisor, 0 = not made; null where no mix is
   * asked.
   */
  readonly mix: readonly number[] | null;
  /** What was assumed, in plain words. */
  readonly note: string;
}

/** The first route that a mix has parts of: what a period holds of it tells the sets. */
export function mixLead(mix: readonly number[]): number {
  return mix.findIndex((count) => count > 0);
}

/** Largest set of a demanded mix: rarer ratios are rounded to this many parts a set. */
export const LARGEST_SET = 12;

export function goalOf(cell: Cell): Goal {
  const rows = cell.routes.map((route) => cell.parts.find((part) => part.part === route.part));
  const seconds = cell.routes.map((route) => {
    // The first and last are racks, whose time is no machine's.
    const sum = route.steps
      .slice(1, -1)
      .reduce((total, step) => total + step.cycleS / step.partsPerCycle / step.everyParts, 0);
    return sum > 0 ? sum : 1;
  });
  if (cell.routes.length > 1) {
    const ratios = rows.map((row) => row?.ratio ?? null);
    if (ratios.every((r) => r !== null)) return mixGoal(cell, ratios, 'the ratio column of parts.csv');
    const priced = rows.every((row) => row?.contribution != null);
    const demands = rows.map((row) => askedPerWeek(row, firstWeek(cell).shifts));
    if (!priced && demands.every((d) => d !== null && d > 0))
      return mixGoal(cell, demands as number[], 'the demand of parts.csv');
  }
  if (rows.every((row) => row?.contribution != null && row.contribution > 0)) {
    const weight = rows.map((row) => (row!.contribution! * row!.yieldPct) / 100);
    if (weight.every((w) => w > 0))
      return {
        basis: 'contribution',
        weight,
        mix: null,
        note: 'The sequence is chosen for the most contribution per hour.',
      };
  }
  return {
    basis: 'machine seconds',
    weight: seconds,
    mix: null,
    note:
      cell.routes.length > 1
        ? 'No mix and no contribution for every part is given: the sequence is chosen for the most machine time in cycle.'
        : 'The sequence is chosen for the most parts per hour.',
  };
}

/**
 * Where nothing says which parts are wanted and making most would leave one out that competes with others for a
 * machine: all in equal numbers. Null where a demand, ratio or contribution says what is wanted, or the parts do not
 * all compete, one with another, for machines.
 */
export function equalNumbers(cell: Cell): Goal | null {
  if (cell.routes.length < 2 || goalOf(cell).basis !== 'machine seconds') return null;
  if (cell.parts.some((p) => isAsked(p) || p.ratio !== null || p.contribution !== null)) return null;
  if (!allCompete(cell)) return null;
  const goal = mixGoal(
    cell,
    cell.routes.map(() => 1),
    'no table',
  );
  return {
    ...goal,
    note: 'The parts compete for machines, and no demand, ratio or contribution says which is wanted: they are made in equal numbers. Give a ratio in parts.csv for another mix.',
  };
}

/** Whether every part comes to every other over machines that two parts share. */
function allCompete(cell: Cell): boolean {
  const machines = new Set(cell.stations.filter((s) => s.kind === 'machine').map((s) => s.name));
  const used = cell.routes.map(
    (route) => new Set(route.steps.flatMap((s) => s.stations.filter((name) => machines.has(name)))),
  );
  const met = new Set([0]);
  for (const r of met)
    for (const [other, names] of used.entries())
      if ([...names].some((name) => used[r]!.has(name))) met.add(other);
  return met.size === cell.routes.length;
}

function mixGoal(cell: Cell, amounts: readonly number[], source: string): Goal {
  const { set, exact } = smallSet(amounts);
  const words = cell.routes.map((route, i) => amountOf(set[i]!, route.part)).join(', ');
  return {
    basis: 'mix',
    weight: set.map(() => 1),
    mix: set,
    note: exact
      ? `Parts are made in the fixed mix ${words}, from ${source}.`
      : `Parts are made in the mix ${words}, the nearest small one to ${source}.`,
  };
}

/** The smallest whole numbers in the given ratio; rounded to the nearest set of LARGEST_SET parts where that is larger. */
export function smallSet(amounts: readonly number[]): { set: number[]; exact: boolean } {
  const sum = amounts.reduce((total, a) => total + a, 0);
  let best: { set: number[]; error: number } | null = null;
  for (let size = amounts.length; size <= Math.max(LARGEST_SET, amounts.length); size++) {
    const set = amounts.map((a) => Math.max(1, Math.round((a / sum) * size)));
    const total = set.reduce((t, a) => t + a, 0);
    const error = Math.max(...amounts.map((a, i) => Math.abs(set[i]! / total / (a / sum) - 1)));
    if (error < 1e-9) return { set, exact: true };
    if (best === null || error < best.error - 1e-12) best = { set, error };
  }
  const whole = amounts.map(Number);
  if (whole.every(Number.isInteger)) {
    const divisor = whole.reduce(greatestCommonDivisor);
    if (sum / divisor <= 2 * LARGEST_SET) return { set: whole.map((a) => a / divisor), exact: true };
  }
  return { set: best!.set, exact: false };
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
