/**
 * Everything in the cell but the robot: slots of stations with their cycles and stops, and the racks; it hands on to the
 * people and the changeovers. Each element has one timer; onTimer moves it on. The robot's class reads this state and
 * calls load, vacate, takeRaw and deliver. Typed arrays throughout; nothing is allocated while it runs.
 *
 * Times are seconds on a clock that goes on while the cell is shut: machines end their cycles, robot and people rest.
 * Tallies count open time.
 */

import type { LogSignal } from '../model/log-signals.js';
import { CallList } from './call-list.js';
import { type ChangeoverRow, Changeovers } from './changeovers.js';
import { type CompiledCell, WORK } from './compiled-cell.js';
import { crewClock } from './crew-clock.js';
import { Draws } from './draws.js';
import { EventClock } from './event-clock.js';
import { Holds } from './holds.js';
import type { OpenWeek } from './open-calendar.js';
import { OpenTime } from './open-time.js';
import { CALL_RACK, CALL_REPAIR, CALL_STOP, type CalledWork, People } from './people.js';
import { PlannedStops } from './planned-stops.js';
import { type RackedFloor, Racks, rackStations } from './racks.js';
import {
  CHANGEOVER,
  DOWN_REPAIR,
  DOWN_WAITING,
  EMPTY,
  FINISHED,
  HANDLED,
  PART_LOADED,
  PROCESSING,
  SLOT_STATES,
  STOP_WAITING,
  STOP_WORK,
} from './slot-state.js';
import { Waits } from './waits.js';

/** What a slot's timer will end. */
const CLOSING = 1;
const RUNNING = 2;
const RUNNING_TO_STOP = 3;
const STOPPED = 4;
const OPENING = 5;

/**
 * One thing that happens, for logs. Those of the robot may lie ahead of the
 * present time, nowS, because its rounds are planned ahead. The part is empty where none is in hand.
 */
export type TraceEvent = (
  timeS: number,
  what: LogSignal,
  station: string,
  part: string,
  nowS: number,
) => void;

export interface FloorOptions {
  readonly calendar: OpenWeek | null;
  /** Operators where no calendar says so. */
  readonly operators: number;
  readonly seed: number;
  readonly replication: number;
  readonly trace: TraceEvent | null;
  /** Off: of every part its good share counts as good. */
  readonly chance: boolean;
  /** Tell why stations wait. */
  readonly causes: boolean;
  readonly changeovers: readonly ChangeoverRow[];
}

export class ShopFloor implements CalledWork, RackedFloor {
  readonly clock: EventClock;
  readonly calls: CallList;
  /** When the robot's present round or action ends; Infinity = it waits. It comes after all other events of that time. */
  robotAtS = Number.POSITIVE_INFINITY;
  readonly trace: TraceEvent | null;
  now = 0;
  /** Set when something happened that the robot may act on. */
  changed = true;
  /** Set when a station stops. */
  hasStopped = false;
  /** Its week, its random numbers, its planned stops and its racks. */
  readonly hours: OpenTime;
  readonly draws: Draws;
  readonly stops: PlannedStops;
  readonly racks: Racks;
  readonly holds: Holds;
  readonly people: People;
  readonly changeovers: Changeovers;
  /** null where nobody asks why stations wait. */
  readonly waits: Waits | null;
  readonly slotState: Uint8Array;
  readonly slotOp: Int32Array;
  readonly slotFinishedAt: Float64Array;
  /** The part inside has waited too long somewhere. */
  readonly slotLate: Uint8Array;
  readonly freeSlots: Int32Array;
  readonly pendingOp: Int32Array;
  readonly rawFed: Uint8Array;
  /** Parts started in all, by route; the mix goes by it. */
  readonly mixStarted: Float64Array;

  /** Tallies since the last call of clearTallies. */
  readonly started: Float64Array;
  readonly slotTime: Float64Array;
  readonly good: Float64Array;
  readonly scrap: Float64Array;
  readonly overstays: Float64Array;
  /** Parts put out after a longest wait was overrun, by route. */
  readonly late: Float64Array;
  readonly randomStops: Float64Array;
  /** When the last part was put out. */
  lastOutS = 0;
  machineFinishes = 0;
  robotServices = 0;

  private readonly slotSince: Float64Array;
  private readonly slotPhase: Uint8Array;
  private readonly slotLeft: Float64Array;
  private readonly slotToStop: Float64Array;
  private readonly slotStop: Int32Array;
  private readonly slotLeader: Int32Array;
  private readonly pendingCount: Int32Array;
  private readonly hasBatch: Uint8Array;
  /** Stations without fixtures, stops, door times: their cycle is one event. */
  private readonly plain: Uint8Array;
  private readonly firstOperator: number;
  private readonly firstRack: number;
  private readonly firstChangeover: number;
  private readonly calendar: OpenWeek | null;
  private readonly calendarTimer: number;
  private readonly chance: boolean;
  /** By station: a changeover is under way, and parts that the robot brings. */
  readonly stopped: Uint8Array;
  readonly coming: Int32Array;

  constructor(
    readonly cell: CompiledCell,
    options: FloorOptions,
  ) {
    const { slotCount, stationCount } = cell;
    this.calendar = options.calendar;
    this.trace = options.trace;
    this.chance = options.chance;
    this.hours = new OpenTime(options.calendar);
    this.draws = new Draws(cell, options.seed, options.replication);
    this.stops = new PlannedStops(cell, this.hours);
    this.slotState = new Uint8Array(slotCount);
    this.slotOp = new Int32Array(slotCount).fill(-1);
    this.slotFinishedAt = new Float64Array(slotCount);
    this.slotLate = new Uint8Array(slotCount);
    this.stopped = new Uint8Array(stationCount);
    this.coming = new Int32Array(stationCount);
    this.slotTime = new Float64Array(slotCount * SLOT_STATES);
    this.slotSince = new Float64Array(slotCount);
    this.slotPhase = new Uint8Array(slotCount);
    this.slotLeft = new Float64Array(slotCount);
    this.slotToStop = new Float64Array(slotCount).fill(Number.POSITIVE_INFINITY);
    this.slotStop = new Int32Array(slotCount).fill(-1);
    this.holds = new Holds(cell, this.slotStop);
    this.slotLeader = new Int32Array(slotCount).fill(-1);
    this.freeSlots = Int32Array.from(
      { length: stationCount },
      (_, s) => cell.firstSlot[s + 1]! - cell.firstSlot[s]!,
    );
    this.pendingCount = new Int32Array(stationCount);
    this.pendingOp = new Int32Array(stationCount).fill(-1);
    this.hasBatch = stationsWithBatches(cell);
    this.rawFed = Uint8Array.from({ length: stationCount }, (_, s) =>
      cell.firstRaw[s + 1]! > cell.firstRaw[s]! ? 1 : 0,
    );
    this.started = new Float64Array(cell.routeCount);
    this.mixStarted = new Float64Array(cell.routeCount);
    this.good = new Float64Array(cell.routeCount);
    this.scrap = new Float64Array(cell.routeCount);
    this.overstays = new Float64Array(cell.opCount);
    this.late = new Float64Array(cell.routeCount);
    this.randomStops = new Float64Array(stationCount);
    this.plain = Uint8Array.from({ length: stationCount }, (_, s) => (this.isPlain(s) ? 1 : 0));

    const operators = needsOperators(cell)
      ? Math.max(0, ...(options.calendar?.operators ?? [options.operators]))
      : 0;
    this.firstOperator = slotCount;
    this.firstRack = slotCount + operators;
    const racks = rackStations(cell);
    this.firstChangeover = this.firstRack + racks.length;
    this.calendarTimer = this.firstChangeover + options.changeovers.length;
    this.clock = new EventClock(this.calendarTimer + 1);
    this.racks = new Racks(this, racks, this.firstRack);
    this.people = new People(
      this.clock,
      this.firstOperator,
      operators,
      slotCount + stationCount,
      this.calendar,
      this,
    );
    this.changeovers = new Changeovers(
      cell,
      options.changeovers,
      this.calendar === null ? null : crewClock(this.calendar),
      this.clock,
      this.firstChangeover,
      this,
    );
    this.waits = options.causes ? new Waits(this) : null;
    this.calls = new CallList(slotCount);
    this.openUp();
  }

  /** The first moment: all slots empty, racks full, every slot that an infeed feeds calls for a part. */
  private openUp(): void {
    const { cell } = this;
    this.stops.begin();
    for (let slot = 0; slot < cell.slotCount; slot++) {
      const s = cell.slotStation[slot]!;
      if (this.rawFed[s] === 1) this.calls.add(slot);
      if (cell.mtbfS[s]! < Infinity) this.slotToStop[slot] = this.draws.timeToStop(s);
    }
    if (this.calendar !== null) this.clock.set(this.calendarTimer, this.hours.enter(this.now));
  }

  private isPlain(s: number): boolean {
    const { cell } = this;
    const noDoor = cell.closeS[s] === 0 && cell.readyS[s] === 0;
    return noDoor && cell.mtbfS[s] === Infinity && this.stops.first[s]! < 0 && this.hasBatch[s] === 0;
  }

  /** Handles the event of timer i (all but the robot's) at the present time. */
  onTimer(i: number): void {
    if (i < this.firstOperator) this.onSlot(i);
    else if (i < this.firstRack) this.people.onTimer(i - this.firstOperator, this.now);
    else if (i < this.firstChangeover) this.racks.onTimer(i - this.firstRack);
    else if (i < this.calendarTimer) this.changeovers.onTimer(i - this.firstChangeover, this.now);
    else this.onCalendar();
  }

  // ---- what the robot asks ------------------------------------------------------------------------------------

  /** A part that is picked at a time has waited too long; counts it. */
  isLate(slot: number, pickS: number): boolean {
    const op = this.slotOp[slot]!;
    if (!(pickS - this.slotFinishedAt[slot]! > this.cell.opMaxWaitS[op]! + 1e-6)) return false;
    this.overstays[op]!++;
    return true;
  }

  /** The first empty slot of a station that has one. */
  freeSlot(s: number): number {
    let slot = this.cell.firstSlot[s]!;
    while (this.slotOp[slot]! >= 0) slot++;
    return slot;
  }

  /** The robot is under way or at work. */
  robotBusy = false;

  /** True when no element has an event to come (an idle robot has none), and no shift brings an operator to a call. */
  standsForEver(): boolean {
    const first = this.clock.first;
    const next = this.clock.times[first]!;
    if (this.calendar === null || first !== this.calendarTimer) return next === Number.POSITIVE_INFINITY;
    if (this.people.queueLength > 0)
      return this.calendarIsAlone() && this.calendar.operators.every((n) => n === 0);
    if (this.racks.bars) return false;
    return this.hours.open && this.calendarIsAlone();
  }

  private calendarIsAlone(): boolean {
    for (let i = 0; i < this.calendarTimer; i++)
      if (this.clock.times[i]! < Number.POSITIVE_INFINITY) return false;
    return true;
  }

  /** Puts a slot and the others of its fixture into a state. */
  private change(slot: number, state: number): void {
    this.enter(slot, state, this.now);
    if (this.hasBatch[this.cell.slotStation[slot]!] === 1) this.changeMates(slot, state);
  }

  private changeMates(slot: number, state: number): void {
    const { firstSlot, slotStation } = this.cell;
    const s = slotStation[slot]!;
    for (let mate = firstSlot[s]!; mate < firstSlot[s + 1]!; mate++)
      if (mate !== slot && this.slotLeader[mate] === slot) this.enter(mate, state, this.now);
  }

  /** Ends a slot's present state at a time and begins another. */
  enter(slot: number, state: number, timeS: number): void {
    this.enterAt(slot, state, this.hours.openAt(timeS));
  }

  /** The same where the open time is known. */
  enterAt(slot: number, state: number, openS: number): void {
    this.slotTime[slot * SLOT_STATES + this.slotState[slot]!]! += openS - this.slotSince[slot]!;
    this.slotSince[slot] = openS;
    this.slotState[slot] = state;
    if (this.waits !== null) this.waits.look(slot, openS);
  }

  // ---- cycles -------------------------------------------------------------------------------------------------

  /**
   * The robot has placed a part of operation op in a slot and left.
   *
   * @param late it has waited too long somewhere
   */
  load(slot: number, op: number, late: 0 | 1): void {
    const s = this.cell.slotStation[slot]!;
    this.slotOp[slot] = op;
    this.slotLate[slot] = late;
    this.freeSlots[s]!--;
    this.robotServices++;
    this.calls.remove(slot);
    if (this.plain[s] === 1) {
      if (this.trace !== null) this.tell('start', slot);
      this.enter(slot, PROCESSING, this.now);
      this.clock.set(slot, this.now + this.cycleS(s, op));
      return;
    }
    this.loadInFull(slot, op, s);
  }

  private loadInFull(slot: number, op: number, s: number): void {
    const batch = this.cell.opBatch[op]!;
    if (batch === 1) {
      this.slotLeader[slot] = slot;
      this.startCycle(slot);
    } else this.loadBatch(slot, op, s, batch);
  }

  private loadBatch(slot: number, op: number, s: number, batch: number): void {
    const { firstSlot } = this.cell;
    this.slotLeader[slot] = -2;
    this.pendingOp[s] = op;
    this.pendingCount[s]!++;
    if (this.pendingCount[s]! < batch) {
      this.enter(slot, PART_LOADED, this.now);
      return;
    }
    for (let mate = firstSlot[s]!; mate < firstSlot[s + 1]!; mate++)
      if (this.slotLeader[mate] === -2) this.slotLeader[mate] = slot;
    this.pendingCount[s] = 0;
    this.pendingOp[s] = -1;
    this.startCycle(slot);
  }

  private startCycle(slot: number): void {
    const s = this.cell.slotStation[slot]!;
    if (this.cell.closeS[s]! > 0) {
      this.change(slot, HANDLED);
      this.slotPhase[slot] = CLOSING;
      this.clock.set(slot, this.now + this.cell.closeS[s]!);
    } else this.startProcessing(slot, s);
  }

  private startProcessing(slot: number, s: number): void {
    if (this.trace !== null) this.tell('start', slot);
    this.slotLeft[slot] = this.cycleS(s, this.slotOp[slot]!);
    this.run(slot);
  }

  private cycleS(s: number, op: number): number {
    const { opCycleS, cycleSampler, cycleScale } = this.cell;
    const i = cycleSampler[s]!;
    return i < 0 ? opCycleS[op]! : this.draws.drawnS(i, cycleScale, op, s);
  }

  /** Runs to the end of the cycle or to the next random stop, whichever comes first. */
  private run(slot: number): void {
    this.change(slot, PROCESSING);
    const left = this.slotLeft[slot]!;
    const toStop = this.slotToStop[slot]!;
    if (left <= toStop) {
      this.slotToStop[slot] = toStop - left;
      this.slotPhase[slot] = RUNNING;
      this.clock.set(slot, this.now + left);
    } else {
      this.slotLeft[slot] = left - toStop;
      this.slotPhase[slot] = RUNNING_TO_STOP;
      this.clock.set(slot, this.now + toStop);
    }
  }

  /** The timer that has fired stands until a phase sets it anew, or takes it out where none follows. */
  private onSlot(slot: number): void {
    const s = this.cell.slotStation[slot]!;
    if (this.plain[s] === 1) {
      this.clock.set(slot, Number.POSITIVE_INFINITY);
      if (this.trace !== null) this.tell('finish', slot);
      this.finishPart(slot);
    } else this.onPhase(slot, s);
  }

  private onPhase(slot: number, s: number): void {
    switch (this.slotPhase[slot]) {
      case RUNNING:
        if (this.stops.first[s]! >= 0) this.stops.add(s, this.cell.opBatch[this.slotOp[slot]!]!);
        this.afterProcessing(slot, s);
        return;
      case CLOSING:
        this.startProcessing(slot, s);
        return;
      case OPENING:
        this.finish(slot, s);
        return;
      case STOPPED:
        this.endStop(slot, s);
        return;
      case RUNNING_TO_STOP:
        this.breakDown(slot, s);
    }
  }

  private afterProcessing(slot: number, s: number): void {
    if (this.stops.first[s]! >= 0 && this.beginDueStop(slot, s)) return;
    if (this.trace !== null) this.tell('finish', slot);
    if (this.cell.readyS[s]! > 0) {
      this.change(slot, HANDLED);
      this.slotPhase[slot] = OPENING;
      this.clock.set(slot, this.now + this.cell.readyS[s]!);
    } else this.finish(slot, s);
  }

  private finish(slot: number, s: number): void {
    this.clock.set(slot, Number.POSITIVE_INFINITY);
    if (this.trace !== null && this.cell.readyS[s]! > 0) this.tell('ready', slot);
    this.finishPart(slot);
    if (this.hasBatch[s] === 1) this.finishMates(slot, s);
    this.slotLeader[slot] = -1;
  }

  private finishPart(slot: number): void {
    this.machineFinishes++;
    this.changed = true;
    this.enter(slot, FINISHED, this.now);
    this.slotFinishedAt[slot] = this.now;
    this.calls.add(slot);
  }

  private finishMates(slot: number, s: number): void {
    const { firstSlot } = this.cell;
    for (let mate = firstSlot[s]!; mate < firstSlot[s + 1]!; mate++) {
      if (mate === slot || this.slotLeader[mate] !== slot) continue;
      this.enter(mate, FINISHED, this.now);
      this.slotFinishedAt[mate] = this.now;
      this.calls.add(mate);
      this.slotLeader[mate] = -1;
    }
  }

  /** The robot has taken the part out of a slot. */
  vacate(slot: number): void {
    const s = this.cell.slotStation[slot]!;
    this.slotOp[slot] = -1;
    this.freeSlots[s]!++;
    if (this.rawFed[s] === 0) this.calls.remove(slot);
    if (this.changeovers.any) this.changeovers.emptied(s, this.now);
  }

  // ---- random stops -------------------------------------------------------------------------------------------

  private breakDown(slot: number, s: number): void {
    this.clock.set(slot, Number.POSITIVE_INFINITY);
    this.randomStops[s]!++;
    this.tellStop();
    if (this.trace !== null) this.tell('stop', slot);
    this.change(slot, DOWN_WAITING);
    this.people.callTo(CALL_REPAIR, slot, this.now);
  }

  /** A robot that waits where a station stops looks again if another one calls; one on its way there does so in any case. */
  private tellStop(): void {
    this.hasStopped = true;
    this.changed ||= this.calls.head >= 0;
  }

  // ---- planned stops ------------------------------------------------------------------------------------------

  /** Begins the first planned stop that is due; it runs at the end of a cycle, before the finish signal. */
  private beginDueStop(slot: number, s: number): boolean {
    const i = this.stops.beginsAt(s, this.slotOp[slot]!, this.now, this.people.anyFree);
    if (i < 0) return false;
    const stop = this.cell.stops[i]!;
    this.tellStop();
    this.slotStop[slot] = i;
    if (this.trace !== null) this.tell('pause', slot);
    if (stop.needsOperator) {
      this.clock.set(slot, Number.POSITIVE_INFINITY);
      this.change(slot, STOP_WAITING);
      this.holds.slotWaits(slot, this.now);
      this.people.callTo(CALL_STOP, slot, this.now);
    } else {
      this.change(slot, STOP_WORK);
      this.slotPhase[slot] = STOPPED;
      this.clock.set(slot, this.now + stop.seconds);
    }
    this.stops.renew(i, this.now);
    return true;
  }

  private endStop(slot: number, s: number): void {
    if (this.trace !== null) this.tell('resume', slot);
    this.slotStop[slot] = -1;
    this.afterProcessing(slot, s);
  }

  // ---- parts in and out --------------------------------------------------------------------------------------------------

  /** The robot has taken a raw part from an infeed; pickedS is when the pick ended. */
  takeRaw(route: number, choice: number, pickedS: number): void {
    this.started[route]!++;
    this.mixStarted[route]!++;
    this.racks.use(choice, this.cell.routeFirstOp[route]!, pickedS);
  }

  /** The robot has placed a finished part on an outfeed. @param late it has waited too long somewhere */
  deliver(op: number, choice: number, late: 0 | 1): void {
    const route = this.cell.opRoute[op]!;
    const share = this.cell.goodShare[route]!;
    this.lastOutS = this.now;
    if (late === 1) this.late[route]!++;
    else if (!this.chance) {
      this.good[route]! += share;
      this.scrap[route]! += 1 - share;
    } else if (share >= 1 || this.draws.isGood(route, share)) this.good[route]!++;
    else this.scrap[route]!++;
    this.racks.use(choice, op, this.now);
  }

  // ---- calls of operators -------------------------------------------------------------------------------------

  callToRack(s: number, stop: number): void {
    this.holds.rackWaits(s, this.now, stop);
    this.people.callTo(CALL_RACK, s, this.now);
  }

  responseS(call: number, target: number): number {
    const sampler = this.cell.responseSampler[call === CALL_RACK ? target : this.cell.slotStation[target]!]!;
    return sampler < 0 ? 0 : this.draws.draw(sampler) * 60;
  }

  begin(call: number, target: number): number {
    if (call === CALL_REPAIR) {
      if (this.trace !== null) this.tell('attend', target);
      this.change(target, DOWN_REPAIR);
      const s = this.cell.slotStation[target]!;
      return this.draws.draw(this.cell.repairSampler[s]!) * 60 * this.cell.repairScale[s]!;
    }
    if (!this.chance) {
      if (call === CALL_RACK) this.holds.rackIsServed(target, this.now);
      else this.holds.slotIsServed(target, this.now);
    }
    if (call === CALL_STOP) {
      this.change(target, STOP_WORK);
      return this.cell.stops[this.slotStop[target]!]!.seconds;
    }
    const stop = this.stops.first[target]!;
    return stop < 0 ? 0 : this.cell.stops[stop]!.seconds;
  }

  end(call: number, target: number): void {
    if (call === CALL_REPAIR) this.restart(target);
    else if (call === CALL_STOP) this.endStop(target, this.cell.slotStation[target]!);
    else this.racks.isServed(target);
  }

  private restart(slot: number): void {
    this.slotToStop[slot] = this.draws.timeToStop(this.cell.slotStation[slot]!);
    if (this.trace !== null) this.tell('run', slot);
    this.run(slot);
  }

  // ---- changeovers --------------------------------------------------------------------------------------------

  isEmpty(s: number): boolean {
    return (
      this.freeSlots[s] === this.cell.firstSlot[s + 1]! - this.cell.firstSlot[s]! && this.coming[s] === 0
    );
  }

  /** A changeover stops a station, or it runs again. */
  stop(s: number, stopped: boolean): void {
    this.stopped[s] = stopped ? 1 : 0;
    this.changed = true;
    for (let slot = this.cell.firstSlot[s]!; slot < this.cell.firstSlot[s + 1]!; slot++)
      this.enter(slot, stopped ? CHANGEOVER : EMPTY, this.now);
  }

  /** True where a changeover keeps a station from taking a part of an operation after so much of the robot's time. */
  heldBack(s: number, op: number, afterS: number): boolean {
    if (!this.changeovers.any) return false;
    const { cell } = this;
    const inWorkS = cell.closeS[s]! + cell.opCycleS[op]! + cell.readyS[s]!;
    return this.changeovers.holdsBack(s, this.now, this.now + afterS + inWorkS);
  }

  // ---- calendar -----------------------------------------------------------------------------------------------

  private onCalendar(): void {
    const { hours, people } = this;
    const wereThere = people.present > 0;
    hours.goOn();
    this.clock.set(this.calendarTimer, hours.enter(this.now));
    if (wereThere && hours.operators === 0) this.racks.topUp();
    this.changed = true;
    people.change(hours.operators, this.now);
  }

  /** The state as numbers, times counted from now. */
  signature(push: (value: number) => void): void {
    const { now, cell } = this;
    const { times } = this.clock;
    const ahead = (timeS: number): number => (timeS === Number.POSITIVE_INFINITY ? -1 : timeS - now);
    for (let slot = 0; slot < cell.slotCount; slot++) {
      const state = this.slotState[slot]!;
      push(state + 16 * this.slotLate[slot]! + 32 * (this.slotOp[slot]! + 1));
      push(this.slotPhase[slot]! + 8 * (this.slotLeader[slot]! + 2) + 8192 * (this.slotStop[slot]! + 1));
      push(state === FINISHED ? now - this.slotFinishedAt[slot]! : 0);
    }
    for (let i = 0; i < this.firstChangeover; i++) push(ahead(times[i]!));
    push(ahead(this.robotAtS));
    for (let s = 0; s < cell.stationCount; s++)
      push(
        this.racks.state[s]! +
          4 * this.stopped[s]! +
          8 * this.coming[s]! +
          256 * this.pendingCount[s]! +
          65_536 * (this.pendingOp[s]! + 1),
      );
    this.stops.signature(push, now);
    for (const readyS of this.racks.readyAtS) push(Math.max(0, readyS - now));
    const sets = cell.routeMix.map((mix, r) => (mix > 0 ? this.mixStarted[r]! / mix : 0));
    const least = Math.min(...sets);
    for (const done of sets) push(done - least);
    this.people.signature(push);
    this.changeovers.signature(push);
  }

  // ---- tallies --------------------------------------------------------------------------------------

  /** Counts all states up to the present time. */
  settle(): void {
    for (let slot = 0; slot < this.cell.slotCount; slot++) this.enter(slot, this.slotState[slot]!, this.now);
    this.people.settle(this.now);
  }

  /** Starts all tallies afresh; parts inside stay where they are. */
  clearTallies(): void {
    this.slotTime.fill(0);
    for (const tally of [this.good, this.scrap, this.late, this.started, this.overstays, this.randomStops])
      tally.fill(0);
    this.waits?.timeS.fill(0);
    this.people.busyS = 0;
    this.machineFinishes = 0;
    this.robotServices = 0;
  }

  private tell(what: LogSignal, slot: number): void {
    this.tellAt(this.now, what, this.cell.slotStation[slot]!, this.slotOp[slot]!);
  }

  /** Tells the log of something; only where there is one. @param op operation of the part; -1 = no part */
  tellAt(timeS: number, what: LogSignal, station: number, op: number): void {
    const { stationNames, routeNames, opRoute } = this.cell;
    const part = op < 0 ? '' : routeNames[opRoute[op]!]!;
    this.trace!(timeS, what, stationNames[station]!, part, this.now);
  }
}

function stationsWithBatches(cell: CompiledCell): Uint8Array {
  const found = new Uint8Array(cell.stationCount);
  for (let op = 0; op < cell.opCount; op++)
    if (cell.opBatch[op]! > 1)
      for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++) found[cell.opStations[c]!] = 1;
  return found;
}

function needsOperators(cell: CompiledCell): boolean {
  const limited = [...cell.stationNames.keys()].some(
    (s) => cell.stationKind[s] !== WORK && cell.rackParts[s]! < Infinity,
  );
  return limited || cell.mtbfS.some((v) => v < Infinity) || cell.stops.some((stop) => stop.needsOperator);
}
