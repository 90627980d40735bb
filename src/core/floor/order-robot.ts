/**
 * The robot that follows a repeating order: it goes to the next event's station and waits there for its turn. From an
 * empty cell, events of parts that do not exist yet are left out. Where steps have longest waits it also keeps the
 * timetable's distances.
 *
 * The strict program waits whatever happens. The one that passes over leaves out a carry whose station is stopped, in
 * changeover, out of parts or full, and takes it up when the order comes there again; see passes-over. Where a station stops
 * while the robot waits there, it goes on as soon as another one calls.
 */
import { type CompiledCell, INFEED, OUTFEED } from './compiled-cell.js';
import { stayHeld } from './held-stay.js';
import { HOLD, PICK, PLACE } from './order-acts.js';
import type { OrderPlan } from './order-plan.js';
import { PassesOver } from './passes-over.js';
import type { FloorRobot } from './robot.js';
import { RobotClock } from './robot-clock.js';
import { RobotMoves } from './robot-moves.js';
import { tellPick, tellPlace, tellWay } from './robot-trace.js';
import type { ShopFloor } from './shop-floor.js';
import { EMPTY, FINISHED, HANDLED, HANDLING, TRAVEL_EMPTY, TRAVEL_LOADED } from './slot-state.js';

export interface OrderHabits {
  /** Leaves out what cannot be served. */
  readonly passesOver: boolean;
  /** Before the cell closes, and before a changeover, takes no part that would not be out in time. */
  readonly runsOut: boolean;
}

export class OrderRobot implements FloorRobot {
  readonly clock: RobotClock;
  idle = true;
  resting = false;
  private readonly cell: CompiledCell;
  readonly moves: RobotMoves;
  private readonly passing: PassesOver | null;
  private readonly runsOut: boolean;
  private acting = false;
  private next = 0;
  private period = 0;
  private inHand = 0;
  /** By pick of the order: its part is in hand, and has waited too long somewhere. */
  private readonly holding: Uint8Array;
  private readonly late: Uint8Array;
  /** Lives that the run-out leaves out, [life * lifePeriods + period]. */
  private readonly leftOut: Uint8Array;
  /** Operation of the part picked last, for the log. */
  private opInHand = -1;
  private at: number;
  /** Station at which the next event was last found to take place; -1 = not there yet. */
  private arrived = -1;
  /** The part that the next event takes in has been found to be out in time; on the way to it that stands. */
  private isInTime = false;
  /** Nothing has happened since the next event was found to take place: on the way to it that stands too. */
  private stands = false;
  private slot = -1;
  private last = -1;
  private lastStartS = Number.NEGATIVE_INFINITY;
  private periods = 0;
  private noted = -1;
  private firstPeriodS = Number.NaN;
  private lastPeriodS = Number.NaN;

  constructor(
    readonly floor: ShopFloor,
    private readonly plan: OrderPlan,
    habits: OrderHabits,
  ) {
    this.runsOut = habits.runsOut && plan.canRunOut;
    this.cell = floor.cell;
    this.clock = new RobotClock(floor);
    this.moves = new RobotMoves(floor);
    this.holding = new Uint8Array(plan.count);
    this.late = new Uint8Array(plan.count);
    this.leftOut = new Uint8Array((Math.max(...plan.lifeOf) + 1) * plan.lifePeriods);
    this.passing = habits.passesOver ? new PassesOver(floor, plan, this.holding) : null;
    while (this.period < plan.firstPeriod[this.next]!) this.step();
    this.at = plan.station[this.next]!;
    this.arrived = this.next;
  }

  /** Starts the event whose turn it is, or goes to it; false = it waits. */
  decide(): boolean {
    const { floor } = this;
    floor.changed = floor.hasStopped = false;
    if (!this.stands && !this.findNext()) return !this.idle;
    this.stands = false;
    if (this.arrived !== this.next && !this.goThere()) return true;
    const { next } = this;
    if (!this.canStart()) return !this.idle;
    const { action, op, station } = this.plan;
    const startS = this.startTime(op[next]!, station[next]!);
    if (startS > floor.now + 1e-9) {
      this.rest(startS);
      return true;
    }
    this.idle = false;
    this.acting = true;
    this.notePeriod();
    this.lastStartS = floor.now;
    this.last = next;
    this.clock.begin(floor.now);
    if (action[next] === HOLD) this.beginHold();
    else if (action[next] === PICK) this.beginPick();
    else this.beginPlace();
    return true;
  }

  onTimer(): void {
    const { floor } = this;
    floor.robotAtS = Number.POSITIVE_INFINITY;
    this.clock.countRound();
    const isNew = floor.changed || floor.hasStopped || floor.changeovers.any;
    this.stands = !this.acting && !isNew && floor.hours.open;
    floor.changed = true;
    this.idle = true;
    this.resting = false;
    if (!this.acting) return;
    this.acting = false;
    this.endEvent();
  }

  /** Waits until the event may start: the timetable's distance, and an open span that holds the act. */
  private rest(untilS: number): void {
    this.clock.begin(this.floor.now);
    this.idle = false;
    this.resting = true;
    this.floor.robotAtS = untilS;
  }

  private startTime(op: number, station: number): number {
    const { floor, plan, next, cell } = this;
    const dueS = Math.max(floor.now, plan.gapS === null ? floor.now : this.lastStartS + this.gap());
    const actS =
      plan.action[next] === PICK
        ? cell.opUnloadS[op]!
        : plan.action[next] === PLACE
          ? cell.opLoadS[op]!
          : cell.opLoadS[op]! + cell.opUnloadS[op]! + this.moves.meanHoldS(op, station);
    return floor.hours.fit(dueS, actS + plan.extraS[next]!);
  }

  private gap(): number {
    const { plan, floor } = this;
    if (this.last === -1) return 0;
    const slow = floor.now > floor.hours.plainUntilS;
    const gaps = slow ? (plan.slowGapS ?? plan.gapS!) : plan.gapS!;
    let sum = 0;
    let i = this.last;
    do {
      i = (i + 1) % plan.count;
      sum += gaps[i]!;
    } while (i !== this.next);
    return sum;
  }

  // ---- which event comes next ---------------------------------------------------------------------------------

  /** Moves on to the next event that takes place; false where none does now. */
  private findNext(): boolean {
    const { next, arrived, cell, passing } = this;
    if (this.goesOn(false)) return true;
    if (!cell.hasRing || passing === null || !this.goesOn(true)) return false;
    if (this.next === next) this.arrived = arrived;
    return true;
  }

  private goesOn(isLastResort: boolean): boolean {
    const { plan } = this;
    const most = plan.count * (plan.lifePeriods + 1);
    for (let i = 0; i < most; i++) {
      if (isLastResort ? this.beginsExchange() : this.takesPlace()) return true;
      this.step();
      this.arrived = -1;
    }
    return false;
  }

  private beginsExchange(): boolean {
    return this.plan.action[this.next] === PICK && this.passing!.beginsExchange(this.next, this.inHand);
  }

  private takesPlace(): boolean {
    const { plan, next, passing } = this;
    if (passing === null) return this.period >= plan.firstPeriod[next]! && !this.isLeftOut();
    if (plan.action[next] !== PICK)
      return (
        this.holding[plan.pickIndex[next]!] === 1 && (plan.action[next] === HOLD || passing.hasRoom(next))
      );
    if (this.period < plan.firstPeriod[next]!) return false;
    if (this.runsOut && plan.takesIn[next] === 1 && this.beginsTooLate()) return false;
    return !passing.leavesOut(next, this.inHand, this.period);
  }

  private isLeftOut(): boolean {
    if (!this.runsOut) return false;
    const { plan, next } = this;
    const instance = this.period - plan.firstPeriod[next]!;
    const flag = plan.lifeOf[next]! * plan.lifePeriods + (instance % plan.lifePeriods);
    if (plan.beginsLife[next]) this.leftOut[flag] = this.beginsTooLate() ? 1 : 0;
    return this.leftOut[flag] === 1;
  }

  private beginsTooLate(): boolean {
    const { floor, plan } = this;
    const outByS = Math.min(floor.hours.closesS, floor.changeovers.nextS());
    this.isInTime ||= floor.now + plan.lifeS[plan.lifeOf[this.next]!]! <= outByS + 1e-9;
    return !this.isInTime;
  }

  private step(): void {
    this.isInTime = false;
    this.next++;
    if (this.next < this.plan.count) return;
    this.next = 0;
    this.period++;
  }

  // ---- doing --------------------------------------------------------------------------------------------------

  private canStart(): boolean {
    const { plan, floor, cell, next } = this;
    const op = plan.op[next]!;
    const s = plan.station[next]!;
    const kind = cell.opKind[op];
    if (plan.action[next] === HOLD) return true;
    if (kind === INFEED || kind === OUTFEED) return floor.racks.serves(plan.choice[next]!);
    if (plan.action[next] === PLACE) {
      const pending = floor.pendingOp[s]!;
      this.slot = floor.freeSlots[s]! > 0 ? floor.freeSlot(s) : -1;
      if (this.slot < 0 || (pending >= 0 && pending !== op)) return false;
      return this.passing === null ? !floor.heldBack(s, op, 0) : floor.stopped[s] === 0;
    }
    this.slot = this.finishedSlot(s, op);
    return this.slot >= 0;
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
    this.late[next] = slot >= 0 && (floor.isLate(slot, floor.now) || floor.slotLate[slot] === 1) ? 1 : 0;
    if (slot >= 0) floor.enter(slot, HANDLED, floor.now);
    this.clock.add(end, HANDLING, slot, EMPTY);
    if (floor.trace !== null) tellPick(floor, plan.station[next]!, op, floor.now, end);
    floor.robotAtS = end;
    this.announce(next, 1);
  }

  /** A station knows of the parts that come to it; a strict robot waits before it with the part in hand. */
  private announce(pick: number, by: 1 | -1): void {
    if (this.passing === null) return;
    const place = this.plan.placeIndex[pick]!;
    if (place >= 0) this.floor.coming[this.plan.station[place]!]! += by;
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
    const { plan, floor, next } = this;
    floor.robotAtS = stayHeld(this, plan.op[next]!, plan.station[next]!, floor.now, plan.extraS[next]!);
  }

  private endEvent(): void {
    const { plan, floor, next } = this;
    const op = plan.op[next]!;
    const kind = this.cell.opKind[op];
    this.at = plan.station[next]!;
    if (plan.action[next] === PICK) {
      this.inHand++;
      this.holding[next] = 1;
      this.opInHand = op;
      if (kind === INFEED) floor.takeRaw(this.cell.opRoute[op]!, plan.choice[next]!, floor.now);
      else floor.vacate(this.slot);
    } else if (plan.action[next] === PLACE) {
      const pick = plan.pickIndex[next]!;
      const late = this.late[pick] === 1 ? 1 : 0;
      this.inHand--;
      this.holding[pick] = 0;
      this.announce(pick, -1);
      if (kind === OUTFEED) floor.deliver(op, plan.choice[next]!, late);
      else {
        this.passing?.placed(next, this.slot, this.period);
        floor.load(this.slot, op, late);
      }
    }
    this.step();
    this.arrived = -1;
  }

  /** Goes to the station of the next event; true where it is there already. */
  private goThere(): boolean {
    const { floor } = this;
    const to = this.plan.station[this.next]!;
    const loaded = this.inHand > 0;
    this.arrived = this.next;
    const end = loaded
      ? this.moves.comesLoadedS(floor.now, this.at, to)
      : this.moves.comesEmptyS(floor.now, this.at, to);
    if (end === floor.now) return true;
    this.clock.begin(floor.now);
    this.clock.add(end, loaded ? TRAVEL_LOADED : TRAVEL_EMPTY, -1, EMPTY);
    if (floor.trace !== null) tellWay(floor, this.at, to, floor.now, end, loaded ? this.opInHand : -1);
    this.at = to;
    this.idle = false;
    floor.robotAtS = end;
    return false;
  }

  private notePeriod(): void {
    if (this.period === this.noted) return;
    if (Number.isNaN(this.firstPeriodS)) this.firstPeriodS = this.floor.now;
    else this.periods += this.period - this.noted;
    this.noted = this.period;
    this.lastPeriodS = this.floor.now;
  }

  /** NaN until a second period has begun. */
  periodS(): number {
    return (this.lastPeriodS - this.firstPeriodS) / this.periods;
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

  signature(push: (value: number) => void, nowS: number): void {
    const { plan } = this;
    push(this.next);
    push(Math.min(this.period, plan.lifePeriods));
    push(this.at);
    push(this.arrived);
    push(this.acting ? 1 : 0);
    push(this.last);
    for (let i = 0; i < plan.count; i++) push(this.holding[i]! + 2 * this.late[i]!);
    if (plan.gapS !== null) push(this.lastStartS - nowS);
    this.passing?.signature(push, this.next, this.period);
    if (this.runsOut && this.passing === null)
      for (let life = 0; life * plan.lifePeriods < this.leftOut.length; life++)
        for (let back = 0; back < plan.lifePeriods; back++)
          push(
            this.leftOut[
              life * plan.lifePeriods +
                ((((this.period - back) % plan.lifePeriods) + plan.lifePeriods) % plan.lifePeriods)
            ]!,
          );
  }
}
