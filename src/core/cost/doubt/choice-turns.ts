/**
 * For each input alone: the values at which another choice becomes best, from the one as planned on in both directions:
 * all machines with boxes, then three, then two, then none.
 */
import { type CostItemFormat, costItems } from '../../model/cost-items.js';
import { type CaseInputs, follow, withNumbers } from '../case-inputs.js';
import type { NamedPlan } from '../plan-flows.js';

/** From this value of the item on, away from its own, this choice is best. */
export interface ChoiceStep {
  /** For whole-number items the first value past the turn. */
  readonly at: number;
  /** Change from the item's own value, in per cent of it; null where that is 0. */
  readonly changePct: number | null;
  /** Name of the choice, as in the list of alternatives. */
  readonly name: string;
  /** Machines that it does not leave on the harness. */
  readonly stations: readonly string[];
  /** Its present value against moving the harness, there. */
  readonly npv: number;
}

export interface ItemTurns {
  readonly item: string;
  readonly value: number;
  /** Nearest first: below the value, and above it. */
  readonly below: readonly ChoiceStep[];
  readonly above: readonly ChoiceStep[];
}

export interface Choices {
  /** The best one at some inputs, within the budget. */
  readonly best: (inputs: CaseInputs) => NamedPlan;
  /** Values against moving the harness; null where one is beyond the budget. */
  readonly values: (inputs: CaseInputs, choices: readonly NamedPlan[]) => readonly (number | null)[];
  /** The best one as planned. */
  readonly planned: NamedPlan;
}

/** Looked for up to this many times the value (or the price of a box, for money), and down to the item's least. */
const MOST_TIMES = 100;
const STEPS = 24;
/** Turns of one item in one direction; nobody reads more. */
const MOST_TURNS = 8;

/** @returns the items that can turn the choice, the one that needs the least change first */
export function choiceTurns(
  inputs: CaseInputs,
  choices: Choices,
  formats: readonly CostItemFormat[] = costItems,
): ItemTurns[] {
  const turns = formats.flatMap((format): ItemTurns[] => {
    const now = inputs.numbers[format.name];
    if (format.kind !== 'number' || now === null || now === undefined) return [];
    if (inputs.followers.some(([item]) => item === format.name) || NOT_VARIED.has(format.name)) return [];
    const scale = format.unit.startsWith('money') ? (inputs.numbers.box_price ?? 0) : 1;
    const high = Math.min(format.max ?? Number.POSITIVE_INFINITY, Math.max(now, scale) * MOST_TIMES);
    const least = format.aboveMin ? format.min + 1e-6 * (1 + Math.abs(format.min)) : format.min;
    const along = new Along(inputs, format.name, format.whole, choices);
    if (!along.matters(now, least, high)) return [];
    const [below, above] = [along.ladder(now, least), along.ladder(now, high)];
    return below.length + above.length === 0 ? [] : [{ item: format.name, value: now, below, above }];
  });
  const change = ({ below, above }: ItemTurns) =>
    Math.min(...[below[0], above[0]].map((step) => Math.abs(step?.changePct ?? Number.MAX_VALUE)));
  return turns.sort((a, b) => change(a) - change(b));
}

export interface NearestTurn {
  readonly item: string;
  readonly value: number;
  readonly step: ChoiceStep;
}

/** The turn that needs the least change of one input alone; null where none can turn the choice. */
export function nearestTurn(turns: readonly ItemTurns[]): NearestTurn | null {
  const [first] = turns;
  const steps = [first?.below[0], first?.above[0]].flatMap((step) =>
    step === undefined || step.changePct === null ? [] : [step],
  );
  const step = steps.sort((a, b) => Math.abs(a.changePct!) - Math.abs(b.changePct!))[0];
  return first === undefined || step === undefined ? null : { item: first.item, value: first.value, step };
}

/** The choices against one item; one set of numbers is written over, since each item is looked at some hundred times. */
class Along {
  private readonly numbers: Record<string, number | null>;
  private readonly varied: CaseInputs;
  private readonly rivals: NamedPlan[];

  constructor(
    inputs: CaseInputs,
    private readonly item: string,
    private readonly whole: boolean,
    private readonly choices: Choices,
  ) {
    const start = withNumbers(inputs, { [item]: 0 });
    this.numbers = { ...start.numbers };
    this.varied = { ...start, numbers: this.numbers };
    this.rivals = [choices.planned];
  }

  /** False where the item moves no choice at all. */
  matters(now: number, least: number, high: number): boolean {
    const rivals = [this.choices.planned, this.bestAt(least), this.bestAt(high)];
    const between = (now + high) / 2;
    const [own, ...others] = [now, least, high, this.whole ? Math.round(between) : between].map((x) =>
      JSON.stringify(this.choices.values(this.at(x), rivals)),
    );
    return others.some((other) => other !== own);
  }

  /** One choice after another from a value to the end of its range. */
  ladder(now: number, end: number): ChoiceStep[] {
    const steps: ChoiceStep[] = [];
    if (end === now) return steps;
    this.bestAt(end);
    let [from, choice] = [now, this.choices.planned];
    while (steps.length < MOST_TURNS) {
      const turnsAt = this.turnFrom(choice, from, end);
      if (turnsAt === null) break;
      const past = this.whole ? turnsAt : pastTurn(turnsAt, now, end);
      const next = this.bestAt(past);
      if (sameWays(next, choice)) break;
      const [npv] = this.choices.values(this.at(past), [next]);
      steps.push({
        at: turnsAt,
        changePct: now === 0 ? null : (100 * (turnsAt - now)) / now,
        name: next.name,
        stations: this.varied.stations.filter((_, k) => next.ways[k] !== 'harness').map((s) => s.station),
        npv: npv ?? 0,
      });
      [from, choice] = [past, next];
    }
    return steps;
  }

  /**
   * The first value at which a known rival is worth more; what is best just before it is looked up, and where that is
   * another rival, the walk is done again with it.
   */
  private turnFrom(choice: NamedPlan, from: number, end: number): number | null {
    // The best choice of some value, it is one of the rivals itself.
    const mine = this.rivals.findIndex((rival) => sameWays(rival, choice));
    for (;;) {
      const known = this.rivals.length;
      const lead = (x: number): number => {
        const values = this.choices.values(this.at(x), this.rivals);
        const own = values[mine];
        if (own === null || own === undefined) return Number.NEGATIVE_INFINITY;
        const most = values.reduce<number>(
          (best, value, k) => (value === null || k === mine ? best : Math.max(best, value)),
          Number.NEGATIVE_INFINITY,
        );
        return Math.min(own - most, Number.MAX_VALUE) + tolerance(own);
      };
      if (!(lead(from) > 0)) return null;
      const turnsAt = (this.whole ? wholeTurn : turn)(lead, from, end);
      const before =
        turnsAt === null ? end : this.whole ? turnsAt - Math.sign(end - from) : beforeTurn(turnsAt, from);
      this.bestAt(before);
      if (this.rivals.length === known) return turnsAt;
    }
  }

  /** The best choice at a value; one that is new joins the rivals. */
  private bestAt(x: number): NamedPlan {
    const best = this.choices.best(this.at(x));
    if (!this.rivals.some((rival) => sameWays(rival, best))) this.rivals.push(best);
    return best;
  }

  private at(x: number): CaseInputs {
    this.numbers[this.item] = x;
    follow(this.numbers, this.varied.followers);
    return this.varied;
  }
}

function sameWays(a: NamedPlan, b: NamedPlan): boolean {
  return a.ways.every((way, k) => way === b.ways[k]);
}

/** Values that differ by rounding alone are alike. */
function tolerance(value: number): number {
  return 1e-10 * Math.max(1, Math.abs(value));
}

function pastTurn(turnsAt: number, now: number, end: number): number {
  const past = turnsAt + Math.sign(end - now) * 1e-6 * Math.max(1e-3, Math.abs(turnsAt));
  return end > now ? Math.min(past, end) : Math.max(past, end);
}

function beforeTurn(turnsAt: number, from: number): number {
  const step = Math.min(1e-6 * Math.max(1e-3, Math.abs(turnsAt)), Math.abs(turnsAt - from) / 2);
  return turnsAt + Math.sign(from - turnsAt) * step;
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

/** Walks from the value towards the end in growing steps, then narrows the step in which the sign turns. */
function turn(at: (x: number) => number, now: number, end: number): number | null {
  const pays = at(now) > 0;
  let before = now;
  for (let k = 1; k <= STEPS; k++) {
    const share = (k * k * k) / (STEPS * STEPS * STEPS);
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
