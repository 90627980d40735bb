/**
 * Tells a log what the robot does. A round is planned ahead, so these times may lie ahead of the clock; whoever
 * listens puts them in order.
 */
import type { ShopFloor } from './shop-floor.js';

/** Tells a way from one station to another; nothing where the robot stays. @param op what is in hand; -1 = nothing */
export function tellWay(
  floor: ShopFloor,
  from: number,
  to: number,
  leaveS: number,
  arriveS: number,
  op: number,
): void {
  if (from === to) return;
  floor.tellAt(leaveS, 'leave', from, op);
  floor.tellAt(arriveS, 'arrive', to, op);
}

/** Tells a pick from its begin to its end. */
export function tellPick(floor: ShopFloor, station: number, op: number, startS: number, endS: number): void {
  floor.tellAt(startS, 'pick', station, op);
  floor.tellAt(endS, 'picked', station, op);
}

/** Tells a place from its begin to its end. */
export function tellPlace(floor: ShopFloor, station: number, op: number, startS: number, endS: number): void {
  floor.tellAt(startS, 'place', station, op);
  floor.tellAt(endS, 'placed', station, op);
}

/** Tells a round of one part: from where the robot stands to the pick, and on to the place. @param timesS when each leg begins, and the end */
export function tellRound(
  floor: ShopFloor,
  at: number,
  pick: RoundEnd,
  place: RoundEnd,
  [leavesS, picksS, carriesS, placesS, endS]: readonly [number, number, number, number, number],
): void {
  tellWay(floor, at, pick.station, leavesS, picksS, -1);
  tellPick(floor, pick.station, pick.op, picksS, carriesS);
  tellWay(floor, pick.station, place.station, carriesS, placesS, pick.op);
  tellPlace(floor, place.station, place.op, placesS, endS);
}

interface RoundEnd {
  readonly station: number;
  readonly op: number;
}

/** Tells a stay at a held station: the part comes, is held while it is worked on, and leaves. */
export function tellHold(
  floor: ShopFloor,
  station: number,
  op: number,
  times: {
    readonly comesS: number;
    readonly startS: number;
    readonly finishS: number;
    readonly leavesS: number;
  },
): void {
  tellPlace(floor, station, op, times.comesS, times.startS);
  floor.tellAt(times.startS, 'start', station, op);
  floor.tellAt(times.finishS, 'finish', station, op);
  tellPick(floor, station, op, times.finishS, times.leavesS);
}
