/**
 * The rate bound cut down by what pairs, triples and larger groups of parts allow, watched by themselves (see
 * `watched-group.ts`). Of a group the rates that its sequences make are known as far as they were asked for; where the
 * program's rates lie outside of them, the weights that tell them apart best are asked for next, until they give a row
 * that cuts the rates off, or the rates turn out to be possible.
 */
import { type LinearAnswer, type LinearRow, solveLinearProgram } from '../../lp/solve-linear-program.js';
import { type Terms, termsOf, valueAt } from '../../lp/terms.js';
import type { Cell } from '../../model/cell.js';
import { cellProgram, startsOf } from '../bound/cell-program.js';
import { goalTerms, hourRows } from '../bound/rate-bound.js';
import type { Goal } from '../plan/weights.js';
import { unitsOf, WatchedGroup, type WatchedUnit } from './watched-group.js';

export interface WatchedLimits {
  /** States of one group at most. */
  readonly states: number;
  /** States looked at in all, about: those of a group count as it is listed and each time that it is asked. */
  readonly work: number;
  /** Moment (Date.now()) after which the bound stays as it is; Infinity where no time limit was given. */
  readonly untilMs: number;
}

/** Parts in a group at most, passes over the groups of a size, and rounds in which a group is asked. */
const LARGEST_GROUP = 3;
const PASSES = 12;
const ROUNDS = 24;
/** Rates beyond what a group allows by less than this share are not cut off. */
const LEAST_CUT = 1e-4;
/** A pass that lowers the bound by less than this share is the last one. */
const LEAST_GAIN = 1e-3;
/** Slack of every row, against rounding. */
const SLACK = 1e-9;

interface Watched {
  readonly units: readonly number[];
  /** By what its pairs have, how many states it may have: groups are looked at in this order. */
  readonly size: number;
  /** undefined = not looked at yet, null = too large. */
  group: WatchedGroup | null | undefined;
  /** Rates in parts an hour, by unit of the group, that its sequences make. */
  readonly made: (readonly number[])[];
}

/** @returns the most of the goal per second, or null where there is no group to watch or the program gave no sure answer */
export function watchedBound(cell: Cell, goal: Goal, limits: WatchedLimits): number | null {
  const units = unitsOf(cell);
  if (units.length < 2) return null;
  const program = cellProgram(cell);
  const terms = units.map((unit) => unitTerms(program.legs, unit));
  const [objective, keep] = goalTerms(cell, goal, program);
  const base = [...hourRows(program), ...keep];
  const cuts: LinearRow[] = [];
  const solve = (): LinearAnswer =>
    solveLinearProgram({ sense: 'most', objective, rows: [...base, ...cuts] });
  let answer = solve();
  if (answer.status !== 'optimal') return null;
  let least = answer.value;
  let work = 0;
  const asked = (states: number): boolean => {
    work += states;
    return work <= limits.work && Date.now() <= limits.untilMs;
  };
  const alone = units.map((unit) => WatchedGroup.of(cell, [unit], limits.states)?.most([1])?.perS ?? 0);
  // What cannot be watched alone cannot be in a group.
  const watchable = units.flatMap((_, u) => (alone[u]! > 0 ? [u] : []));
  const known: Watched[] = [];
  for (let size = 2; size <= Math.min(watchable.length, LARGEST_GROUP); size++) {
    const groups = groupsOf(watchable, size)
      .map((of) => watchedOf(of, alone, known))
      .sort((a, b) => a.size - b.size);
    for (let pass = 0; pass < PASSES && work <= limits.work; pass++) {
      const before = least;
      for (const watched of groups) {
        const { at } = answer as { at: Record<string, number> };
        const rates = terms.map((own) => Math.max(0, valueAt(own, at)));
        const row = cutOf(cell, units, watched, rates, terms, limits.states, asked);
        // The others are larger still.
        if (watched.group === null && size > 2) break;
        if (row === null) continue;
        cuts.push(row);
        const next = solve();
        if (next.status === 'optimal') {
          answer = next;
          least = Math.min(least, next.value);
        } else cuts.pop();
      }
      if (before - least < LEAST_GAIN * least) break;
    }
    known.push(...groups);
  }
  return least / 3600;
}

function unitTerms(legs: Parameters<typeof startsOf>[0], { route, station }: WatchedUnit): Terms {
  if (station === null) return startsOf(legs, route);
  const own = legs.filter((leg) => leg.route === route && leg.fromStep === 0 && leg.to === station);
  return termsOf(...own.map((leg) => [leg.name, 1] as const));
}

function groupsOf(units: readonly number[], size: number): (readonly number[])[] {
  const list: (readonly number[])[] = [];
  const fill = (from: number, chosen: readonly number[]): void => {
    if (chosen.length === size) list.push(chosen);
    else for (let i = from; i < units.length; i++) fill(i + 1, [...chosen, units[i]!]);
  };
  fill(0, []);
  return list;
}

/** A group, with what its units make alone and smaller groups of them together. */
function watchedOf(units: readonly number[], alone: readonly number[], smaller: readonly Watched[]): Watched {
  const single = units.map((u, k) => units.map((_, i) => (i === k ? alone[u]! * 3600 : 0)));
  const parts = smaller.filter((one) => one.units.every((u) => units.includes(u)));
  const together = parts.flatMap((one) =>
    one.made
      .filter((rates) => rates.every((rate) => rate > 0))
      .map((rates) => units.map((u) => rates[one.units.indexOf(u)] ?? 0)),
  );
  const size = parts.reduce((product, one) => product * (one.group?.states ?? Number.POSITIVE_INFINITY), 1);
  return { units, size, group: undefined, made: [...single, ...together] };
}

/** A row that the rates of the program break, and no way to run the cell does; null where none was found. */
function cutOf(
  cell: Cell,
  units: readonly WatchedUnit[],
  watched: Watched,
  rates: readonly number[],
  terms: readonly Terms[],
  mostStates: number,
  asked: (states: number) => boolean,
): LinearRow | null {
  const own = watched.units.map((u) => rates[u]!);
  if (own.every((rate) => rate <= 1e-9)) return null;
  if (watched.group === undefined) {
    if (!asked(0)) return null;
    const of = watched.units.map((u) => units[u]!);
    watched.group = WatchedGroup.of(cell, of, mostStates);
    asked(watched.group?.states ?? mostStates);
  }
  const { group, made } = watched;
  if (group === null) return null;
  for (let round = 0; round < ROUNDS; round++) {
    const weights = apart(own, made);
    if (weights === null || !asked(group.states)) return null;
    const most = group.most(weights);
    if (most === null) return null;
    const limit = most.perS * 3600;
    const reached = own.reduce((sum, rate, k) => sum + rate * weights[k]!, 0);
    const grows = limit > 1 + 1e-7;
    if (grows) made.push(most.rates.map((rate) => rate * 3600));
    if (!grows && reached > limit * (1 + LEAST_CUT))
      return {
        name: `watched ${watched.units.join('+')} ${made.length}`,
        terms: termsOf(
          ...watched.units.flatMap((u, k) =>
            Object.entries(terms[u]!).map(([name, by]) => [name, by * weights[k]!] as const),
          ),
        ),
        most: limit * (1 + SLACK),
      };
    if (!grows) return null;
  }
  return null;
}

/**
 * Weights by which the rates come to most while no known sequence makes more than 1; null where they come to 1 at most.
 * Each rate is counted against what its unit makes alone, so that the program's numbers are of like size.
 */
function apart(rates: readonly number[], made: readonly (readonly number[])[]): number[] | null {
  const alone = rates.map((_, k) => made[k]![k]!);
  const shares = (of: readonly number[]): Record<string, number> =>
    Object.fromEntries(of.map((rate, k) => [`a${k}`, rate / alone[k]!]));
  const answer = solveLinearProgram({
    sense: 'most',
    objective: shares(rates),
    rows: made.map((own, i) => ({ name: `made ${i}`, terms: shares(own), most: 1 })),
  });
  if (answer.status !== 'optimal' || answer.value <= 1 + LEAST_CUT) return null;
  return rates.map((_, k) => Math.max(0, answer.at[`a${k}`] ?? 0) / alone[k]!);
}
