/** Whether the robot has a time for every way that it may have to go, and whether ways round beat direct ways. */
import type { Cell } from '../core/model/cell.js';
import { type TravelLookup, type TravelTime, travelLookup } from '../core/model/travel.js';
import type { ComplaintList } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import { tableLimits } from './limits.js';
import { reportTable } from './sheet.js';

type Inputs = Pick<Cell, 'stations' | 'routes' | 'robot' | 'travel'>;

/** Differences below this are rounding. */
const TOLERANCE_S = 1e-9;
const OFFENDERS_NAMED = 3;

/** @param file table under which missing times are reported */
export function checkTravel(list: ComplaintList, cell: Inputs, file: string): void {
  const names = visitedStations(cell);
  const lookup = travelLookup(cell);
  const missing = missingPairs(names, lookup);
  if (missing.length > 0) reportMissing(list, cell, file, missing);
  else if (cell.travel.length > 0) reportWaysRound(list, names, lookup);
}

/** Stations that a route visits; the robot may have to go from any of them to any other, empty or loaded. */
function visitedStations({ routes }: Inputs): string[] {
  return [...new Set(routes.flatMap((route) => route.steps.flatMap((step) => step.stations)))];
}

type Pair = readonly [string, string];

function missingPairs(names: readonly string[], lookup: TravelLookup): Pair[] {
  return names.flatMap((from, i) =>
    names.slice(i + 1).flatMap((to): Pair[] => (lookup(from, to) === null ? [[from, to]] : [])),
  );
}

/** One complaint that names the pairs: they mostly lack one and the same input. */
function reportMissing(list: ComplaintList, cell: Inputs, file: string, missing: readonly Pair[]): void {
  const shown = missing.slice(0, tableLimits.pairsNamed);
  const named = shown.map(([from, to]) => `${inBackticks(from)} and ${inBackticks(to)}`).join('; ');
  const more = missing.length > shown.length ? `; and ${missing.length - shown.length} more` : '';
  const pairs = missing.length === 1 ? 'between' : `for ${missing.length} pairs of stations:`;
  const text = `no robot time is given ${pairs} ${named}${more}`;
  reportTable(list, file, { code: 'TRA03', text, help: missingHelp(cell) });
}

function missingHelp({ stations, robot }: Inputs): string {
  const hasPositions = stations.some((s) => s.xM !== null);
  if (hasPositions && robot.speedMS === null)
    return 'Positions are given: add `speed_m_s` to robot.csv, or a row to travel.csv, or `travel_s` to robot.csv.';
  return 'Add a row to travel.csv, positions with `speed_m_s`, or `travel_s` in robot.csv for all other pairs.';
}

interface WayRound {
  readonly from: string;
  readonly to: string;
  readonly over: string;
  readonly directS: number;
  readonly roundS: number;
}

/** One warning for the table, naming the pairs that a way round shortens most. */
function reportWaysRound(list: ComplaintList, names: readonly string[], lookup: TravelLookup): void {
  const found = [...waysRound(names, lookup, 'emptyS'), ...waysRound(names, lookup, 'loadedS')];
  const worst = new Map<string, WayRound>();
  for (const way of found.sort((a, b) => savingS(b) - savingS(a))) {
    const pair = [way.from, way.to].join('\0');
    if (!worst.has(pair)) worst.set(pair, way);
  }
  if (worst.size === 0) return;
  const named = [...worst.values()].slice(0, OFFENDERS_NAMED).map(wayText).join('; ');
  const count = worst.size > OFFENDERS_NAMED ? ` (${worst.size} pairs in all)` : '';
  reportTable(list, 'travel.csv', {
    code: 'TRA04',
    severity: 'warning',
    text: `a way round is quicker than the direct way: ${named}${count}`,
    help: 'The direct times are used as they stand; check the longer of the times named.',
  });
}

function savingS(way: WayRound): number {
  return way.directS - way.roundS;
}

function wayText({ from, to, over, directS, roundS }: WayRound): string {
  const seconds = (s: number) => `${Number(s.toPrecision(6))} s`;
  const names = [from, to, over].map(inBackticks);
  return `${names[0]} to ${names[1]} takes ${seconds(directS)}, over ${names[2]} ${seconds(roundS)}`;
}

/** For each ordered pair the best way over one other station, where it beats the direct one. */
function waysRound(
  names: readonly string[],
  lookup: TravelLookup,
  which: keyof TravelTime & ('emptyS' | 'loadedS'),
) {
  const n = names.length;
  const time = new Float64Array(n * n);
  names.forEach((from, i) => {
    names.forEach((to, j) => {
      time[i * n + j] = lookup(from, to)?.[which] ?? 0;
    });
  });
  const found: WayRound[] = [];
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      const over = i === j ? -1 : bestDetour(time, n, i, j);
      if (over < 0) continue;
      const roundS = time[i * n + over]! + time[over * n + j]!;
      found.push({ from: names[i]!, to: names[j]!, over: names[over]!, directS: time[i * n + j]!, roundS });
    }
  }
  return found;
}

function bestDetour(time: Float64Array, n: number, i: number, j: number): number {
  let best = -1;
  let least = time[i * n + j]! - TOLERANCE_S;
  for (let k = 0; k < n; k += 1) {
    if (k === i || k === j) continue;
    const round = time[i * n + k]! + time[k * n + j]!;
    if (round < least) [best, least] = [k, round];
  }
  return best;
}
