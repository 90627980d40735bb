/**
 * The operators: who is there, and calls for a repair, a planned stop or a rack, taken in the order in which they came.
 * Work that is begun goes on while somebody is there and rests in breaks and unattended hours.
 */
import type { EventClock } from './event-clock.js';
import type { OpenWeek } from './open-calendar.js';

/** Why an operator is called. */
export const CALL_REPAIR = 0;
export const CALL_STOP = 1;
export const CALL_RACK = 2;

/** What the floor does at a call; the target is a slot, for a rack its station. */
export interface CalledWork {
  /** Seconds until an operator who is free has come. */
  responseS(call: number, target: number): number;
  /** Work begins; returns how many seconds it takes. */
  begin(call: number, target: number): number;
  end(call: number, target: number): void;
}

export class People {
  /** Seconds in calls, response included. */
  busyS = 0;
  present: number;
  private readonly call: Int32Array;
  private readonly target: Int32Array;
  private readonly working: Uint8Array;
  private readonly since: Float64Array;
  private busy = 0;
  private readonly queueCall: Int32Array;
  private readonly queueTarget: Int32Array;
  private queueFirst = 0;
  queueLength = 0;

  /**
   * @param first number of the first operator's timer
   * @param most operators that there are at most
   * @param places calls that can wait at once
   */
  constructor(
    private readonly clock: EventClock,
    private readonly first: number,
    most: number,
    places: number,
    private readonly week: OpenWeek | null,
    private readonly work: CalledWork,
  ) {
    this.call = new Int32Array(most).fill(-1);
    this.target = new Int32Array(most);
    this.working = new Uint8Array(most);
    this.since = new Float64Array(most);
    this.present = week === null ? most : Math.min(most, week.operators[0]!);
    this.queueCall = new Int32Array(places + 1);
    this.queueTarget = new Int32Array(places + 1);
  }

  /** Calls an operator to a target. */
  callTo(call: number, target: number, nowS: number): void {
    const end = (this.queueFirst + this.queueLength) % this.queueCall.length;
    this.queueCall[end] = call;
    this.queueTarget[end] = target;
    this.queueLength++;
    this.send(nowS);
  }

  /** Other people are there from now on. */
  change(present: number, nowS: number): void {
    this.present = Math.min(present, this.call.length);
    this.send(nowS);
  }

  /** Somebody who is there has no call. */
  get anyFree(): boolean {
    return this.busy < this.present;
  }

  onTimer(operator: number, nowS: number): void {
    if (this.working[operator] === 0) this.begin(operator, nowS);
    else this.end(operator, nowS);
  }

  /** Counts the time in calls up to now. */
  settle(nowS: number): void {
    for (let o = 0; o < this.call.length; o++) {
      if (this.call[o]! < 0) continue;
      this.busyS += this.thereS(this.since[o]!, nowS);
      this.since[o] = nowS;
    }
  }

  /** State of each operator, for telling moments apart. */
  signature(push: (value: number) => void): void {
    for (let o = 0; o < this.call.length; o++) {
      push(this.call[o]!);
      push(this.call[o]! < 0 ? 0 : this.target[o]! + this.working[o]! / 2);
    }
    for (let i = 0; i < this.queueLength; i++) {
      const at = (this.queueFirst + i) % this.queueCall.length;
      push(this.queueCall[at]! * 1e6 + this.queueTarget[at]!);
    }
  }

  /** Free operators take calls in the order in which they came. */
  private send(nowS: number): void {
    while (this.queueLength > 0 && this.busy < this.present) {
      const call = this.queueCall[this.queueFirst]!;
      const target = this.queueTarget[this.queueFirst]!;
      this.queueFirst = (this.queueFirst + 1) % this.queueCall.length;
      this.queueLength--;
      let operator = 0;
      while (this.call[operator]! >= 0) operator++;
      this.call[operator] = call;
      this.target[operator] = target;
      this.working[operator] = 0;
      this.since[operator] = nowS;
      this.busy++;
      const response = this.work.responseS(call, target);
      if (response > 0) this.clock.set(this.first + operator, this.endOf(nowS, response));
      else this.begin(operator, nowS);
    }
  }

  private begin(operator: number, nowS: number): void {
    this.working[operator] = 1;
    const seconds = this.work.begin(this.call[operator]!, this.target[operator]!);
    this.clock.set(this.first + operator, this.endOf(nowS, seconds));
  }

  private end(operator: number, nowS: number): void {
    const [call, target] = [this.call[operator]!, this.target[operator]!];
    this.clock.set(this.first + operator, Number.POSITIVE_INFINITY);
    this.call[operator] = -1;
    this.busy--;
    this.busyS += this.thereS(this.since[operator]!, nowS);
    this.work.end(call, target);
    this.send(nowS);
  }

  private endOf(fromS: number, seconds: number): number {
    return this.week === null ? fromS + seconds : this.week.clock.operatorEnd(fromS, seconds);
  }

  private thereS(fromS: number, toS: number): number {
    return this.week === null ? toS - fromS : this.week.clock.operatorBetween(fromS, toS);
  }
}
