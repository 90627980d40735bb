/**
 * The robot that acts on signals: whenever it is free it looks through the calls and starts the round that its rule
 * puts first. A round picks one part (or goes on with the part in hand), carries it over its held steps, and places it;
 * with two hands it may first take the finished part out of the place it is about to fill, and keeps that one in hand.
 *
 * Rules: `first`, the call that came first; `nearest`, the shortest way to the pick; `longest`, the longest cycle. A
 * part is picked only when there is a place for it; a one-handed robot among stations that can block each other in a
 * ring also asks whether all parts could still leave (see safe-move). Ties fall to the earlier call.
 */

import type { CallRule } from '../model/call-rules.js';
import { type CompiledCell, OUTFEED, WORK } from './compiled-cell.js';
import type { OpenTime } from './open-time.js';
import type { Racks } from './racks.js';
import type { FloorRobot } from './robot.js';
import { RobotClock } from './robot-clock.js';
import { RobotMoves } from './robot-moves.js';
import { tellHold, tellPick, tellPlace, tellWay } from './robot-trace.js';
import { RoutePath } from './route-path.js';
import { SafeMove } from './safe-move.js';
import type { ShopFloor } from './shop-floor.js';
import { EMPTY, FINISHED, HANDLED, HANDLING, HOLDING, TRAVEL_EMPTY, TRAVEL_LOADED } from './slot-state.js';

const NONE = -1;

export class DispatchRobot implements FloorRobot {
  readonly clock: RobotClock;
  idle = true;
  readonly resting = false;
  /** Station where the robot stands. */
  at: number;
  /** Operation that the part in hand goes to; -1 = hands empty. */
  carryDest = NONE;
  private carryHeld: Int32Array;
  private carryHeldCount = 0;

  private readonly cell: CompiledCell;
  private readonly hours: OpenTime;
  private readonly racks: Racks;
  private readonly path: RoutePath;
  private readonly moves: RobotMoves;
  private readonly safe: SafeMove | null;
  private readonly seen: Uint8Array;

  // The round under consideration, and then under way.
  private fromSlot = NONE;
  private fromChoice = NONE;
  private fromStation = NONE;
  private fromOp = NONE;
  private destOp = NONE;
  private destStation = NONE;
  private destChoice = NONE;
  private destSlot = NONE;
  private swap = false;
  /** Station that the round under consideration leaves with a free place; -1 = none. */
  private leaving = NONE;
  private pickedS = 0;
  /** Whether the part that is moved, the one taken in exchange, and the one in hand have waited too long. */
  private late: 0 | 1 = 0;
  private swapLate: 0 | 1 = 0;
  private carryLate: 0 | 1 = 0;

  constructor(
    private readonly floor: ShopFloor,
    private readonly rule: CallRule,
  ) {
    this.cell = floor.cell;
    this.hours = floor.hours;
    this.racks = floor.racks;
    this.clock = new RobotClock(floor);
    this.path = new RoutePath(floor.cell);
    this.moves = new RobotMoves(floor);
    this.safe = floor.cell.mayLock ? new SafeMove(floor) : null;
    this.seen = new Uint8Array(floor.cell.slotCount);
    this.carryHeld = new Int32Array(floor.cell.opCount);
    this.at = floor.cell.opStations[0]!;
  }

  /** Starts the next round if there is one; false = the robot waits. */
  decide(): boolean {
    this.floor.changed = false;
    if (this.carryDest >= 0 ? this.chooseWithPart() : this.choose()) {
      this.begin();
      return true;
    }
    return false;
  }

  /** The round is over. */
  onTimer(): void {
    const { floor } = this;
    floor.robotAtS = Number.POSITIVE_INFINITY;
    this.clock.countRound();
    this.complete();
    this.idle = true;
    floor.changed = true;
  }

  // ---- choosing -----------------------------------------------------------------------------------------------

  /** The call that the rule puts first among those that can be served. */
  private choose(): boolean {
    const { calls } = this.floor;
    let best = NONE;
    let bestKey = Number.POSITIVE_INFINITY;
    for (let slot = calls.head; slot >= 0; slot = calls.next[slot]!) {
      if (!this.consider(slot)) continue;
      if (this.rule === 'first') return true;
      const key = this.rule === 'nearest' ? this.wayToPick() : -this.cell.opCycleS[this.calledOp(slot)]!;
      if (key < bestKey) {
        bestKey = key;
        best = slot;
      }
    }
    return best >= 0 ? this.consider(best) : this.considerDirect();
  }

  private wayToPick(): number {
    return this.cell.travelEmptyS[this.at * this.cell.stationCount + this.fromStation]!;
  }

  private calledOp(slot: number): number {
    return this.floor.slotState[slot] === FINISHED ? this.floor.slotOp[slot]! : this.destOp;
  }

  private consider(slot: number): boolean {
    if (this.floor.slotState[slot] !== FINISHED) return this.considerFill(slot);
    return this.cell.hands === 1 || this.carryDest >= 0 ? this.considerUnload(slot) : this.considerSwap(slot);
  }

  /** Carry a finished part to a free place. */
  private considerUnload(slot: number): boolean {
    const op = this.floor.slotOp[slot]!;
    const station = this.cell.slotStation[slot]!;
    const dest = this.path.next(op);
    if (!this.findRoom(dest, station) && !this.findOwnPlace(dest, slot)) return false;
    this.setPick(slot, station, op, NONE);
    this.destOp = dest;
    this.swap = false;
    return this.isSafe();
  }

  /** The next step may be at the same station: the part goes back to the place that it leaves. */
  private findOwnPlace(dest: number, slot: number): boolean {
    const station = this.cell.slotStation[slot]!;
    if (!this.goesTo(dest, station) || !this.fits(dest, station)) return false;
    this.destStation = station;
    this.destSlot = slot;
    return true;
  }

  /** Bring a raw part to an empty slot. */
  private considerFill(slot: number): boolean {
    const station = this.cell.slotStation[slot]!;
    if (this.floor.stopped[station] === 1 || !this.findRaw(station)) return false;
    if (!this.takes(station)) return false;
    this.destStation = station;
    this.destSlot = slot;
    this.swap = false;
    return this.isSafe();
  }

  private isSafe(): boolean {
    return this.safe === null || this.safe.allows(this.fromSlot, this.destOp, this.destStation);
  }

  /**
   * Two hands, both empty, a finished part waits: fetch what comes next to this place, so that the visit leaves it
   * running; from as far up the route as finished parts reach, so that one round moves the whole chain on.
   */
  private considerSwap(slot: number): boolean {
    const { floor, cell } = this;
    this.seen.fill(0);
    this.leaving = cell.slotStation[slot]!;
    if (!this.canGoOn(floor.slotOp[slot]!)) return false;
    this.seen.fill(0);
    this.seen[slot] = 1;
    let start = slot;
    let after = NONE;
    for (let up = this.feederOf(start); up >= 0; up = this.feederOf(start)) {
      after = start;
      start = up;
      this.seen[up] = 1;
    }
    if (this.findRaw(cell.slotStation[start]!) && this.takes(cell.slotStation[start]!)) {
      this.setSwapAt(start);
      return true;
    }
    if (
      after >= 0 &&
      !this.floor.heldBack(cell.slotStation[after]!, this.path.next(floor.slotOp[start]!), 0)
    ) {
      this.setPick(start, cell.slotStation[start]!, floor.slotOp[start]!, NONE);
      this.destOp = this.path.next(this.fromOp);
      this.setSwapAt(after);
      return true;
    }
    if (this.considerUnload(slot)) return true;
    this.setPick(slot, cell.slotStation[slot]!, floor.slotOp[slot]!, NONE);
    this.destOp = this.path.next(this.fromOp);
    return this.findSwap(this.destOp, slot);
  }

  /** With a part in hand: place it, swap it, or use the other hand for something else meanwhile. */
  private chooseWithPart(): boolean {
    this.fromSlot = this.fromChoice = this.fromStation = this.fromOp = NONE;
    this.swap = false;
    this.destOp = this.carryDest;
    this.leaving = NONE;
    if (this.findRoom(this.carryDest, this.at) || this.findSwap(this.carryDest, NONE)) return true;
    return this.choose() || this.swapRegardless();
  }

  /** The last resort with a part in hand: swap it for a finished one that has nowhere to go yet, so that both move on. */
  private swapRegardless(): boolean {
    const { firstChoice, opStations, firstSlot, opKind } = this.cell;
    const op = this.carryDest;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      const s = opStations[c]!;
      if (opKind[op] !== WORK || !this.fits(op, s)) continue;
      for (let slot = firstSlot[s]!; slot < firstSlot[s + 1]!; slot++) {
        if (this.floor.slotState[slot] !== FINISHED) continue;
        this.fromSlot = this.fromChoice = this.fromStation = this.fromOp = NONE;
        this.destOp = op;
        this.setSwapAt(slot);
        return true;
      }
    }
    return false;
  }

  /** Parts that no station works on, straight from infeed to outfeed, fill the robot's spare time. */
  private considerDirect(): boolean {
    for (const route of this.cell.directRoutes) {
      const op = this.cell.routeFirstOp[route]!;
      const choice = this.feedOf(op);
      if (choice < 0 || !this.mixAllows(route)) continue;
      const dest = this.path.next(op);
      if (this.cell.opKind[dest] !== OUTFEED) continue;
      if (!this.findRoom(dest, this.cell.opStations[choice]!)) continue;
      this.setPick(NONE, this.cell.opStations[choice]!, op, choice);
      this.destOp = dest;
      this.swap = false;
      return true;
    }
    return false;
  }

  private setPick(slot: number, station: number, op: number, choice: number): void {
    this.fromSlot = slot;
    this.fromStation = station;
    this.fromOp = op;
    this.fromChoice = choice;
  }

  private setSwapAt(slot: number): void {
    this.destStation = this.cell.slotStation[slot]!;
    this.destSlot = slot;
    this.swap = true;
  }

  /** Finds a station with a free place for an operation; `nearest` takes the nearest, else the first listed. */
  private findRoom(op: number, from: number): boolean {
    const first = this.cell.firstChoice[op]!;
    if (this.cell.firstChoice[op + 1] !== first + 1) return this.findRoomAmong(op, from);
    return this.hasRoom(op, first) && this.setDest(op, first);
  }

  private findRoomAmong(op: number, from: number): boolean {
    const { firstChoice, opStations, travelLoadedS, stationCount } = this.cell;
    let found = NONE;
    let least = Number.POSITIVE_INFINITY;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      if (!this.hasRoom(op, c)) continue;
      const way = this.rule === 'nearest' ? travelLoadedS[from * stationCount + opStations[c]!]! : 0;
      if (way >= least) continue;
      least = way;
      found = c;
    }
    return found >= 0 && this.setDest(op, found);
  }

  private setDest(op: number, choice: number): true {
    this.destChoice = choice;
    this.destStation = this.cell.opStations[choice]!;
    this.destSlot = this.cell.opKind[op] === WORK ? this.freeSlot(this.destStation) : NONE;
    return true;
  }

  private hasRoom(op: number, choice: number): boolean {
    const s = this.cell.opStations[choice]!;
    if (this.cell.opKind[op] === OUTFEED) return this.racks.serves(choice);
    return (
      this.floor.freeSlots[s]! > 0 && this.fits(op, s) && !this.floor.heldBack(s, op, this.carryS(op, s))
    );
  }

  /** About how long the robot takes to bring a part of an operation here. */
  private carryS(op: number, s: number): number {
    const { cell } = this;
    return 2 * cell.travelLoadedS[this.at * cell.stationCount + s]! + cell.opLoadS[op]!;
  }

  /** No changeover keeps a station from taking the part that was found for it. */
  private takes(s: number): boolean {
    return !this.floor.heldBack(s, this.destOp, this.carryS(this.destOp, s));
  }

  /** A fixture that waits for more parts takes only parts of the same step. */
  private fits(op: number, station: number): boolean {
    const pending = this.floor.pendingOp[station]!;
    return pending < 0 || pending === op;
  }

  private freeSlot(station: number): number {
    let slot = this.cell.firstSlot[station]!;
    while (this.floor.slotOp[slot]! >= 0) slot++;
    return slot;
  }

  /** Finds a slot with a finished part that can go on, at a station of an operation; sets the swap there. */
  private findSwap(op: number, not: number): boolean {
    const { firstChoice, opStations, firstSlot } = this.cell;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) {
      const s = opStations[c]!;
      if (this.cell.opKind[op] !== WORK || !this.fits(op, s)) continue;
      if (not !== NONE && this.floor.heldBack(s, op, this.carryS(op, s))) continue;
      for (let slot = firstSlot[s]!; slot < firstSlot[s + 1]!; slot++) {
        if (slot === not || this.floor.slotState[slot] !== FINISHED) continue;
        this.seen.fill(0);
        this.seen[slot] = 1;
        if (!this.canGoOn(this.floor.slotOp[slot]!)) continue;
        this.setSwapAt(slot);
        return true;
      }
    }
    return false;
  }

  /** True when a part that leaves operation op finds room (or the place left), or a finished part that can go on itself. */
  private canGoOn(op: number): boolean {
    const { firstChoice, opStations, firstSlot, opKind } = this.cell;
    const dest = this.path.next(op);
    for (let c = firstChoice[dest]!; c < firstChoice[dest + 1]!; c++) {
      if (this.hasRoom(dest, c)) return true;
      const s = opStations[c]!;
      if (opKind[dest] !== WORK || !this.fits(dest, s)) continue;
      if (s === this.leaving) return true;
      for (let slot = firstSlot[s]!; slot < firstSlot[s + 1]!; slot++) {
        if (this.seen[slot] === 1 || this.floor.slotState[slot] !== FINISHED) continue;
        this.seen[slot] = 1;
        if (this.canGoOn(this.floor.slotOp[slot]!)) return true;
      }
    }
    return false;
  }

  /** A finished part, not looked at yet, whose next station is that of a slot; -1 = none. */
  private feederOf(slot: number): number {
    const { cell, floor } = this;
    const station = cell.slotStation[slot]!;
    for (let up = floor.calls.head; up >= 0; up = floor.calls.next[up]!) {
      if (floor.slotState[up] !== FINISHED || this.seen[up] === 1) continue;
      const dest = this.path.next(floor.slotOp[up]!);
      if (this.goesTo(dest, station) && this.fits(dest, station)) return up;
    }
    return NONE;
  }

  private goesTo(op: number, station: number): boolean {
    const { firstChoice, opStations } = this.cell;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) if (opStations[c] === station) return true;
    return false;
  }

  /** Finds a raw part for a station: of the routes that feed it, the one furthest behind its mix. Sets the pick. */
  private findRaw(station: number): boolean {
    const sole = this.cell.soleFeed[station]!;
    if (sole < 0) return this.findRawByMix(station);
    if (!this.racks.serves(sole)) return false;
    const op = this.cell.choiceOp[sole]!;
    this.setPick(NONE, this.cell.opStations[sole]!, op, sole);
    this.destOp = op + 1;
    return true;
  }

  private findRawByMix(station: number): boolean {
    const { firstRaw, rawRoutes, routeFirstOp, opStations, routeMix } = this.cell;
    let least = Number.POSITIVE_INFINITY;
    for (let i = firstRaw[station]!; i < firstRaw[station + 1]!; i++) {
      const route = rawRoutes[i]!;
      const mix = routeMix[route]!;
      const share = this.floor.mixStarted[route]! / (mix > 0 ? mix : 1);
      if (share >= least || !this.mixAllows(route)) continue;
      const op = routeFirstOp[route]!;
      const choice = this.feedOf(op);
      if (choice < 0) continue;
      const dest = this.path.next(op);
      if (!this.goesTo(dest, station) || !this.fits(dest, station)) continue;
      least = share;
      this.setPick(NONE, opStations[choice]!, op, choice);
      this.destOp = dest;
    }
    return least < Number.POSITIVE_INFINITY;
  }

  /** The infeed of a route that can serve now; -1 = none. */
  private feedOf(op: number): number {
    const { firstChoice } = this.cell;
    for (let c = firstChoice[op]!; c < firstChoice[op + 1]!; c++) if (this.racks.serves(c)) return c;
    return NONE;
  }

  /** Parts made in a ratio are started set by set; a route may be a set, and a fixture's load, ahead of the slowest. */
  private mixAllows(route: number): boolean {
    const { routeMix, routeCount } = this.cell;
    const { mixStarted } = this.floor;
    if (routeMix[route] === 0 || routeCount === 1) return true;
    let sets = Number.POSITIVE_INFINITY;
    for (let r = 0; r < routeCount; r++)
      if (!this.racks.isRouteBarred(r)) sets = Math.min(sets, mixStarted[r]! / routeMix[r]!);
    return (
      mixStarted[route]! < routeMix[route]! * (Math.floor(sets + 1e-9) + 1) + this.cell.routeLead[route]!
    );
  }

  // ---- doing --------------------------------------------------------------------------------------------------

  private begin(): void {
    this.idle = false;
    if (this.destSlot >= 0) this.floor.coming[this.destStation]!++;
    const held = this.fromStation >= 0 ? this.path.take(this.fromOp, this.destOp) : this.carryHeldCount;
    if (held === 0 && !this.swap && this.carryDest < 0) this.beginPlain();
    else this.beginRound();
  }

  /** The commonest round: go there, pick, carry, place. */
  private beginPlain(): void {
    const { floor, clock, moves, fromStation, destStation } = this;
    const t0 = floor.now;
    const pickS = moves.pickS(this.fromOp, fromStation);
    const t1 = this.hours.fit(moves.comesEmptyS(t0, this.at, fromStation), pickS);
    const t2 = t1 + pickS;
    const comesS = moves.comesLoadedS(t2, fromStation, destStation);
    const placeS = moves.placeS(this.destOp, destStation);
    const t3 = this.hours.fit(comesS, placeS);
    const t4 = t3 + placeS;
    this.late = this.fromSlot >= 0 ? this.lateAt(this.fromSlot, t1) : 0;
    clock.plain(t0, t1, t2, t3, t4, this.fromSlot, this.destSlot);
    if (floor.trace !== null) this.tellPlain(t0, t1, t2, t3, t4);
    this.pickedS = t2;
    this.at = destStation;
    floor.robotAtS = t4;
  }

  private tellPlain(t0: number, t1: number, t2: number, t3: number, t4: number): void {
    const { floor, fromStation, fromOp, destStation, destOp } = this;
    tellWay(floor, this.at, fromStation, t0, t1, NONE);
    tellPick(floor, fromStation, fromOp, t1, t2);
    tellWay(floor, fromStation, destStation, t2, t3, fromOp);
    tellPlace(floor, destStation, destOp, t3, t4);
  }

  private beginRound(): void {
    const { floor, clock, cell, moves } = this;
    const told = floor.trace !== null;
    let t = floor.now;
    let since = t;
    clock.begin(t);
    const carrying = this.carryDest >= 0;
    if (this.fromStation >= 0) {
      t = carrying
        ? moves.comesLoadedS(t, this.at, this.fromStation)
        : moves.comesEmptyS(t, this.at, this.fromStation);
      clock.add(t, carrying ? TRAVEL_LOADED : TRAVEL_EMPTY, this.fromSlot, HANDLED);
      if (told) tellWay(floor, this.at, this.fromStation, since, t, this.carryDest);
      const pickS = moves.pickS(this.fromOp, this.fromStation);
      t = this.hours.fit(t, pickS);
      since = t;
      this.late = this.fromSlot >= 0 ? this.lateAt(this.fromSlot, t) : 0;
      t += pickS;
      if (told) tellPick(floor, this.fromStation, this.fromOp, since, t);
      clock.add(t, HANDLING, this.fromSlot, EMPTY);
      this.pickedS = t;
      this.at = this.fromStation;
      t = this.hold(t, this.path.held, this.path.heldCount);
    } else {
      this.late = this.carryLate;
      t = this.hold(t, this.carryHeld, this.carryHeldCount);
    }
    since = t;
    t = moves.comesLoadedS(t, this.at, this.destStation);
    clock.add(t, TRAVEL_LOADED, this.destSlot, HANDLED);
    if (told) tellWay(floor, this.at, this.destStation, since, t, this.destOp);
    if (this.swap) {
      const pickS = moves.pickS(floor.slotOp[this.destSlot]!, this.destStation);
      t = this.hours.fit(t, pickS);
      this.swapLate = this.lateAt(this.destSlot, t);
      since = t;
      t += pickS;
      if (told) tellPick(floor, this.destStation, floor.slotOp[this.destSlot]!, since, t);
      t += cell.indexS;
    }
    const placeS = moves.placeS(this.destOp, this.destStation);
    t = this.hours.fit(t, placeS);
    since = t;
    t += placeS;
    if (told) tellPlace(floor, this.destStation, this.destOp, since, t);
    clock.add(t, HANDLING, NONE, EMPTY);
    this.at = this.destStation;
    floor.robotAtS = t;
  }

  /** Goes to each held station in turn and holds the part there. */
  private hold(startS: number, held: Int32Array, count: number): number {
    const { clock, moves, floor } = this;
    let t = startS;
    for (let i = 0; i < count; i++) {
      const op = held[i]!;
      const station = moves.nearest(this.at, op);
      const comesS = moves.comesLoadedS(t, this.at, station);
      clock.add(comesS, TRAVEL_LOADED, NONE, EMPTY);
      const from = comesS + moves.placeS(op, station);
      clock.add(from, HANDLING, NONE, EMPTY);
      const finishS = from + moves.holdS(op, station);
      clock.add(finishS, HOLDING, NONE, EMPTY);
      const leavesS = finishS + moves.pickS(op, station);
      clock.add(leavesS, HANDLING, NONE, EMPTY);
      if (floor.trace !== null) {
        tellWay(floor, this.at, station, t, comesS, op);
        tellHold(floor, station, op, { comesS, startS: from, finishS, leavesS });
      }
      t = leavesS;
      this.at = station;
    }
    return t;
  }

  /** Whether a part picked at a time has waited too long, there or before. */
  private lateAt(slot: number, pickS: number): 0 | 1 {
    return this.floor.isLate(slot, pickS) ? 1 : this.floor.slotLate[slot] === 1 ? 1 : 0;
  }

  private complete(): void {
    const { floor } = this;
    if (this.destSlot >= 0) floor.coming[this.destStation]!--;
    if (this.fromSlot >= 0) floor.vacate(this.fromSlot);
    else if (this.fromChoice >= 0)
      floor.takeRaw(this.cell.opRoute[this.fromOp]!, this.fromChoice, this.pickedS);
    else this.carryDest = NONE;
    if (this.swap) this.keepInHand(this.destSlot);
    if (this.destSlot >= 0) floor.load(this.destSlot, this.destOp, this.late);
    else floor.deliver(this.destOp, this.destChoice, this.late);
  }

  private keepInHand(slot: number): void {
    const op = this.floor.slotOp[slot]!;
    this.carryLate = this.swapLate;
    this.carryDest = this.path.next(op);
    this.carryHeldCount = this.path.take(op, this.carryDest);
    this.carryHeld.set(this.path.held);
    this.floor.vacate(slot);
  }

  partsInHand(): number {
    return this.carryDest >= 0 ? 1 : 0;
  }

  signature(push: (value: number) => void): void {
    push(this.at);
    push(this.carryDest);
    push(this.carryLate);
    push(this.idle ? 1 : 0);
    push(this.fromSlot);
    push(this.destSlot);
    push(this.destOp);
    for (let slot = this.floor.calls.head; slot >= 0; slot = this.floor.calls.next[slot]!) push(slot);
    this.path.signature(push);
  }

  periodS(): number {
    return Number.NaN;
  }

  clearPeriods(): void {}

  waitText(): string {
    if (this.carryDest < 0) return 'The robot has empty hands and no call that it can serve.';
    const { cell } = this;
    const names = Array.from(
      cell.opStations.subarray(cell.firstChoice[this.carryDest]!, cell.firstChoice[this.carryDest + 1]!),
      (s) => cell.stationNames[s]!,
    );
    return `The robot holds a ${cell.routeNames[cell.opRoute[this.carryDest]!]!} and waits for room at ${names.join(' or ')}.`;
  }
}
