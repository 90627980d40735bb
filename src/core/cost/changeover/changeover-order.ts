/**
 * The order of jobs that needs the fewest set-up minutes where set-ups depend on what was set up before: the asymmetric
 * travelling salesman, as a round (the week repeats) or as a line from a given or any first job.
 */
import { goodTour, tourMinutes } from './improve-tour.js';
import { shortestTourByTable } from './shortest-tour-table.js';
import { tourBySubtours } from './tour-by-subtours.js';

export interface ChangeoverOrderOptions {
  /** True where the last job is followed by the first again; false when not given. */
  readonly round?: boolean;
  /** Place of the job that comes first (such as what is set up now); any when not given. */
  readonly first?: number;
  /** Most nodes of the search beyond 17 jobs; 5000 when not given. */
  readonly nodeLimit?: number;
}

export interface ChangeoverOrder {
  /** Places of the jobs, in order. */
  readonly order: readonly number[];
  readonly minutes: number;
  /** No order takes fewer minutes. */
  readonly boundMinutes: number;
  readonly gapPct: number;
  readonly proven: boolean;
  readonly method: 'table of all sets' | 'branch and bound';
}

/** Places of the closed table up to which every set of jobs is tabled: about a fifth of a second and 20 MB. */
const TABLE_PLACES = 18;
const MOST_JOBS = 400;

/**
 * Exact to 17 jobs by dynamic programming; beyond, branch and bound on the assignment problem, started from a local
 * search, proven where it ends within its nodes and with a lower bound where not.
 *
 * @param minutes square table: minutes[i][j] to change from job i to job j; finite, 0 or more; the diagonal is not read
 * @throws RangeError where the table is empty, not square or holds a number outside its range, or `first` is no job
 * @example changeoverOrder([[0, 5, 1], [2, 0, 9], [8, 3, 0]], { round: true }).minutes // 6: 0, 2, 1 and back
 */
export function changeoverOrder(
  minutes: readonly (readonly number[])[],
  options: ChangeoverOrderOptions = {},
): ChangeoverOrder {
  requireTable(minutes, options.first);
  const { round = false, first, nodeLimit = 5000 } = options;
  const jobs = minutes.length;
  const table = closedTable(minutes, round, first);
  const small = table.length <= TABLE_PLACES;
  const found = small ? exact(table) : tourBySubtours(table, goodTour(table), nodeLimit);
  const order = lineFrom(found.tour, round ? (first ?? 0) : (first ?? jobs), jobs);
  const gap = found.minutes - found.bound;
  const proven = gap <= 1e-9 * Math.max(1, found.minutes);
  return {
    order,
    minutes: found.minutes,
    boundMinutes: proven ? found.minutes : found.bound,
    gapPct: proven || found.minutes === 0 ? 0 : (100 * gap) / found.minutes,
    proven,
    method: small ? 'table of all sets' : 'branch and bound',
  };
}

function exact(table: readonly (readonly number[])[]): { tour: number[]; minutes: number; bound: number } {
  const tour = shortestTourByTable(table);
  const minutes = table.length < 2 ? 0 : tourMinutes(table, tour);
  return { tour, minutes, bound: minutes };
}

/** A line becomes a round: going back to the first job is free, or a job of no minutes stands between last and first. */
function closedTable(
  minutes: readonly (readonly number[])[],
  round: boolean,
  first: number | undefined,
): number[][] {
  const plain = minutes.map((line, i) => line.map((value, j) => (i === j ? 0 : value)));
  if (round) return plain;
  if (first !== undefined) return plain.map((line) => line.map((value, j) => (j === first ? 0 : value)));
  return [...plain.map((line) => [...line, 0]), Array.from({ length: minutes.length + 1 }, () => 0)];
}

function lineFrom(tour: readonly number[], start: number, jobs: number): number[] {
  const at = tour.indexOf(start);
  return [...tour.slice(at), ...tour.slice(0, at)].filter((job) => job < jobs);
}

function requireTable(minutes: readonly (readonly number[])[], first: number | undefined): void {
  const jobs = minutes.length;
  if (jobs === 0) throw new RangeError('there must be at least one job');
  if (jobs > MOST_JOBS)
    throw new RangeError(`there are ${jobs} jobs: at most ${MOST_JOBS} can be put in order`);
  minutes.forEach((line, i) => {
    if (line.length !== jobs)
      throw new RangeError(`row ${i + 1} of the table holds ${line.length} numbers for ${jobs} jobs`);
    line.forEach((value, j) => {
      if (i !== j && !(Number.isFinite(value) && value >= 0))
        throw new RangeError(`from job ${i + 1} to job ${j + 1}: found ${value}, minutes must be 0 or more`);
    });
  });
  if (first !== undefined && !(Number.isInteger(first) && first >= 0 && first < jobs))
    throw new RangeError(`the first job is ${first}: it must be a place from 0 to ${jobs - 1}`);
}
