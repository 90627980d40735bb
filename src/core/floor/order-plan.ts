/** A repeating order of robot events in the numbers of a compiled cell, made from the best schedule found. */
import type { Cell } from '../model/cell.js';
import type { OrderEvent, ScheduleFound } from '../schedule/result.js';
import { type CompiledCell, INFEED } from './compiled-cell.js';
import { HOLD, type OrderActs, PICK, PLACE } from './order-acts.js';
import { type OrderContents, orderContents } from './order-contents.js';
import { type OrderLives, orderLives } from './order-lives.js';
import { type OrderTimes, orderTimes } from './order-timetable.js';

/** The order, as far as the floor needs it. */
export type FixedOrder = Pick<ScheduleFound, 'order'>;

export interface OrderPlan extends OrderActs, OrderLives, OrderTimes {
  readonly contents: OrderContents;
  readonly choice: Int32Array;
  /** Robot time of the event beyond what the cell's step says (occasional steps spread over all parts). */
  readonly extraS: Float64Array;
  /** Pick that took the part of each event (a pick: itself), and the place that ends each pick's carry. */
  readonly pickIndex: Int32Array;
  readonly placeIndex: Int32Array;
  /** A pick at an infeed. */
  readonly takesIn: Uint8Array;
}

/**
 * @param cell the cell, and the same compiled
 * @throws RangeError where the order is empty or takes no time, or names a step that the cell does not have
 */
export function orderPlan({ order }: FixedOrder, cell: Cell, compiled: CompiledCell): OrderPlan {
  if (order.length === 0) throw new RangeError('the order has no events');
  const ops = order.map((event) => findOp(event, compiled));
  const lives = orderLives(order);
  const acts = {
    ...lives,
    count: order.length,
    action: Uint8Array.from(order, (e) => (e.action === 'pick' ? PICK : e.action === 'place' ? PLACE : HOLD)),
    station: Int32Array.from(ops, (o) => o.station),
    op: Int32Array.from(ops, (o) => o.op),
  };
  const times = orderTimes(cell, order, lives);
  // Written out, not spread: plans then have one shape inside, and the robot reads them at every act.
  return {
    count: acts.count,
    action: acts.action,
    station: acts.station,
    op: acts.op,
    firstPeriod: lives.firstPeriod,
    lifeOf: lives.lifeOf,
    beginsLife: lives.beginsLife,
    lifePeriods: lives.lifePeriods,
    canRunOut: lives.canRunOut,
    hasLongestWaits: times.hasLongestWaits,
    gapS: times.gapS,
    slowGapS: times.slowGapS,
    lifeS: times.lifeS,
    contents: orderContents(acts, compiled),
    choice: Int32Array.from(ops, (o) => o.choice),
    extraS: Float64Array.from(order, (e, i) =>
      Math.max(0, e.robotS - nominalS(e.action, ops[i]!.op, compiled)),
    ),
    pickIndex: Int32Array.from(order, (e) => e.pickIndex),
    placeIndex: Int32Array.from(order, (_, i) =>
      order.findIndex((e) => e.action === 'place' && e.pickIndex === i),
    ),
    takesIn: Uint8Array.from(order, (e, i) =>
      e.action === 'pick' && compiled.opKind[ops[i]!.op] === INFEED ? 1 : 0,
    ),
  };
}

function findOp(event: OrderEvent, cell: CompiledCell): { op: number; station: number; choice: number } {
  const station = cell.stationNames.indexOf(event.station);
  for (let op = 0; op < cell.opCount; op++) {
    if (cell.routeNames[cell.opRoute[op]!] !== event.part || cell.opStep[op] !== event.step) continue;
    for (let c = cell.firstChoice[op]!; c < cell.firstChoice[op + 1]!; c++)
      if (cell.opStations[c] === station) return { op, station, choice: c };
  }
  throw new RangeError(
    `the order names step ${event.step} of ${event.part} at ${event.station}, which the cell does not have`,
  );
}

function nominalS(action: OrderEvent['action'], op: number, cell: CompiledCell): number {
  if (action === 'pick') return cell.opUnloadS[op]!;
  if (action === 'place') return cell.opLoadS[op]!;
  return cell.opLoadS[op]! + cell.opCycleS[op]! + cell.opUnloadS[op]!;
}
