/** A stay at a held station: the robot places the part, holds it while it is worked on, and picks it again. */
import type { RobotClock } from './robot-clock.js';
import type { RobotMoves } from './robot-moves.js';
import { tellHold } from './robot-trace.js';
import type { ShopFloor } from './shop-floor.js';
import { EMPTY, HANDLING, HOLDING } from './slot-state.js';

/**
 * @param extraS what the timetable adds to the placing
 * @returns when the robot has the part back
 */
export function stayHeld(
  robot: { readonly floor: ShopFloor; readonly moves: RobotMoves; readonly clock: RobotClock },
  op: number,
  station: number,
  comesS: number,
  extraS: number,
): number {
  const { floor, moves, clock } = robot;
  const startS = comesS + moves.placeS(op, station) + extraS;
  clock.add(startS, HANDLING, -1, EMPTY);
  const finishS = startS + moves.holdS(op, station);
  clock.add(finishS, HOLDING, -1, EMPTY);
  const leavesS = finishS + moves.pickS(op, station);
  clock.add(leavesS, HANDLING, -1, EMPTY);
  if (floor.trace !== null) tellHold(floor, station, op, { comesS, startS, finishS, leavesS });
  return leavesS;
}
