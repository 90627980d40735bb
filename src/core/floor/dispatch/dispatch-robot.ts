/**
 * The robot that acts on signals: whenever it is free it looks through the calls and begins the round that its rule puts
 * first. A round (see round) picks one part, or goes on with the part in hand, carries it over its held steps, and places
 * it; with two hands it may take the finished part out of the place that it fills, and keeps that one in hand.
 *
 * Which rounds can answer a call: call-rounds; which call comes first: call-order.
 */

import type { CallRule } from '../../model/call-rules.js';
import type { CompiledCell } from '../compiled-cell.js';
import { stayHeld } from '../held-stay.js';
import type { OpenTime } from '../open-time.js';
import type { FloorRobot } from '../robot.js';
import { RobotClock } from '../robot-clock.js';
import { RobotMoves } from '../robot-moves.js';
import { tellPick, tellPlace, tellRound, tellWay } from '../robot-trace.js';
import { RoutePath } from '../route-path.js';
import type { ShopFloor } from '../shop-floor.js';
import { EMPTY, FINISHED, HANDLED, HANDLING, TRAVEL_EMPTY, TRAVEL_LOADED } from '../slot-state.js';
import { CALL_ORDERS, type CallOrder } from './call-order.js';
import { CallRounds } from './call-rounds.js';
import { Places } from './places.js';
import { RawParts } from './raw-parts.js';
import { type CallRound, NONE, type PartToPick, type PlaceToFill, type Round } from './round.js';

export class DispatchRobot implements FloorRobot {
  readonly clock: RobotClock;
  readonly moves: RobotMoves;
  readonly resting = false;
  /** Station where the robot stands. */
  at: number;
  /** It has done nothing yet: there is no act before its first one from which to turn. */
  private isFresh = true;

  private readonly cell: CompiledCell;
  private readonly hours: OpenTime;
  private readonly path: RoutePath;
  private readonly raw: RawParts;
  private readonly rounds: CallRounds;
  private readonly order: CallOrder | null;

  /** The round under way: its pick (null = the part in hand) and its place (null = there is no round). */
  private pick: PartToPick | null = null;
  private place: PlaceToFill | null = null;
  private pickedS = 0;
  /** Whether the part that is moved, the one taken in exchange, and the one in hand have waited too long. */
  private late: 0 | 1 = 0;
  private swapLate: 0 | 1 = 0;
  private carryLate: 0 | 1 = 0;
  /** Operation that the part in hand goes to; NONE = hands empty. */
  private carryOp = NONE;
  /** Held operations on its way there. */
  private carryHeld: Int32Array;
  private carryHeldCount = 0;

  constructor(
    readonly floor: ShopFloor,
    rule: CallRule,
  ) {
    this.cell = floor.cell;
    this.hours = floor.hours;
    this.clock = new RobotClock(floor);
    this.moves = new RobotMoves(floor);
    this.at = floor.cell.opStations[0]!;
    this.path = new RoutePath(floor.cell);
    const places = new Places(floor, this.path, this, rule === 'nearest');
    this.raw = new RawParts(floor, this.path, places);
    this.rounds = new CallRounds(floor, this.path, places, this.raw);
    this.order = CALL_ORDERS[rule];
    this.carryHeld = new Int32Array(floor.cell.opCount);
  }

  get idle(): boolean {
    return this.place === null;
  }

  /** Begins the next round if there is one; false = the robot waits. */
  decide(): boolean {
    this.floor.changed = false;
    const round = this.carryOp >= 0 ? this.nextWithPart() : this.next();
    if (round === null) return false;
    this.pick = round.pick;
    this.place = round.place;
    this.begin(round.pick, round.place);
    return true;
  }

  /** The round is over. */
  onTimer(): void {
    const { floor } = this;
    floor.robotAtS = Number.POSITIVE_INFINITY;
    this.clock.countRound();
    this.complete(this.pick, this.place!);
    this.pick = this.place = null;
    floor.changed = true;
  }

  private next(): CallRound | null {
    return this.firstAnswer(true) ?? this.raw.straightOut();
  }

  /** With a part in hand: place it, exchange it, or use the other hand for something else meanwhile. */
  private nextWithPart(): Round | null {
    const { rounds, carryOp } = this;
    return (
      rounds.withPart(carryOp, this.at) ??
      this.firstAnswer(false) ??
      this.raw.straightOut() ??
      rounds.withPartRegardless(carryOp)
    );
  }

  /** Of the calls that can be answered, the one that the rule puts first. */
  private firstAnswer(handsFree: boolean): CallRound | null {
    const { floor, order, rounds, cell } = this;
    let best: CallRound | null = null;
    let bestKey = Number.POSITIVE_INFINITY;
    for (let slot = floor.calls.head; slot >= 0; slot = floor.calls.next[slot]!) {
      const round = rounds.answerTo(slot, handsFree);
      if (round === null) continue;
      if (order === null) return round;
      const op = floor.slotState[slot] === FINISHED ? floor.slotOp[slot]! : round.place.op;
      const key = order(cell, round, op, this.at);
      if (key >= bestKey) continue;
      bestKey = key;
      best = round;
    }
    return best;
  }

  private begin(pick: PartToPick | null, place: PlaceToFill): void {
    if (place.slot >= 0) this.floor.coming[place.station]!++;
    const held = pick === null ? this.carryHeldCount : this.path.take(pick.op, place.op);
    if (pick !== null && held === 0 && !place.swap && this.carryOp < 0) this.beginPlain(pick, place);
    else this.beginInFull(pick, place, held);
    this.isFresh = false;
  }

  /** The commonest round: go there, pick, carry, place. */
  private beginPlain(pick: PartToPick, place: PlaceToFill): void {
    const { floor, hours, clock, moves } = this;
    const t0 = floor.now;
    const pickS = moves.pickS(pick.op, pick.station);
    const t1 = hours.fit(this.comesEmptyS(pick.station), pickS);
    const t2 = t1 + pickS;
    const comesS = moves.comesLoadedS(t2, pick.station, place.station);
    const placeS = moves.placeS(place.op, place.station);
    const t3 = hours.fit(comesS, placeS);
    const t4 = t3 + placeS;
    this.late = pick.slot >= 0 ? this.lateAt(pick.slot, t1) : 0;
    clock.plain(t0, t1, t2, t3, t4, pick.slot, place.slot);
    if (floor.trace !== null) tellRound(floor, this.at, pick, place, [t0, t1, t2, t3, t4]);
    this.pickedS = t2;
    this.at = place.station;
    floor.robotAtS = t4;
  }

  private comesEmptyS(to: number): number {
    const { floor, at } = this;
    return this.isFresh && to === at ? floor.now : this.moves.comesEmptyS(floor.now, at, to);
  }

  /** @param held how many held operations lie on the way */
  private beginInFull(pick: PartToPick | null, place: PlaceToFill, held: number): void {
    const { floor, clock } = this;
    clock.begin(floor.now);
    if (pick === null) this.late = this.carryLate;
    const readyS = pick === null ? floor.now : this.goAndPick(pick);
    const heldS = this.hold(readyS, pick === null ? this.carryHeld : this.path.held, held);
    floor.robotAtS = this.goAndPlace(heldS, place);
  }

  /** @returns when the part is in hand */
  private goAndPick(pick: PartToPick): number {
    const { floor, clock, moves } = this;
    const carrying = this.carryOp >= 0;
    const comesS = carrying
      ? moves.comesLoadedS(floor.now, this.at, pick.station)
      : this.comesEmptyS(pick.station);
    clock.add(comesS, carrying ? TRAVEL_LOADED : TRAVEL_EMPTY, pick.slot, HANDLED);
    const pickS = moves.pickS(pick.op, pick.station);
    const startS = this.hours.fit(comesS, pickS);
    const endS = startS + pickS;
    this.late = pick.slot >= 0 ? this.lateAt(pick.slot, startS) : 0;
    clock.add(endS, HANDLING, pick.slot, EMPTY);
    if (floor.trace !== null) {
      tellWay(floor, this.at, pick.station, floor.now, comesS, this.carryOp);
      tellPick(floor, pick.station, pick.op, startS, endS);
    }
    this.pickedS = endS;
    this.at = pick.station;
    return endS;
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
      if (floor.trace !== null) tellWay(floor, this.at, station, t, comesS, op);
      t = stayHeld(this, op, station, comesS, 0);
      this.at = station;
    }
    return t;
  }

  /** @returns when the part is placed, and with two hands the one before taken out */
  private goAndPlace(leavesS: number, place: PlaceToFill): number {
    const { floor, clock, moves, hours } = this;
    const { station, op, slot } = place;
    const comesS = moves.comesLoadedS(leavesS, this.at, station);
    clock.add(comesS, TRAVEL_LOADED, slot, HANDLED);
    if (floor.trace !== null) tellWay(floor, this.at, station, leavesS, comesS, op);
    const readyS = place.swap ? this.takeOut(slot, station, comesS) + this.cell.indexS : comesS;
    const placeS = moves.placeS(op, station);
    const startS = hours.fit(readyS, placeS);
    const endS = startS + placeS;
    if (floor.trace !== null) tellPlace(floor, station, op, startS, endS);
    clock.add(endS, HANDLING, NONE, EMPTY);
    this.at = station;
    return endS;
  }

  /** @returns when the finished part is out of its slot */
  private takeOut(slot: number, station: number, comesS: number): number {
    const { floor } = this;
    const op = floor.slotOp[slot]!;
    const pickS = this.moves.pickS(op, station);
    const startS = this.hours.fit(comesS, pickS);
    this.swapLate = this.lateAt(slot, startS);
    if (floor.trace !== null) tellPick(floor, station, op, startS, startS + pickS);
    return startS + pickS;
  }

  /** Whether a part picked at a time has waited too long, there or before. */
  private lateAt(slot: number, pickS: number): 0 | 1 {
    return this.floor.isLate(slot, pickS) || this.floor.slotLate[slot] === 1 ? 1 : 0;
  }

  private complete(pick: PartToPick | null, place: PlaceToFill): void {
    const { floor } = this;
    if (place.slot >= 0) floor.coming[place.station]!--;
    if (pick === null) this.carryOp = NONE;
    else if (pick.slot >= 0) floor.vacate(pick.slot);
    else floor.takeRaw(this.cell.opRoute[pick.op]!, pick.choice, this.pickedS);
    if (place.swap) this.keepInHand(place.slot);
    if (place.slot >= 0) floor.load(place.slot, place.op, this.late);
    else floor.deliver(place.op, place.choice, this.late);
  }

  private keepInHand(slot: number): void {
    const op = this.floor.slotOp[slot]!;
    this.carryLate = this.swapLate;
    this.carryOp = this.path.next(op);
    this.carryHeldCount = this.path.take(op, this.carryOp);
    this.carryHeld.set(this.path.held);
    this.floor.vacate(slot);
  }

  partsInHand(): number {
    return this.carryOp >= 0 ? 1 : 0;
  }

  signature(push: (value: number) => void): void {
    push(this.isFresh ? NONE : this.at);
    push(this.carryOp);
    push(this.carryLate);
    const { pick, place } = this;
    push(place === null ? NONE : this.late + 2 * this.swapLate + (place.swap ? 4 : 0));
    for (const value of [pick?.op, pick?.slot, pick?.choice, place?.op, place?.slot, place?.choice])
      push(value ?? NONE);
    for (let slot = this.floor.calls.head; slot >= 0; slot = this.floor.calls.next[slot]!) push(slot);
    this.path.signature(push);
  }

  periodS(): number {
    return Number.NaN;
  }

  clearPeriods(): void {}

  waitText(): string {
    if (this.carryOp < 0) return 'The robot has empty hands and no call that it can serve.';
    const { cell } = this;
    const names = Array.from(
      cell.opStations.subarray(cell.firstChoice[this.carryOp]!, cell.firstChoice[this.carryOp + 1]!),
      (s) => cell.stationNames[s]!,
    );
    return `The robot holds a ${cell.routeNames[cell.opRoute[this.carryOp]!]!} and waits for room at ${names.join(' or ')}.`;
  }
}
