/**
 * Makes a repeating sequence better by small changes (acts moved, two exchanged, a part more, a part less, one part in
 * place of another), taking some for the worse at first (simulated annealing: S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, Science
 * 220, 1983). The chances come from a fixed stream and the work is counted, so the same cell gives the same sequence
 * everywhere.
 */

import { log, power } from '../../numbers/functions.js';
import { nextUniform, seedStream } from '../../statistics/random-streams.js';
import type { PlaySpace } from './play-space.js';
import { SequenceTimer, sequenceUnits } from './sequence-rate.js';

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
  private readonly states = new Int32Array(4);
  private current: Int32Array;
  private trial: Int32Array;
  private length = 0;
  private trialLength = 0;
  private readonly most: number;
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
    this.most = limits.mostEvents;
    this.current = new Int32Array(this.most + 64);
    this.trial = new Int32Array(this.most + 64);
    this.trips = trips.map((carries) =>
      carries.map((events) => events.flatMap((e) => (units.unitOf[e]! >= 0 ? [units.unitOf[e]!] : []))),
    );
    seedStream(this.states, 0, limits.run, 'sequence', 0);
  }

  run(start: readonly number[]): readonly (readonly number[])[] {
    const { timer, limits } = this;
    for (const event of start) {
      const unit = timer.units.unitOf[event]!;
      if (unit >= 0) this.current[this.length++] = unit;
    }
    let rate = timer.perS(this.current, this.length);
    if (!(rate > 0)) return [start];
    let best = rate;
    const kept: { rate: number; events: number[] }[] = [{ rate, events: [...start] }];
    let acts = 0;
    while (acts < limits.acts) {
      const share = acts / limits.acts;
      const warmth = (limits.warm * power(limits.cold / limits.warm, share)) / this.length;
      this.change();
      if (this.trialLength === 0) {
        acts++;
        continue;
      }
      acts += this.trialLength;
      const least = rate * (1 + warmth * log(this.uniform()));
      const next = timer.perS(this.trial, this.trialLength, least);
      if (next === 0 || next < least) continue;
      rate = next;
      [this.current, this.trial] = [this.trial, this.current];
      this.length = this.trialLength;
      if (rate <= best * (1 + 1e-9)) continue;
      best = rate;
      kept.unshift({ rate, events: this.eventsOf(timer) });
      if (kept.length > KEPT) kept.pop();
      if (best >= limits.enoughPerS * (1 - 1e-9)) break;
    }
    return kept.map((one) => one.events);
  }

  private eventsOf(timer: SequenceTimer): number[] {
    return [...this.current.subarray(0, this.length)].flatMap((u) => timer.units.events[u]!);
  }

  private uniform(): number {
    return nextUniform(this.states, 0);
  }

  private below(n: number): number {
    return Math.min(n - 1, Math.floor(this.uniform() * n));
  }

  private change(): void {
    const kind = this.uniform();
    if (kind < 0.15 && this.ofCarry > 1) this.exchange();
    else if (kind < 0.6) this.relocate();
    else if (kind < 0.65) this.addTrip();
    else if (kind < 0.7) this.removeTrip();
    else this.replaceTrip();
  }

  private copy(): void {
    this.trial.set(this.current.subarray(0, this.length));
    this.trialLength = this.length;
  }

  /** Moves a short stretch of acts to a place near by, or anywhere. */
  private relocate(): void {
    const { length } = this;
    const size = Math.min(length - 1, 1 + this.below(2 * this.ofCarry));
    const reach = this.uniform() < 0.7 ? Math.min(6 * this.ofCarry, length - size) : length - size;
    if (size < 1 || reach < 1) {
      this.trialLength = 0;
      return;
    }
    const from = this.below(length);
    const by = 1 + this.below(reach);
    // The stretch [from, from + size) goes behind the `by` acts that follow it, all modulo the length.
    this.copy();
    for (let k = 0; k < by; k++) this.trial[(from + k) % length] = this.current[(from + size + k) % length]!;
    for (let k = 0; k < size; k++) this.trial[(from + by + k) % length] = this.current[(from + k) % length]!;
  }

  /** Two acts change places: with two hands a pick and a place that lie apart. */
  private exchange(): void {
    this.copy();
    const a = this.below(this.length);
    const b = this.below(this.length);
    [this.trial[a], this.trial[b]] = [this.trial[b]!, this.trial[a]!];
  }

  /** Inserts a part: its carries from the last to the first at one place, so that each station is emptied first. */
  private addTrip(): void {
    this.copy();
    this.insert(this.trips[this.below(this.trips.length)]!, this.below(this.length + 1));
  }

  private insert(trip: readonly (readonly number[])[], at: number): void {
    const units: number[] = [];
    for (let c = trip.length - 1; c >= 0; c--) units.push(...trip[c]!);
    if (this.trialLength + units.length > this.mostUnits()) {
      this.trialLength = 0;
      return;
    }
    this.trial.copyWithin(at + units.length, at, this.trialLength);
    this.trial.set(units, at);
    this.trialLength += units.length;
  }

  private mostUnits(): number {
    return this.timer.units.events[0]!.length === 1 ? this.most : Math.floor(this.most / 2);
  }

  /** Takes one part out: of each of its units the next one around a place. @returns the place; -1 = it is not there */
  private take(trip: readonly (readonly number[])[], around: number): number {
    let at = around;
    for (let c = trip.length - 1; c >= 0; c--)
      for (const unit of trip[c]!) {
        let found = -1;
        for (let k = 0; k < this.trialLength; k++) {
          const i = (at + k) % this.trialLength;
          if (this.trial[i] !== unit) continue;
          found = i;
          break;
        }
        if (found < 0) return -1;
        this.trial.copyWithin(found, found + 1, this.trialLength);
        this.trialLength--;
        if (this.trialLength === 0) return -1;
        at = found % this.trialLength;
      }
    return at;
  }

  private removeTrip(): void {
    this.copy();
    if (this.take(this.trips[this.below(this.trips.length)]!, this.below(this.length)) < 0)
      this.trialLength = 0;
  }

  private replaceTrip(): void {
    this.copy();
    const at = this.take(this.trips[this.below(this.trips.length)]!, this.below(this.length));
    if (at < 0) this.trialLength = 0;
    else this.insert(this.trips[this.below(this.trips.length)]!, at);
  }
}
