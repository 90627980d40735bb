/**
 * Makes a repeating sequence better by small changes (acts moved, two exchanged, a part more, a part less, one part in
 * place of another), taking some for the worse at first (simulated annealing: S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, Science
 * 220, 1983). The chances come from a fixed stream and the work is counted, so the same cell gives the same sequence
 * everywhere.
 */

import { log, power } from '../../numbers/functions.js';
import { nextUniform, seedStream } from '../../statistics/random-streams.js';
import type { PlaySpace } from './play-space.js';
import { RunningSequence, type SequenceChange } from './running-sequence.js';
import { SequenceTimer, sequenceUnits, writeUnits } from './sequence-rate.js';

export interface ImproveLimits {
  /** Acts timed, over all sequences tried. */
  readonly acts: number;
  /**
   * By how much a change may be for the worse, at the start and at the end, in mean times of an act: so a long sequence
   * is changed as freely as a short one.
   */
  readonly warm: number;
  readonly cold: number;
  /** Most events in a round. */
  readonly mostEvents: number;
  /** Value per second at which nothing is left to gain. */
  readonly enoughPerS: number;
  /** Tells runs from each other. */
  readonly run: number;
}

/** Good sequences found on the way that are handed back at most. */
const KEPT = 6;
/** Share of the changes that stay near by: those that reach anywhere cost the most, and hardly one in a thousand is kept. */
const NEAR = 0.95;
/** Acts that a moved one is held against before it is timed: whether they have to stay behind it. */
const NEIGHBOURS = 6;
/** Changes tried between two steps of the cooling. */
const COOL_EVERY = 50;
/** What a change costs beside the acts that are timed, in such acts; and one that is seen to be impossible at once. */
const ACTS_A_CHANGE = 12;
const ACTS_OF_NONE = 2;

/**
 * @param start events of the space's plan, a legal repeating sequence
 * @param trips for every way through the cell its events, each carry as a list, first to last
 * @returns better sequences, the best first; the start alone where nothing better was found
 */
export function improveSequence(
  space: PlaySpace,
  start: readonly number[],
  trips: readonly (readonly (readonly number[])[])[],
  limits: ImproveLimits,
): readonly (readonly number[])[] {
  return new Annealing(space, trips, limits).run(start);
}

class Annealing {
  private readonly timer: SequenceTimer;
  private readonly running: RunningSequence;
  private readonly states = new Int32Array(4);
  private readonly trial: Int32Array;
  private readonly next: SequenceChange;
  private readonly most: number;
  /** The change leaves the same parts as there were. */
  private isSame = false;
  /** Units that one carry has: with two hands its events are units of their own. */
  private readonly ofCarry: number;
  /** Units of each way's carries. */
  private readonly trips: readonly (readonly (readonly number[])[])[];

  constructor(
    space: PlaySpace,
    trips: readonly (readonly (readonly number[])[])[],
    private readonly limits: ImproveLimits,
  ) {
    const units = sequenceUnits(space);
    this.ofCarry = space.plan.hands;
    this.timer = new SequenceTimer(space, units);
    this.most =
      this.timer.units.events[0]!.length === 1 ? limits.mostEvents : Math.floor(limits.mostEvents / 2);
    this.running = new RunningSequence(space, units, limits.mostEvents + 64);
    this.trial = new Int32Array(limits.mostEvents + 64);
    this.next = { at: 0, removed: 0, count: 0, put: new Int32Array(limits.mostEvents + 64) };
    this.trips = trips.map((carries) =>
      carries.map((events) => events.flatMap((e) => (units.unitOf[e]! >= 0 ? [units.unitOf[e]!] : []))),
    );
    seedStream(this.states, 0, limits.run, 'sequence', 0);
  }

  run(start: readonly number[]): readonly (readonly number[])[] {
    const { timer, limits, running, next, trial } = this;
    let length = writeUnits(timer.units, start, trial);
    let rate = timer.perS(trial, length);
    if (!(rate > 0)) return [start];
    let isSettled = running.settle(trial, length, timer.contents());
    let best = rate;
    const kept: { rate: number; events: number[] }[] = [{ rate, events: [...start] }];
    let acts = 0;
    let warmth = 0;
    for (let tried = 0; acts < limits.acts; tried++) {
      if (tried % COOL_EVERY === 0)
        warmth = limits.warm * power(limits.cold / limits.warm, acts / limits.acts);
      if (!this.change()) {
        acts += ACTS_OF_NONE;
        continue;
      }
      acts += ACTS_A_CHANGE;
      const least = rate * (1 + (warmth / running.length) * log(this.uniform()));
      const before = running.played;
      const value = this.changedValue();
      const periodS = isSettled ? running.changedS(next, value / least) : Number.NaN;
      acts += running.played - before;
      if (Number.isNaN(periodS)) {
        length = running.changed(next, trial);
        acts += length;
        const found = timer.perS(trial, length, least);
        if (found === 0 || found < least) continue;
        isSettled = running.settle(trial, length, timer.contents());
        rate = isSettled ? running.value / running.periodS : found;
      } else {
        if (!(value / periodS >= least)) continue;
        running.accept(next);
        rate = running.value / running.periodS;
      }
      if (rate <= best * (1 + 1e-9)) continue;
      best = rate;
      kept.unshift({ rate, events: [...running.sequence()].flatMap((u) => timer.units.events[u]!) });
      if (kept.length > KEPT) kept.pop();
      if (best >= limits.enoughPerS * (1 - 1e-9)) break;
    }
    return kept.map((one) => one.events);
  }

  private uniform(): number {
    return nextUniform(this.states, 0);
  }

  private below(n: number): number {
    return Math.min(n - 1, Math.floor(this.uniform() * n));
  }

  /** @returns false where there is nothing to change so */
  private change(): boolean {
    const kind = this.uniform();
    if (kind < 0.15 && this.ofCarry > 1) return this.exchange();
    if (kind < 0.64) return this.relocate();
    if (kind < 0.67) return this.addTrip();
    if (kind < 0.7) return this.take();
    return this.take() && this.put(this.anyTrip());
  }

  private changedValue(): number {
    const { running, next } = this;
    const { value } = this.timer.units;
    let sum = running.value;
    if (this.isSame) return sum;
    for (let k = 0; k < next.removed; k++) sum -= value[running.unitAt(next.at + k)]!;
    for (let k = 0; k < next.count; k++) sum += value[next.put[k]!]!;
    return sum;
  }

  /** Begins a change of so many units from a place on. */
  private begin(at: number, removed: number): void {
    this.isSame = false;
    this.next.at = at % this.running.length;
    this.next.removed = removed;
    this.next.count = 0;
  }

  /** Of the units that are taken out, those from one place to another (counted from the change on) come next. */
  private again(from: number, to: number): void {
    const { next, running } = this;
    for (let k = from; k < to; k++) next.put[next.count++] = running.unitAt(next.at + k);
  }

  /** Moves a short stretch of acts to a place near by, or anywhere. */
  private relocate(): boolean {
    const { length } = this.running;
    const size = Math.min(length - 1, 1 + this.below(2 * this.ofCarry));
    const reach = this.uniform() < NEAR ? Math.min(6 * this.ofCarry, length - size) : length - size;
    if (size < 1 || reach < 1) return false;
    const from = this.below(length);
    const by = 1 + this.below(reach);
    this.begin(from, size + by);
    for (let k = 0; k < size; k++)
      for (let j = size; j < Math.min(size + by, size + NEIGHBOURS); j++)
        if (this.running.mustKeepOrder(from + k, from + j)) return false;
    this.again(size, size + by);
    this.again(0, size);
    this.isSame = true;
    return true;
  }

  /** Two acts change places: with two hands a pick and a place that lie apart. */
  private exchange(): boolean {
    const { length } = this.running;
    const reach = this.uniform() < NEAR ? Math.min(12, length) : length;
    const a = this.below(length);
    const b = (a + this.below(reach)) % length;
    if (a === b) return false;
    const apart = (b - a + length) % length;
    if (2 * apart <= length) this.begin(a, apart + 1);
    else this.begin(b, length - apart + 1);
    const last = this.next.removed - 1;
    this.again(last, last + 1);
    this.again(1, last);
    this.again(0, 1);
    this.isSame = true;
    return true;
  }

  private anyTrip(): readonly (readonly number[])[] {
    return this.trips[this.below(this.trips.length)]!;
  }

  /** A part more. */
  private addTrip(): boolean {
    const trip = this.anyTrip();
    this.begin(this.below(this.running.length + 1), 0);
    return this.put(trip);
  }

  /** Puts a part in: its carries from the last to the first, so that each station is emptied first. */
  private put(trip: readonly (readonly number[])[]): boolean {
    const { next, running } = this;
    for (let c = trip.length - 1; c >= 0; c--) for (const unit of trip[c]!) next.put[next.count++] = unit;
    return running.length - next.removed + next.count <= this.most;
  }

  /** Takes one part out: of each of its units the next one from some place on. */
  private take(): boolean {
    const { running, next } = this;
    const { length } = running;
    const trip = this.anyTrip();
    const around = this.below(length);
    let begun = -1;
    let end = around;
    for (let c = trip.length - 1; c >= 0; c--)
      for (const unit of trip[c]!) {
        const from = end;
        while (running.unitAt(end % length) !== unit) if (++end - from === length) return false;
        if (begun < 0) {
          begun = end;
          this.begin(end, 0);
        } else if (end + 1 - begun >= length) return false;
        this.again(next.removed, end - begun);
        end++;
        next.removed = end - begun;
      }
    return next.removed < length;
  }
}
