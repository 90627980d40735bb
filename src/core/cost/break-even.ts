/**
 * The number of changeovers over the horizon at which boxes are worth what they cost: in all, and machine by machine.
 *
 * The value is a straight line in the count, save where one more connector set is bought: there it jumps. A line that
 * crosses zero gives the exact count; where the value jumps over zero the count of the jump is given and marked.
 */

import { type CaseInputs, num, type TaxBasis } from './case-inputs.js';
import { boxMinutes, harnessMinutes, minuteCost } from './changeover-minutes.js';
import { harnessMoves } from './harness-moves.js';
import { everywhere, incrementValue } from './increment-value.js';
import {
  connectionOf,
  movesEverywhere,
  movesFor,
  stationBoxes,
  type Way,
  yearlyCount,
} from './plan-flows.js';

export interface BreakEven {
  /** Changeovers over the whole horizon; null where no count makes the boxes pay. */
  readonly changeovers: number | null;
  /** True where the value jumps over zero just past this count, because a set of connectors falls due there. */
  readonly atJump: boolean;
}

const MOST_CHANGEOVERS = 1e9;
const MOST_JUMPS = 1000;

/**
 * Of some ways against moving the harness, at a count over all machines in their proportions, spread evenly over the years.
 *
 * @param ways how each machine is served; a box of its own on every one where they are not given
 */
export function breakEvenTotal(inputs: CaseInputs, basis: TaxBasis, ways?: readonly Way[]): BreakEven {
  const planned = plannedCount(inputs);
  if (planned === 0) return { changeovers: null, atJump: false };
  const boxes = ways ?? everywhere(inputs, 'own box');
  const value = (count: number) => incrementValue(scaled(inputs, count / planned), boxes, basis);
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  return firstCrossing(
    value,
    jumps(inputs, (count) => counts.map((each) => (each * count) / planned), boxes),
    ways === undefined &&
      inputs.stations.every((_, k) => savesMinutes(inputs, k)) &&
      num(inputs, 'harness_elsewhere_per_year') === 0,
  );
}

/** For one machine, the harness going on serving the others at their planned counts. */
export function breakEvenStation(inputs: CaseInputs, index: number, basis: TaxBasis): BreakEven {
  const value = stationValue(inputs, index, basis);
  const years = num(inputs, 'horizon_years');
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const at = (count: number) => counts.map((each, k) => (k === index ? count / years : each));
  const ways = inputs.stations.map((_, k): Way => (k === index ? 'own box' : 'harness'));
  return firstCrossing(value, jumps(inputs, at, ways), false);
}

/** Value of equipping one machine alone, as a function of its count over the horizon. */
export function stationValue(inputs: CaseInputs, index: number, basis: TaxBasis): (count: number) => number {
  const years = num(inputs, 'horizon_years');
  const ways: Way[] = inputs.stations.map((_, k) => (k === index ? 'own box' : 'harness'));
  const share = num(inputs, 'changeover_count_pct') / 100;
  return (count) => {
    const perYear = share > 0 ? count / years / share : 0;
    const stations = inputs.stations.map((s, k) => (k === index ? { ...s, perYear } : s));
    return incrementValue({ ...inputs, stations }, ways, basis);
  };
}

/** Changeovers over the horizon, over all machines. */
export function plannedCount(inputs: CaseInputs): number {
  const perYear = inputs.stations.reduce((sum, station) => sum + yearlyCount(inputs, station), 0);
  return perYear * num(inputs, 'horizon_years');
}

/** The same case with every count at a multiple of what it is. */
export function scaled(inputs: CaseInputs, factor: number): CaseInputs {
  const stations = inputs.stations.map((s) => ({ ...s, perYear: s.perYear * factor }));
  return { ...inputs, stations };
}

function savesMinutes(inputs: CaseInputs, index: number): boolean {
  const station = inputs.stations[index]!;
  const cost = minuteCost(inputs, station);
  const moves = movesEverywhere(inputs)[index]!;
  const plugged = yearlyCount(inputs, station) * boxMinutes(inputs, stationBoxes(inputs, station));
  return (moves * harnessMinutes(inputs, station) - plugged) * (cost.labour + cost.contribution) >= 0;
}

interface Jumps {
  /** Counts from 0 on, ascending, at which a set falls due just beyond. */
  at(): readonly number[];
  /** Counts at which the harness begins to rest, or another machine's harness to be moved at all: the line bends. */
  bends(): readonly number[];
  /** A count this far beyond a jump is past it in spite of the hair of room that sets are counted with. */
  step(count: number): number;
  /** True where every jump raises the value (only the harness's connectors wear). */
  readonly upward: boolean;
}

/**
 * Where sets fall due: what wears runs through so many events a year, and their running sum passes a multiple of the
 * rating.
 *
 * @param yearlyAt changeovers a year of each machine at a count over the horizon
 * @param ways that are held against moving the harness everywhere: both wear
 */
function jumps(
  inputs: CaseInputs,
  yearlyAt: (count: number) => readonly number[],
  ways: readonly Way[],
): Jumps {
  const years = num(inputs, 'horizon_years');
  const elsewhere = num(inputs, 'harness_elsewhere_per_year');
  const { connector_matings: harness = null, box_plug_matings: plug = null } = inputs.numbers;
  const sum = (row: readonly number[]) => row.reduce((total, each) => total + each, 0);
  const connection = ways.map(connectionOf).find((name) => name !== null) ?? null;
  const worn = (item: string) => inputs.numbers[`${connection}.${item}`] ?? null;
  const connectionMatings = connection !== null && worn('worn_price') ? worn('matings') : null;
  const connected = (count: number) =>
    years * sum(yearlyAt(count).map((each, k) => (connectionOf(ways[k]!) === null ? 0 : each)));
  const plugWears = plug !== null && num(inputs, 'box_plug_price') > 0;
  const boxes = inputs.stations.map((station, k) =>
    ways[k] === 'harness' || connectionOf(ways[k]!) !== null ? 0 : stationBoxes(inputs, station),
  );
  const moves = (count: number) => years * sum(harnessMoves(yearlyAt(count), elsewhere));
  const kept = (count: number) => years * sum(movesFor(yearlyAt(count), ways, 'harness', elsewhere));
  const plugs = (count: number) =>
    years * yearlyAt(count).reduce((sum, each, k) => sum + each * boxes[k]!, 0);
  const onHarness = (count: number) => yearlyAt(count).map((each, k) => (ways[k] === 'harness' ? each : 0));
  const bends = [...bendsOf(yearlyAt, elsewhere), ...bendsOf(onHarness, elsewhere)].sort((a, b) => a - b);
  const found: number[] = [];
  const collect = (events: (count: number) => number, matings: number): void => {
    for (let k = 1; k <= MOST_JUMPS / years; k++)
      for (let year = 1; year <= years; year++)
        found.push(countOf(events, (k * matings * years) / year, bends));
  };
  const at = (): number[] => {
    if (harness !== null && num(inputs, 'connector_price') > 0) {
      collect(moves, harness);
      if (ways.includes('harness')) collect(kept, harness);
    }
    if (plugWears) collect(plugs, plug);
    if (connectionMatings !== null) collect(connected, connectionMatings);
    return [...new Set(found.filter((count) => count >= 0 && count < MOST_CHANGEOVERS))].sort(
      (a, b) => a - b,
    );
  };
  const step = (count: number) => 1e-9 * Math.max(1, count, moves(count), harness ?? 0, plug ?? 0);
  return { at, bends: () => bends, step, upward: !plugWears && connectionMatings === null };
}

/** Counts at which one machine is changed over as often as the harness is fetched to all other places. */
function bendsOf(yearlyAt: (count: number) => readonly number[], elsewhere: number): number[] {
  const [none, one] = [yearlyAt(0), yearlyAt(1)];
  const all = (row: readonly number[]) => row.reduce((sum, each) => sum + each, 0);
  const over = (row: readonly number[], k: number) => 2 * row[k]! - all(row) - elsewhere;
  return none
    .flatMap((_, k) => {
      const slope = over(one, k) - over(none, k);
      const count = -over(none, k) / slope;
      return slope !== 0 && Number.isFinite(count) && count > 0 ? [count] : [];
    })
    .sort((a, b) => a - b);
}

/** The count at which the events, straight between the bends and never falling, reach a number; below 0 where never. */
function countOf(events: (count: number) => number, wanted: number, bends: readonly number[]): number {
  const ends = [0, ...bends, MOST_CHANGEOVERS];
  for (let k = 1; k < ends.length; k++) {
    const [low, high] = [ends[k - 1]!, ends[k]!];
    const [least, most] = [events(low), events(high)];
    if (wanted <= most && most > least) return low + ((wanted - least) / (most - least)) * (high - low);
  }
  return -1;
}

/** The least count from which the value is 0 or more. */
function firstCrossing(value: (count: number) => number, jumps: Jumps, rising: boolean): BreakEven {
  if (value(0) >= 0) return { changeovers: 0, atJump: false };
  if (rising && jumps.upward) {
    let high = 1;
    while (value(high) < 0) {
      high *= 2;
      if (high > MOST_CHANGEOVERS) return { changeovers: null, atJump: false };
    }
    return bisect(value, high > 1 ? high / 2 : 0, high, jumps);
  }
  return scan(value, jumps);
}

/** Piece by piece between the jumps: the value can rise and fall. */
function scan(value: (count: number) => number, jumps: Jumps): BreakEven {
  let low = 0;
  const at = jumps.at();
  const ends = [...at, ...jumps.bends(), MOST_CHANGEOVERS].sort((a, b) => a - b);
  for (const high of ends) {
    const start = low + jumps.step(low);
    if (start >= high) continue;
    if (value(start) >= 0 && at.some((jump) => near(jump, low, jumps)))
      return { changeovers: low, atJump: true };
    if (value(high) >= 0) return bisect(value, low === 0 && value(start) >= 0 ? 0 : start, high, jumps);
    low = high;
  }
  return { changeovers: null, atJump: false };
}

function bisect(value: (count: number) => number, from: number, to: number, jumps: Jumps): BreakEven {
  let [low, high] = [from, to];
  for (let step = 0; step < 200 && high - low > 2 ** -52 * high; step++) {
    const middle = (low + high) / 2;
    if (value(middle) < 0) low = middle;
    else high = middle;
  }
  const [below, above] = [value(low), value(high)];
  const size = Math.abs(value(0)) + Math.abs(above);
  const atJump = above - below > 1e-9 * size;
  // The running count is held against the rating with a hair of room for rounding, so the count of the jump itself is told.
  if (atJump) return { changeovers: jumps.at().find((jump) => near(jump, low, jumps)) ?? low, atJump };
  return { changeovers: Math.abs(below) < Math.abs(above) ? low : high, atJump };
}

function near(jump: number, count: number, jumps: Jumps): boolean {
  return Math.abs(jump - count) <= jumps.step(jump);
}
