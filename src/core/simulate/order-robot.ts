/**
 * The robot that follows a fixed order round and round: it goes to the next event's station at once and waits there
 * for its turn. From an empty cell, events of parts that do not exist yet are passed over. Where steps have longest
 * waits it does not run ahead of the timetable either; once late, the timetable moves on with it.
 */
import { type CompiledCell, INFEED, OUTFEED } from './compiled-cell.js';
import { HOLD, type OrderPlan, PICK, PLACE } from './order-plan.js';
import type { Robot } from './robot.js';
import { RobotClock } from './robot-clock.js';
import { RobotMoves } from './robot-moves.js';
import { tellHold, tellPick, tellPlace, tellWay } from './robot-trace.js';
import type { ShopFloor } from './shop-floor.js';
import { EMPTY, FINISHED, HANDLED, HANDLING, HOLDING, TRAVEL_EMPTY, TRAVEL_LOADED } from './slot-state.js';

export class OrderRobot implements Robot {
  readonly clock: RobotClock;
  idle = true;
  private readonly cell: CompiledCell;
  private readonly moves: RobotMoves;
  private acting = false;
  private next = 0;
  private period = 0;
  private inHand = 0;
  /** Operation of the part picked last, for the log. */
  private opInHand = -1;
  private at: number;
  private slot = -1;
  private lateS = 0;
  private periods = 0;
  private firstPeriodS = Number.NaN;
  private lastPeriodS = Number.NaN;

  constructor(
    private readonly floor: ShopFloor,
    private readonly plan: OrderPlan,
    slowAttended: boolean,
  ) {
    this.cell = floor.cell;
    this.clock = new RobotClock(floor);
    this.moves = new RobotMoves(floor, slowAttended);
    this.passOver();
    this.at = plan.station[this.next]!;
  }

  /** Starts the event whose turn it is, if it can start. */
  decide(): boolean {
    const { floor, plan } = this;
    floor.changed = false;
    if (!this.canStart() || !this.onTime()) return !this.idle;
    const { next } = this;
    this.idle = false;
    this.acting = true;
    this.notePeriod();
    this.clock.begin(floor.now);
    if (plan.action[next] === HOLD) this.beginHold();
    else if (plan.action[next] === PICK) this.beginPick();
    else this.beginPlace();
    return true;
  }

  onTimer(): void {
    const { floor } = this;
    floor.robotAtS = Number.POSITIVE_INFINITY;
    this.clock.countRound();
    floor.changed = true;
    if (!this.acting) {
      this.idle = true;
      return;
    }
    this.acting = false;
    this.endEvent();
    this.goToNext();
  }

  /** Not before the timetable; waits for it with the timer. Lateness moves the timetable. */
  private onTime(): boolean {
    const { timetable } = this.plan;
    if (timetable === null) return true;
    const due = this.lateS + this.period * timetable.periodS + timetable.startS[this.next]!;
    const { floor } = this;
    if (floor.now >= due - 1e-9) {
      this.lateS += Math.max(0, floor.now - due);
      return true;
    }
    this.clock.begin(floor.now);
    this.idle = false;
    floor.robotAtS = due;
    return false;
  }

  private canStart(): boolean {
    const { plan, floor, cell, next } = this;
    const op = plan.op[next]!;
    const s = plan.station[next]!;
    const kind = cell.opKind[op];
    if (plan.action[next] === HOLD) return true;
    if (kind === INFEED || kind === OUTFEED) return floor.rackServes(plan.choice[next]!);
    if (plan.action[next] === PLACE) {
      const pending = floor.pendingOp[s]!;
      this.slot = this.freeSlot(s);
      return this.slot >= 0 && (pending < 0 || pending === op);
    }
    this.slot = this.finishedSlot(s, op);
    return this.slot >= 0;
  }

  private freeSlot(s: number): number {
    const { firstSlot } = this.cell;
    for (let slot = firstSlot[s]!; slot < firstSlot[s + 1]!; slot++)
      if (this.floor.slotOp[slot]! < 0) return slot;
    return -1;
  }

  /** The slot whose part of this step finished first. */
  private finishedSlot(s: number, op: number): number {
    const { firstSlot } = this.cell;
    const { slotState, slotOp, slotFinishedAt } = this.floor;
    let best = -1;
    for (let slot = firstSlot[s]!; slot < firstSlot[s + 1]!; slot++) {
      if (slotState[slot] !== FINISHED || slotOp[slot] !== op) continue;
      if (best < 0 || slotFinishedAt[slot]! < slotFinishedAt[best]!) best = slot;
    }
    return best;
  }

  private beginPick(): void {
    const { plan, floor, next } = this;
    const op = plan.op[next]!;
    const end = floor.now + this.moves.pickS(op, plan.station[next]!) + plan.extraS[next]!;
    const slot = this.cell.opKind[op] === INFEED ? -1 : this.slot;
    if (slot >= 0) {
      if (floor.now - floor.slotFinishedAt[slot]! > this.cell.opMaxWaitS[op]! + 1e-6) floor.overstays[op]!++;
      floor.enter(slot, HANDLED, floor.now);
    }
    this.clock.add(end, HANDLING, slot, EMPTY);
    if (floor.trace !== null) tellPick(floor, plan.station[next]!, op, floor.now, end);
    floor.robotAtS = end;
  }

  private beginPlace(): void {
    const { plan, floor, next } = this;
    const op = plan.op[next]!;
    const end = floor.now + this.moves.placeS(op, plan.station[next]!) + plan.extraS[next]!;
    if (this.cell.opKind[op] !== OUTFEED) floor.enter(this.slot, HANDLED, floor.now);
    this.clock.add(end, HANDLING, -1, EMPTY);
    if (floor.trace !== null) tellPlace(floor, plan.station[next]!, op, floor.now, end);
    floor.robotAtS = end;
  }

  private beginHold(): void {
    const { plan, floor, moves, next } = this;
    const op = plan.op[next]!;
    const s = plan.station[next]!;
    const startS = floor.now + moves.placeS(op, s) + plan.extraS[next]!;
    this.clock.add(startS, HANDLING, -1, EMPTY);
    const finishS = startS + moves.holdS(op, s);
    this.clock.add(finishS, HOLDING, -1, EMPTY);
    const leavesS = finishS + moves.pickS(op, s);
    this.clock.add(leavesS, HANDLING, -1, EMPTY);
    if (floor.trace !== null) tellHold(floor, s, op, { comesS: floor.now, startS, finishS, leavesS });
    floor.robotAtS = leavesS;
  }

  private endEvent(): void {
    const { plan, floor, next } = this;
    const op = plan.op[next]!;
    const kind = this.cell.opKind[op];
    this.at = plan.station[next]!;
    if (plan.action[next] === PICK) {
      this.inHand++;
      this.opInHand = op;
      if (kind === INFEED) floor.takeRaw(this.cell.opRoute[op]!, plan.choice[next]!, floor.now);
      else floor.vacate(this.slot);
    } else if (plan.action[next] === PLACE) {
      this.inHand--;
      if (kind === OUTFEED) floor.deliver(op, plan.choice[next]!);
      else floor.load(this.slot, op);
    }
    this.step();
  }

  /** Goes to the station of the next event that takes place. */
  private goToNext(): void {
    const { floor } = this;
    this.passOver();
    const to = this.plan.station[this.next]!;
    const loaded = this.inHand > 0;
    this.moves.setSpeed();
    const travel = loaded ? this.moves.travelLoadedS(this.at, to) : this.moves.travelEmptyS(this.at, to);
    const end = floor.now + travel;
    this.clock.begin(floor.now);
    this.clock.add(end, loaded ? TRAVEL_LOADED : TRAVEL_EMPTY, -1, EMPTY);
    if (floor.trace !== null) tellWay(floor, this.at, to, floor.now, end, loaded ? this.opInHand : -1);
    this.at = to;
    this.idle = false;
    floor.robotAtS = end;
  }

  /** Steps over events of parts that were never started. */
  private passOver(): void {
    while (this.period < this.plan.firstPeriod[this.next]!) this.step();
  }

  private step(): void {
    this.next++;
    if (this.next < this.plan.count) return;
    this.next = 0;
    this.period++;
  }

  private notePeriod(): void {
    if (this.next !== 0) return;
    if (Number.isNaN(this.firstPeriodS)) this.firstPeriodS = this.floor.now;
    else this.periods++;
    this.lastPeriodS = this.floor.now;
  }

  periodS(): number {
    return this.periods === 0 ? Number.NaN : (this.lastPeriodS - this.firstPeriodS) / this.periods;
  }

  clearPeriods(): void {
    this.periods = 0;
    this.firstPeriodS = Number.NaN;
  }

  partsInHand(): number {
    return this.inHand;
  }

  waitText(): string {
    const { plan, cell, next } = this;
    const what = plan.action[next] === PICK ? 'pick' : 'place';
    const part = cell.routeNames[cell.opRoute[plan.op[next]!]!]!;
    return `The fixed order waits to ${what} ${part} at ${cell.stationNames[plan.station[next]!]!}.`;
  }
}
