/** Whether the robot has a time for every way that it may have to go, and whether ways round beat direct ways. */
import type { Cell } from '../core/model/cell.js';
import { type TravelLookup, travelLookup } from '../core/model/travel.js';
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
  const times = timesBetween(names, travelLookup(cell));
  if (times.missing.length > 0) reportMissing(list, cell, file, times.missing);
  else if (cell.travel.length > 0) reportWaysRound(list, names, times);
}

type Pair = readonly [string, string];

/** Robot times between every two stations, row by row; a pair without a time is missing in both directions. */
interface Times {
  readonly emptyS: Float64Array;
  readonly loadedS: Float64Array;
  readonly missing: readonly Pair[];
}

function timesBetween(names: readonly string[], lookup: TravelLookup): Times {
  const emptyS = new Float64Array(names.length ** 2);
  const loadedS = new Float64Array(names.length ** 2);
  const missing: Pair[] = [];
  names.forEach((from, i) => {
    names.forEach((to, j) => {
      const time = lookup(from, to);
      if (time === null && i < j) missing.push([from, to]);
      emptyS[i * names.length + j] = time?.emptyS ?? 0;
      loadedS[i * names.length + j] = time?.loadedS ?? 0;
    });
  });
  return { emptyS, loadedS, missing };
}

/** Stations that a route visits; the robot may have to go from any of them to any other, empty or loaded. */
function visitedStations({ routes }: Inputs): string[] {
  return [...new Set(routes.flatMap((route) => route.steps.flatMap((step) => step.stations)))];
}

/** One complaint that names the pairs: they mostly lack one and the same input. */
function reportMissing(list: ComplaintList, cell: Inputs, file: string, missing: readonly Pair[]): void {
  const shown = missing.slice(0, tableLimits.pairsNamed);
  const named = shown.map(([from, to]) => `${inBackticks(from)} and ${inBackticks(to)}`).join('; ');
  const more = missing.length > shown.length ? `; and ${missing.length - shown.length} more` : '';
  const pairs = missing.length === 1 ? 'between' : `for ${missing.length} pairs of stations:`;
  const text = `no robot time is given ${pairs} ${named}${more}`;
  reportTable({ list, file }, { code: 'TRA03', text, help: missingHelp(cell) });
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
function reportWaysRound(list: ComplaintList, names: readonly string[], times: Times): void {
  const found = [...waysRound(names, times.emptyS), ...waysRound(names, times.loadedS)];
  const worst = new Map<string, WayRound>();
  for (const way of found.sort((a, b) => savingS(b) - savingS(a))) {
    const pair = [way.from, way.to].join('\0');
    if (!worst.has(pair)) worst.set(pair, way);
  }
  if (worst.size === 0) return;
  const named = [...worst.values()].slice(0, OFFENDERS_NAMED).map(wayText).join('; ');
  const count = worst.size > OFFENDERS_NAMED ? ` (${worst.size} pairs in total)` : '';
  const travel = { list, file: 'travel.csv' };
  reportTable(travel, {
    code: 'TRA04',
    severity: 'warning',
    text: `a detour is quicker than the direct trip: ${named}${count}`,
    help: 'The direct times are used as given; check the longer of the times named.',
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
function waysRound(names: readonly string[], time: Float64Array): WayRound[] {
  const n = names.length;
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
