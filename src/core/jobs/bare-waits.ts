/**
 * What machines lose at first where nothing is set up on them and people can set up only one at a time: each but one waits.
 * For every set of such machines the waiting times, weighted by the set-up times, come to the sum of the products of all
 * pairs of set-up times at least.
 * Source: the inequalities of one machine's completion times (Queyranne 1993), here for the people as that machine.
 */
import type { LinearRow } from '../lp/solve-linear-program.js';
import type { Terms } from '../lp/terms.js';
import type { JobMachine } from './job-problem.js';

export interface BareMachine {
  /** Variable: hours from the beginning until its set-up is begun. */
  readonly wait: string;
  /** Least hours of its set-up. */
  readonly setupH: number;
  /** What comes to 1 where it is set up, and to 0 or less where it is not. */
  readonly isSetUp: Readonly<Terms>;
}

/** Machines whose sets all get a row; of more, only pairs and the whole. */
const MOST_SETS = 7;

/** True where people who can work at one moment cannot set up two such machines at once. */
export function isOneAtATime(machine: Pick<JobMachine, 'people' | 'first'>, people: number): boolean {
  return machine.first < 0 && machine.people > people / 2;
}

export function bareWaitRows(name: string, machines: readonly BareMachine[]): LinearRow[] {
  const list = machines.filter(({ setupH }) => setupH > 0);
  return setsOf(list.length).map((set) => {
    const terms: Terms = {};
    let pairs = 0;
    for (const [place, i] of set.entries()) {
      const one = list[i]!;
      terms[one.wait] = one.setupH;
      const others = set.reduce((sum, k) => (k === i ? sum : sum + list[k]!.setupH), 0);
      for (const [variable, by] of Object.entries(one.isSetUp))
        terms[variable] = (terms[variable] ?? 0) - by * one.setupH * others;
      for (const k of set.slice(place + 1)) pairs += one.setupH * list[k]!.setupH;
    }
    return { name: `${name}: one changeover at a time`, terms, least: -pairs };
  });
}

/** Whichever of two goes first, the other waits for it: with a choice for each pair, where those may be made. */
export function orderRows(
  name: string,
  machines: readonly BareMachine[],
  longestH: number,
): { readonly rows: LinearRow[]; readonly whole: string[] } {
  const whole: string[] = [];
  const rows = machines.flatMap((one, i) =>
    machines.slice(i + 1).flatMap((other, k) => {
      const first = `${name} first ${i} ${i + 1 + k}`;
      whole.push(first);
      const most = longestH + Math.max(one.setupH, other.setupH);
      return [
        afterRow(name, one, other, { [first]: -most }, -most),
        afterRow(name, other, one, { [first]: most }, 0),
        { name, terms: { [first]: 1 }, most: 1 },
      ];
    }),
  );
  return { rows, whole };
}

/** `later` waits for `sooner` where both are set up. */
function afterRow(
  name: string,
  sooner: BareMachine,
  later: BareMachine,
  choice: Readonly<Terms>,
  least: number,
): LinearRow {
  const terms: Terms = { [later.wait]: 1, [sooner.wait]: -1, ...choice };
  for (const isSetUp of [sooner.isSetUp, later.isSetUp])
    for (const [variable, by] of Object.entries(isSetUp))
      terms[variable] = (terms[variable] ?? 0) - by * sooner.setupH;
  return { name: `${name}: one changeover after the other`, terms, least: least - sooner.setupH };
}

/** Sets of two and more of the numbers below `count`. */
function setsOf(count: number): number[][] {
  const all = Array.from({ length: count }, (_, i) => i);
  if (count > MOST_SETS) return [...all.flatMap((i) => all.slice(i + 1).map((k) => [i, k])), all];
  return Array.from({ length: 1 << count }, (_, bits) => all.filter((i) => (bits >> i) & 1)).filter(
    (set) => set.length >= 2,
  );
}
