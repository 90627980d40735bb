/** For each input alone: the value nearest to its own at which the decision turns. */
import { costItems } from '../../model/cost-items.js';
import { type CaseInputs, follow, withNumbers } from '../case-inputs.js';

export interface BreakPoint {
  readonly item: string;
  readonly value: number;
  /** Value at which boxes and harness are worth the same; for whole-number items the first value past the turn. */
  readonly turnsAt: number;
  /** Change from the value to the turn, in per cent of the value; null where the value is 0. */
  readonly changePct: number | null;
}

/** Looked for up to this many times the value (or the price of a box, for money), and down to the item's least. */
const MOST_TIMES = 100;
const STEPS = 24;

/**
 * @param value the figure whose sign is the decision
 * @returns the items that can turn it, the one that needs the least change first
 */
export function breakPoints(inputs: CaseInputs, value: (inputs: CaseInputs) => number): BreakPoint[] {
  const points = costItems.flatMap((format) => {
    const now = inputs.numbers[format.name];
    if (format.kind !== 'number' || now === null || now === undefined) return [];
    if (inputs.followers.some(([item]) => item === format.name) || NOT_VARIED.has(format.name)) return [];
    const at = valueAlong(inputs, format.name, value);
    const base = at(now);
    const scale = format.unit.startsWith('money') ? (inputs.numbers.box_price ?? 0) : 1;
    const most = Math.max(now, scale) * MOST_TIMES;
    const high = Math.min(format.max ?? Number.POSITIVE_INFINITY, most);
    const least = format.aboveMin ? format.min + 1e-6 * (1 + Math.abs(format.min)) : format.min;
    if (at(least) === base && at(high) === base && at((now + high) / 2) === base) return [];
    const seek = format.whole ? wholeTurn : turn;
    const turnsAt = nearest(now, seek(at, now, least), seek(at, now, high));
    if (turnsAt === null) return [];
    return [
      { item: format.name, value: now, turnsAt, changePct: now === 0 ? null : (100 * (turnsAt - now)) / now },
    ];
  });
  const change = (point: BreakPoint) => Math.abs(point.changePct ?? Number.MAX_VALUE);
  return points.sort((a, b) => change(a) - change(b));
}

/** The figure against one item; one set of numbers is written over, since each item is looked at some hundred times. */
function valueAlong(
  inputs: CaseInputs,
  item: string,
  value: (inputs: CaseInputs) => number,
): (x: number) => number {
  const start = withNumbers(inputs, { [item]: 0 });
  const numbers: Record<string, number | null> = { ...start.numbers };
  const varied: CaseInputs = { ...start, numbers };
  return (x) => {
    numbers[item] = x;
    follow(numbers, start.followers);
    return value(varied);
  };
}

/** Items that set how the doubt, the points or the tax are reckoned, or that only cap the spending. */
const NOT_VARIED = new Set([
  'budget',
  'finance_pct',
  'reinvest_pct',
  'fuse_amps',
  'fuse_load_pct',
  'box_own_milliamps',
  'supply_reserve_pct',
  'cable_temperature_c',
  'depreciation_years',
  'box_amps',
]);

function nearest(now: number, a: number | null, b: number | null): number | null {
  if (a === null || b === null) return a ?? b;
  return Math.abs(a - now) <= Math.abs(b - now) ? a : b;
}

/** Walks from the value towards the end in growing steps, then narrows the step in which the sign turns. */
function turn(at: (x: number) => number, now: number, end: number): number | null {
  const pays = at(now) > 0;
  let before = now;
  for (let k = 1; k <= STEPS; k++) {
    const share = (k / STEPS) ** 3;
    const next = now + (end - now) * share;
    if (at(next) > 0 !== pays) return narrow(at, pays, before, next);
    before = next;
  }
  return null;
}

/**
 * The turn between two values on either side of it: by the straight line through both (the Illinois rule keeps an end
 * from standing still), which hits at once where the figure is straight; every third step halves the gap, so that a
 * jump is found as well.
 */
function narrow(at: (x: number) => number, pays: boolean, from: number, to: number): number {
  let [near, far] = [from, to];
  let [atNear, atFar] = [at(near), at(far)];
  for (let k = 0; k < 180; k++) {
    const gap = far - near;
    const least = 1e-13 * Math.max(1, Math.abs(far));
    if (Math.abs(gap) <= least) break;
    // A little off either end, so that an end that is the turn itself is passed.
    const share = Math.min(Math.max(atNear / (atNear - atFar), 0), 1);
    const off = Math.min(0.5, (0.9 * least) / Math.abs(gap));
    const next = near + gap * (k % 3 < 2 ? Math.min(Math.max(share, off), 1 - off) : 0.5);
    const there = at(next);
    if (there > 0 === pays) [near, atNear, atFar] = [next, there, atFar / 2];
    else [far, atFar, atNear] = [next, there, atNear / 2];
  }
  return (near + far) / 2;
}

/** The same on whole numbers: the first one past the turn. */
function wholeTurn(at: (x: number) => number, now: number, end: number): number | null {
  const pays = at(now) > 0;
  let near = now;
  for (let step = Math.sign(end - now); step !== 0 && near !== end; step *= 2) {
    let far = step > 0 ? Math.min(near + step, Math.floor(end)) : Math.max(near + step, Math.ceil(end));
    if (far === near) return null;
    if (at(far) > 0 === pays) {
      near = far;
      continue;
    }
    while (Math.abs(far - near) > 1) {
      const middle = Math.trunc((near + far) / 2);
      if (at(middle) > 0 === pays) near = middle;
      else far = middle;
    }
    return far;
  }
  return null;
}
