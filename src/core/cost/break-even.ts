/**
 * The number of changeovers over the horizon at which boxes are worth what they cost: in all, and machine by machine.
 *
 * The value is a straight line in the count, save where one more connector set is bought: there it jumps. A line that
 * crosses zero gives the exact count; where the value jumps over zero the count of the jump is given and marked.
 */
import { type CaseInputs, num } from './case-inputs.js';
import { boxMinutes, harnessMinutes, minuteCost } from './changeover-minutes.js';
import { everywhere, incrementValue, type TaxBasis } from './increment-value.js';
import { type Way, yearlyCount } from './plan-flows.js';

export interface BreakEven {
  /** Changeovers over the whole horizon; null where no count makes the boxes pay. */
  readonly changeovers: number | null;
  /** True where the value jumps over zero just past this count, because a set of connectors falls due there. */
  readonly atJump: boolean;
}

const MOST_CHANGEOVERS = 1e9;
const MOST_JUMPS = 1000;

/** For all machines together, in their proportions, spread evenly over the years. */
export function breakEvenTotal(inputs: CaseInputs, basis: TaxBasis): BreakEven {
  const planned = plannedCount(inputs);
  if (planned === 0) return { changeovers: null, atJump: false };
  const boxes = everywhere(inputs, 'own box');
  const value = (count: number) => incrementValue(scaled(inputs, count / planned), boxes, basis);
  return firstCrossing(
    value,
    jumps(inputs, 0),
    inputs.stations.every((_, k) => savesMinutes(inputs, k)),
  );
}

/** For one machine, the harness going on serving the others at their planned counts. */
export function breakEvenStation(inputs: CaseInputs, index: number, basis: TaxBasis): BreakEven {
  const { value, rest } = stationValue(inputs, index, basis);
  return firstCrossing(value, jumps(inputs, rest), savesMinutes(inputs, index));
}

/** Value of equipping one machine alone, as a function of its count over the horizon. */
export function stationValue(
  inputs: CaseInputs,
  index: number,
  basis: TaxBasis,
): { value: (count: number) => number; rest: number } {
  const years = num(inputs, 'horizon_years');
  const ways: Way[] = inputs.stations.map((_, k) => (k === index ? 'own box' : 'harness'));
  const rest = plannedCount(inputs) - years * yearlyCount(inputs, inputs.stations[index]!);
  const share = num(inputs, 'changeover_count_pct') / 100;
  const value = (count: number): number => {
    const perYear = share > 0 ? count / years / share : 0;
    const stations = inputs.stations.map((s, k) => (k === index ? { ...s, perYear } : s));
    return incrementValue({ ...inputs, stations }, ways, basis);
  };
  return { value, rest };
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
  return (harnessMinutes(inputs, station) - boxMinutes(inputs)) * (cost.labour + cost.contribution) >= 0;
}

interface Jumps {
  /** Counts from 0 on, ascending, at which a set falls due just beyond. */
  at(): readonly number[];
  /** A count this far beyond a jump is past it in spite of the hair of room that sets are counted with. */
  step(count: number): number;
  /** True where every jump raises the value (only the harness's connectors wear). */
  readonly upward: boolean;
}

/** Where sets fall due: the running count y N / H (and what the other machines add) passes a multiple of the rating. */
function jumps(inputs: CaseInputs, rest: number): Jumps {
  const years = num(inputs, 'horizon_years');
  const { connector_matings: harness = null, box_plug_matings: plug = null } = inputs.numbers;
  const plugWears = plug !== null && num(inputs, 'box_plug_price') > 0;
  const found: number[] = [];
  const collect = (matings: number, offset: number): void => {
    for (let k = 1; k <= MOST_JUMPS / years; k++)
      for (let year = 1; year <= years; year++) found.push((k * matings * years) / year - offset);
  };
  const at = (): number[] => {
    if (harness !== null && num(inputs, 'connector_price') > 0) collect(harness, rest);
    if (plugWears) collect(plug, 0);
    return [...new Set(found.filter((count) => count >= 0))].sort((a, b) => a - b);
  };
  const step = (count: number) => 1e-9 * Math.max(1, count + rest, harness ?? 0, plug ?? 0);
  return { at, step, upward: !plugWears };
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
  for (const high of [...at, MOST_CHANGEOVERS]) {
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
  return { changeovers: atJump ? jumpNear(low, jumps) : nearerZero(low, below, high, above), atJump };
}

/** The count of the jump itself: the running count is held against the rating with a hair of room for rounding. */
function jumpNear(count: number, jumps: Jumps): number {
  return jumps.at().find((jump) => near(jump, count, jumps)) ?? count;
}

function near(jump: number, count: number, jumps: Jumps): boolean {
  return Math.abs(jump - count) <= jumps.step(jump);
}

function nearerZero(low: number, below: number, high: number, above: number): number {
  return Math.abs(below) < Math.abs(above) ? low : high;
}
