/** The minutes of setups.csv as a square table for each machine; the way back takes the same unless it has its own row. */

import type { Setup } from './cell.js';
import { firstFew } from './first-few.js';

export interface SetupTable {
  /** In the order in which the table names them first. */
  readonly jobs: readonly string[];
  /** minutes[i][j] from job i to job j; 0 on the diagonal; null where neither direction is given. */
  readonly minutes: readonly (readonly (number | null)[])[];
}

/** Jobs of a machine, in the order in which the table names them first. */
export function jobsOf(setups: readonly Setup[], station: string): string[] {
  const rows = setups.filter((setup) => setup.station === station);
  return [...new Set(rows.flatMap((row) => [row.from, row.to]))];
}

export function setupTable(setups: readonly Setup[], station: string): SetupTable {
  const jobs = jobsOf(setups, station);
  const rows = setups.filter((setup) => setup.station === station);
  const given = new Map(rows.map((row) => [pairKey(row.from, row.to), row.minutes]));
  const minutesOf = (from: string, to: string): number | null =>
    from === to ? 0 : (given.get(pairKey(from, to)) ?? given.get(pairKey(to, from)) ?? null);
  return { jobs, minutes: jobs.map((from) => jobs.map((to) => minutesOf(from, to))) };
}

/** Pairs of jobs of a machine that have no row in either direction. */
export function missingSetups(setups: readonly Setup[], station: string): [from: string, to: string][] {
  const { jobs, minutes } = setupTable(setups, station);
  return jobs.flatMap((from, i) =>
    jobs.flatMap((to, j): [string, string][] => (i < j && minutes[i]![j] === null ? [[from, to]] : [])),
  );
}

/** What is said of the pairs of a machine that have a row in one direction only; null where there is none. */
export function wayBackText(setups: readonly Setup[], station: string): string | null {
  const rows = setups.filter((setup) => setup.station === station);
  const given = new Set(rows.map(({ from, to }) => pairKey(from, to)));
  const lone = rows.filter(({ from, to }) => !given.has(pairKey(to, from)));
  if (lone.length === 0) return null;
  const pairs = lone.map(
    ({ from, to, minutes, at }) =>
      `${to} to ${from} ${minutes} min${at === undefined ? '' : ` (line ${at.line})`}`,
  );
  return `${station}: changeovers without a row of their own in setups.csv are taken to need the minutes of the other direction: ${firstFew(pairs, PAIRS_NAMED)}.`;
}

/** True where some pairs of a machine have a row for each direction and others have not: one may have been forgotten. */
export function mayLackRows(setups: readonly Setup[], station: string): boolean {
  const rows = setups.filter((setup) => setup.station === station);
  const given = new Set(rows.map(({ from, to }) => pairKey(from, to)));
  const both = rows.filter(({ from, to }) => given.has(pairKey(to, from)));
  return both.length > 0 && both.length < rows.length;
}

/** Pairs that one sentence names. */
const PAIRS_NAMED = 5;

function pairKey(from: string, to: string): string {
  return `${from}\0${to}`;
}
