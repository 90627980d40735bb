/**
 * Everything in the cell but the robot: slots of stations with their cycles and stops, racks, operators, the calendar.
 * Each element has one timer; onTimer moves it on. The robot's class reads this state and calls load, vacate, takeRaw
 * and deliver. Typed arrays throughout; nothing is allocated while the simulation runs.
 */

import type { LogSignal } from '../log/signals.js';
import { nextUniform, seedStream } from '../statistics/random-streams.js';
import type { OpenCalendar } from './calendar.js';
import { CallList } from './call-list.js';
import { type CompiledCell, INFEED, OUTFEED, WORK } from './compiled-cell.js';
import { EventClock } from './event-clock.js';
import {
  DOWN_REPAIR,
  DOWN_WAITING,
  FINISHED,
  HANDLED,
  PART_LOADED,
  PROCESSING,
  SLOT_STATES,
  STOP_WAITING,
  STOP_WORK,
} from './slot-state.js';

/** What a slot's timer will end. */
const CLOSING = 1;
const RUNNING = 2;
const RUNNING_TO_STOP = 3;
const STOPPED = 4;
const OPENING = 5;

/** Why an operator is called. */
const CALL_REPAIR = 0;
const CALL_STOP = 1;
const CALL_RACK = 2;

/** Rack states. */
const RACK_OPEN = 0;
const RACK_CALLING = 1;
const RACK_SERVED = 2;

/**
 * One thing that happens, for logs; times are in seconds of the open clock. Those of the robot may lie ahead of the
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
  readonly calendar: OpenCalendar | null;
  /** Operators where no calendar says so. */
  readonly operators: number;
  readonly seed: number;
  readonly replication: number;
  readonly trace: TraceEvent | null;
}

export class ShopFloor {
  readonly clock: EventClock;
  readonly calls: CallList;
  /** When the robot's present round or action ends; Infinity = it waits. It comes after all other events of that time. */
  robotAtS = Number.POSITIVE_INFINITY;
  readonly trace: TraceEvent | null;
  now = 0;
  /** Set when something happened that the robot may act on. */
  changed = true;
  attended = true;

  readonly slotState: Uint8Array;
  readonly slotOp: Int32Array;
  readonly slotFinishedAt: Float64Array;
  readonly freeSlots: Int32Array;
  readonly rackLeft: Float64Array;
  readonly rackState: Uint8Array;
  /** By choice of an operation (see firstChoice): when an infeed or outfeed with a pace can serve again. */
  readonly paceReadyAt: Float64Array;
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
  readonly randomStops: Float64Array;
  operatorBusyS = 0;
  machineFinishes = 0;
  robotServices = 0;

  private readonly streams: Int32Array;
  /** Mean of exponential samplers, which need no call through their quantile; 0 for others. */
  private readonly exponentialMean: Float64Array;
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
  private readonly firstStop: Int32Array;
  private readonly stopCount: Float64Array;
  private readonly stopDueAt: Float64Array;
  private readonly rackTimer: Int32Array;
  private readonly timerStation: Int32Array;
  private readonly firstOperator: number;
  private readonly firstRack: number;
  private readonly operatorCall: Int32Array;
  private readonly operatorTarget: Int32Array;
  private readonly operatorWorking: Uint8Array;
  private readonly operatorSince: Float64Array;
  private operatorsPresent: number;
  private operatorsBusy = 0;
  private readonly queueCall: Int32Array;
  private readonly queueTarget: Int32Array;
  private queueFirst = 0;
  private queueLength = 0;
  private readonly calendar: OpenCalendar | null;
  private readonly calendarTimer: number;
  private span = 0;
  private weekStart = 0;

  constructor(
    readonly cell: CompiledCell,
    options: FloorOptions,
  ) {
    const { slotCount, stationCount } = cell;
    this.calendar = options.calendar;
    this.trace = options.trace;
    this.slotState = new Uint8Array(slotCount);
    this.slotOp = new Int32Array(slotCount).fill(-1);
    this.slotFinishedAt = new Float64Array(slotCount);
    this.slotTime = new Float64Array(slotCount * SLOT_STATES);
    this.slotSince = new Float64Array(slotCount);
    this.slotPhase = new Uint8Array(slotCount);
    this.slotLeft = new Float64Array(slotCount);
    this.slotToStop = new Float64Array(slotCount).fill(Number.POSITIVE_INFINITY);
    this.slotStop = new Int32Array(slotCount).fill(-1);
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
    this.randomStops = new Float64Array(stationCount);
    this.rackLeft = Float64Array.from(cell.rackParts);
    this.rackState = new Uint8Array(stationCount);
    this.paceReadyAt = new Float64Array(cell.opStations.length);
    this.firstStop = Int32Array.from({ length: stationCount }, (_, s) =>
      cell.stops.findIndex((x) => x.station === s),
    );
    this.stopCount = new Float64Array(cell.stops.length);
    this.stopDueAt = Float64Array.from(cell.stops, (stop) => stop.everyS);
    this.streams = new Int32Array(cell.streamNames.length * 4);
    for (const [i, name] of cell.streamNames.entries())
      seedStream(this.streams, i, options.seed, name, options.replication);

    this.exponentialMean = Float64Array.from(cell.samplers, ({ distribution: d }) =>
      d.name === 'exponential' ? d.mean : 0,
    );

    this.plain = Uint8Array.from({ length: stationCount }, (_, s) => (this.isPlain(s) ? 1 : 0));

    const operators = needsOperators(cell) ? mostOperators(options) : 0;
    this.firstOperator = slotCount;
    this.firstRack = slotCount + operators;
    const racks = rackStations(cell);
    this.rackTimer = new Int32Array(stationCount).fill(-1);
    for (const [i, s] of racks.entries()) this.rackTimer[s] = this.firstRack + i;
    this.timerStation = Int32Array.from(racks);
    this.calendarTimer = this.firstRack + racks.length;
    this.clock = new EventClock(this.calendarTimer + 1);
    this.operatorCall = new Int32Array(operators).fill(-1);
    this.operatorTarget = new Int32Array(operators);
    this.operatorWorking = new Uint8Array(operators);
    this.operatorSince = new Float64Array(operators);
    this.operatorsPresent = this.calendar === null ? operators : this.calendar.operators[0]!;
    this.queueCall = new Int32Array(slotCount + stationCount + 1);
    this.queueTarget = new Int32Array(slotCount + stationCount + 1);
    this.calls = new CallList(slotCount);
    this.openUp();
  }

  /** The first moment: all slots empty, racks full, every slot that an infeed feeds calls for a part. */
  private openUp(): void {
    const { cell } = this;
    for (let slot = 0; slot < cell.slotCount; slot++) {
      const s = cell.slotStation[slot]!;
      if (this.rawFed[s] === 1) this.calls.add(slot);
      if (cell.mtbfS[s]! < Infinity) this.slotToStop[slot] = this.timeToStop(s);
    }
    if (this.calendar !== null) {
      this.attended = this.calendar.attended[0] === 1;
      this.clock.set(this.calendarTimer, this.calendar.endsS[0]!);
    }
  }

  private isPlain(s: number): boolean {
    const { cell } = this;
    const noDoor = cell.closeS[s] === 0 && cell.readyS[s] === 0;
    return noDoor && cell.mtbfS[s] === Infinity && this.firstStop[s]! < 0 && this.hasBatch[s] === 0;
  }

  /** Handles the event of timer i (all but the robot's) at the present time. */
  onTimer(i: number): void {
    if (i < this.firstOperator) this.onSlot(i);
    else if (i < this.firstRack) this.onOperator(i - this.firstOperator);
    else if (i < this.calendarTimer) this.onRack(this.timerStation[i - this.firstRack]!);
    else this.onCalendar();
  }

  /** True when no element has an event to come (an idle robot has none), and no shift brings an operator to a call. */
  standsForEver(): boolean {
    const first = this.clock.first;
    const next = this.clock.times[first]!;
    if (this.calendar === null || first !== this.calendarTimer) return next === Number.POSITIVE_INFINITY;
    if (this.queueLength > 0) return this.calendarIsAlone() && this.calendar.operators.every((n) => n === 0);
    return this.calendarIsAlone();
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
    this.slotTime[slot * SLOT_STATES + this.slotState[slot]!]! += timeS - this.slotSince[slot]!;
    this.slotSince[slot] = timeS;
    this.slotState[slot] = state;
  }

  // ---- cycles -------------------------------------------------------------------------------------------------

  /** The robot has placed a part of operation op in a slot and left. */
  load(slot: number, op: number): void {
    const s = this.cell.slotStation[slot]!;
    this.slotOp[slot] = op;
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
    const { cell } = this;
    const sampler = cell.cycleSampler[s]!;
    return sampler < 0 ? cell.opCycleS[op]! : this.draw(sampler) * cell.cycleScale[s * cell.opCount + op]!;
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

  private onSlot(slot: number): void {
    this.clock.set(slot, Number.POSITIVE_INFINITY);
    const s = this.cell.slotStation[slot]!;
    if (this.plain[s] === 1) {
      if (this.trace !== null) this.tell('finish', slot);
      this.finishPart(slot);
    } else this.onPhase(slot, s);
  }

  private onPhase(slot: number, s: number): void {
    switch (this.slotPhase[slot]) {
      case RUNNING:
        if (this.firstStop[s]! >= 0) this.countForStops(slot, s);
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
    if (this.firstStop[s]! >= 0 && this.beginDueStop(slot, s)) return;
    if (this.trace !== null) this.tell('finish', slot);
    if (this.cell.readyS[s]! > 0) {
      this.change(slot, HANDLED);
      this.slotPhase[slot] = OPENING;
      this.clock.set(slot, this.now + this.cell.readyS[s]!);
    } else this.finish(slot, s);
  }

  private finish(slot: number, s: number): void {
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
  }

  // ---- random stops -------------------------------------------------------------------------------------------

  private breakDown(slot: number, s: number): void {
    this.randomStops[s]!++;
    if (this.trace !== null) this.tell('stop', slot);
    this.change(slot, DOWN_WAITING);
    this.callOperator(CALL_REPAIR, slot);
  }

  private timeToStop(s: number): number {
    return -this.cell.mtbfS[s]! * Math.log(nextUniform(this.streams, this.cell.samplers.length + s));
  }

  // ---- planned stops ------------------------------------------------------------------------------------------

  private countForStops(slot: number, s: number): void {
    const { stops } = this.cell;
    const parts = this.cell.opBatch[this.slotOp[slot]!]!;
    for (let i = this.firstStop[s]!; i < stops.length; i++)
      if (stops[i]!.station === s) this.stopCount[i]! += parts;
  }

  /** Begins the first planned stop that is due; it runs at the end of a cycle, before the finish signal. */
  private beginDueStop(slot: number, s: number): boolean {
    const { stops } = this.cell;
    for (let i = this.firstStop[s]!; i < stops.length; i++) {
      const stop = stops[i]!;
      if (stop.station !== s || !this.isDue(i)) continue;
      this.stopCount[i] = Math.max(0, this.stopCount[i]! - stop.everyParts);
      this.slotStop[slot] = i;
      if (this.trace !== null) this.tell('pause', slot);
      if (stop.needsOperator) {
        this.change(slot, STOP_WAITING);
        this.callOperator(CALL_STOP, slot);
      } else {
        this.change(slot, STOP_WORK);
        this.slotPhase[slot] = STOPPED;
        this.clock.set(slot, this.now + stop.seconds);
      }
      this.stopDueAt[i] = this.now + stop.seconds + stop.everyS;
      return true;
    }
    return false;
  }

  private isDue(i: number): boolean {
    return this.stopCount[i]! >= this.cell.stops[i]!.everyParts || this.now >= this.stopDueAt[i]!;
  }

  private endStop(slot: number, s: number): void {
    if (this.trace !== null) this.tell('resume', slot);
    this.slotStop[slot] = -1;
    this.afterProcessing(slot, s);
  }

  // ---- racks --------------------------------------------------------------------------------------------------

  /** True when a rack (infeed with parts, outfeed with room) can serve the robot now at this choice of an operation. */
  rackServes(choice: number): boolean {
    const s = this.cell.opStations[choice]!;
    return this.rackTimer[s]! < 0 || this.limitedRackServes(s, choice);
  }

  private limitedRackServes(s: number, choice: number): boolean {
    return this.rackState[s] === RACK_OPEN && this.rackLeft[s]! > 0 && this.paceReadyAt[choice]! <= this.now;
  }

  /** The robot has taken a raw part from an infeed; pickedS is when the pick ended. */
  takeRaw(route: number, choice: number, pickedS: number): void {
    this.started[route]!++;
    this.mixStarted[route]!++;
    this.useRack(choice, this.cell.routeFirstOp[route]!, pickedS);
  }

  /** The robot has placed a finished part on an outfeed. */
  deliver(op: number, choice: number): void {
    const route = this.cell.opRoute[op]!;
    const share = this.cell.goodShare[route]!;
    if (share >= 1 || this.isGood(route, share)) this.good[route]!++;
    else this.scrap[route]!++;
    this.useRack(choice, op, this.now);
  }

  private isGood(route: number, share: number): boolean {
    return nextUniform(this.streams, this.cell.samplers.length + this.cell.stationCount + route) < share;
  }

  private useRack(choice: number, op: number, sinceS: number): void {
    const s = this.cell.opStations[choice]!;
    if (this.rackTimer[s]! >= 0) this.useLimitedRack(s, choice, op, sinceS);
  }

  private useLimitedRack(s: number, choice: number, op: number, sinceS: number): void {
    this.rackLeft[s]!--;
    const pace = this.cell.closeS[s]! + this.cell.opCycleS[op]! + this.cell.readyS[s]!;
    this.paceReadyAt[choice] = sinceS + pace;
    const stop = this.dueRackStop(s);
    if (stop >= 0 || this.rackLeft[s]! <= 0) this.callForRack(s, stop);
    else if (pace > 0) this.wakeForPace(s);
  }

  /** Counts one part for the rack's planned stops; number of one that is due, or -1. */
  private dueRackStop(s: number): number {
    const { stops } = this.cell;
    let due = -1;
    if (this.firstStop[s]! < 0) return due;
    for (let i = this.firstStop[s]!; i < stops.length; i++) {
      if (stops[i]!.station !== s) continue;
      this.stopCount[i]!++;
      if (due < 0 && this.isDue(i)) due = i;
    }
    return due;
  }

  /** A rack that has run out, or whose stop is due, calls: its own first stop says how long; else no time, operator. */
  private callForRack(s: number, due: number): void {
    const { stops } = this.cell;
    const i = due >= 0 ? due : this.firstStop[s]!;
    this.rackState[s] = RACK_CALLING;
    if (i >= 0) {
      this.stopCount[i] = 0;
      this.stopDueAt[i] = this.now + stops[i]!.seconds + stops[i]!.everyS;
    }
    if (i >= 0 && !stops[i]!.needsOperator) {
      this.rackState[s] = RACK_SERVED;
      this.clock.set(this.rackTimer[s]!, this.now + stops[i]!.seconds);
    } else this.callOperator(CALL_RACK, s);
  }

  private onRack(s: number): void {
    this.clock.set(this.rackTimer[s]!, Number.POSITIVE_INFINITY);
    if (this.rackState[s] === RACK_SERVED) this.refill(s);
    this.changed = true;
    this.wakeForPace(s);
  }

  private refill(s: number): void {
    this.rackState[s] = RACK_OPEN;
    this.rackLeft[s] = this.cell.rackParts[s]!;
    this.changed = true;
  }

  /** Sets the rack's timer to the next moment at which one of its choices can serve again. */
  private wakeForPace(s: number): void {
    let next = Number.POSITIVE_INFINITY;
    for (let c = 0; c < this.cell.opStations.length; c++) {
      const at = this.paceReadyAt[c]!;
      if (this.cell.opStations[c] === s && at > this.now && at < next) next = at;
    }
    if (this.rackState[s] !== RACK_SERVED) this.clock.set(this.rackTimer[s]!, next);
  }

  // ---- operators ----------------------------------------------------------------------------------------------

  private callOperator(call: number, target: number): void {
    const end = (this.queueFirst + this.queueLength) % this.queueCall.length;
    this.queueCall[end] = call;
    this.queueTarget[end] = target;
    this.queueLength++;
    this.sendOperators();
  }

  /** Free operators take calls in the order in which they came. */
  private sendOperators(): void {
    while (this.queueLength > 0 && this.operatorsBusy < this.operatorsPresent) {
      const call = this.queueCall[this.queueFirst]!;
      const target = this.queueTarget[this.queueFirst]!;
      this.queueFirst = (this.queueFirst + 1) % this.queueCall.length;
      this.queueLength--;
      let operator = 0;
      while (this.operatorCall[operator]! >= 0) operator++;
      this.operatorCall[operator] = call;
      this.operatorTarget[operator] = target;
      this.operatorWorking[operator] = 0;
      this.operatorSince[operator] = this.now;
      this.operatorsBusy++;
      const sampler = this.cell.responseSampler[this.stationOfCall(call, target)]!;
      const response = sampler < 0 ? 0 : this.draw(sampler) * 60;
      if (response > 0) this.clock.set(this.firstOperator + operator, this.now + response);
      else this.beginWork(operator);
    }
  }

  private stationOfCall(call: number, target: number): number {
    return call === CALL_RACK ? target : this.cell.slotStation[target]!;
  }

  private beginWork(operator: number): void {
    const call = this.operatorCall[operator]!;
    const target = this.operatorTarget[operator]!;
    this.operatorWorking[operator] = 1;
    if (call === CALL_REPAIR) {
      if (this.trace !== null) this.tell('attend', target);
      this.change(target, DOWN_REPAIR);
    } else if (call === CALL_STOP) this.change(target, STOP_WORK);
    this.clock.set(this.firstOperator + operator, this.now + this.workS(call, target));
  }

  private workS(call: number, target: number): number {
    if (call === CALL_REPAIR) {
      const s = this.cell.slotStation[target]!;
      return this.draw(this.cell.repairSampler[s]!) * 60 * this.cell.repairScale[s]!;
    }
    if (call === CALL_STOP) return this.cell.stops[this.slotStop[target]!]!.seconds;
    const stop = this.firstStop[target]!;
    return stop < 0 ? 0 : this.cell.stops[stop]!.seconds;
  }

  private onOperator(operator: number): void {
    if (this.operatorWorking[operator] === 0) this.beginWork(operator);
    else this.endWork(operator);
  }

  private endWork(operator: number): void {
    const call = this.operatorCall[operator]!;
    const target = this.operatorTarget[operator]!;
    this.clock.set(this.firstOperator + operator, Number.POSITIVE_INFINITY);
    this.operatorCall[operator] = -1;
    this.operatorsBusy--;
    this.operatorBusyS += this.now - this.operatorSince[operator]!;
    if (call === CALL_REPAIR) this.restart(target);
    else if (call === CALL_STOP) this.endStop(target, this.cell.slotStation[target]!);
    else {
      this.refill(target);
      this.wakeForPace(target);
    }
    this.sendOperators();
  }

  private restart(slot: number): void {
    this.slotToStop[slot] = this.timeToStop(this.cell.slotStation[slot]!);
    if (this.trace !== null) this.tell('run', slot);
    this.run(slot);
  }

  // ---- calendar -----------------------------------------------------------------------------------------------

  private onCalendar(): void {
    const calendar = this.calendar!;
    const wereThere = this.operatorsPresent > 0;
    this.span++;
    if (this.span === calendar.endsS.length) {
      this.span = 0;
      this.weekStart += calendar.weekS;
    }
    this.attended = calendar.attended[this.span] === 1;
    this.operatorsPresent = calendar.operators[this.span]!;
    if (wereThere && this.operatorsPresent === 0) this.topUpRacks();
    this.clock.set(this.calendarTimer, this.weekStart + calendar.endsS[this.span]!);
    this.changed = true;
    this.sendOperators();
  }

  /** Before they leave, operators fill the infeeds and clear the outfeeds, beside the running robot. */
  private topUpRacks(): void {
    for (let s = 0; s < this.cell.stationCount; s++)
      if (this.rackState[s] === RACK_OPEN) this.rackLeft[s] = this.cell.rackParts[s]!;
  }

  // ---- draws and tallies --------------------------------------------------------------------------------------

  /** A draw of sampler i. */
  draw(i: number): number {
    const mean = this.exponentialMean[i]!;
    if (mean > 0) return -mean * Math.log(1 - nextUniform(this.streams, i));
    return this.cell.samplers[i]!.distribution.quantile(nextUniform(this.streams, i));
  }

  /** Counts all states up to the present time. */
  settle(): void {
    for (let slot = 0; slot < this.cell.slotCount; slot++) this.enter(slot, this.slotState[slot]!, this.now);
    for (let o = 0; o < this.operatorCall.length; o++) {
      if (this.operatorCall[o]! < 0) continue;
      this.operatorBusyS += this.now - this.operatorSince[o]!;
      this.operatorSince[o] = this.now;
    }
  }

  /** Starts all tallies afresh; parts inside stay where they are. */
  clearTallies(): void {
    this.slotTime.fill(0);
    for (const tally of [this.good, this.scrap, this.started, this.overstays, this.randomStops])
      tally.fill(0);
    this.operatorBusyS = 0;
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

/** Infeeds and outfeeds that can make the robot wait: limited, with stops, or with a pace of their own. */
function rackStations(cell: CompiledCell): number[] {
  const paced = new Set<number>();
  for (let op = 0; op < cell.opCount; op++)
    for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++) {
      const s = cell.opStations[c]!;
      if (cell.closeS[s]! + cell.opCycleS[op]! + cell.readyS[s]! > 0) paced.add(s);
    }
  return [...cell.stationNames.keys()].filter((s) => {
    const kind = cell.stationKind[s];
    if (kind !== INFEED && kind !== OUTFEED) return false;
    return cell.rackParts[s]! < Infinity || paced.has(s) || cell.stops.some((stop) => stop.station === s);
  });
}

function needsOperators(cell: CompiledCell): boolean {
  const limited = [...cell.stationNames.keys()].some(
    (s) => cell.stationKind[s] !== WORK && cell.rackParts[s]! < Infinity,
  );
  return limited || cell.mtbfS.some((v) => v < Infinity) || cell.stops.some((stop) => stop.needsOperator);
}

function mostOperators(options: FloorOptions): number {
  return options.calendar === null ? options.operators : Math.max(0, ...options.calendar.operators);
}
