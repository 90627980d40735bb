/** A fixed order of robot events in the numbers of a compiled cell, made from the best schedule found. */
import { orderLives } from '../floor/order-lives.js';
import type { OrderEvent, ScheduleFound } from '../schedule/result.js';
import type { CompiledCell } from './compiled-cell.js';

export const PICK = 0;
export const PLACE = 1;
export const HOLD = 2;

export interface OrderPlan {
  readonly count: number;
  readonly action: Uint8Array;
  readonly station: Int32Array;
  readonly op: Int32Array;
  readonly choice: Int32Array;
  /** Robot time of the event beyond what the cell's step says (occasional steps spread over all parts). */
  readonly extraS: Float64Array;
  /** First period in which each event happens when the cell starts empty. */
  readonly firstPeriod: Int32Array;
  /** Timetable, where longest waits forbid to run ahead of it: start of each event, and the period; else null. */
  readonly timetable: { readonly startS: Float64Array; readonly periodS: number } | null;
}

/**
 * @param schedule the order and its times
 * @param cell the same cell, compiled
 * @throws RangeError where the order names a step that the cell does not have
 */
export function orderPlan(
  schedule: Pick<ScheduleFound, 'order' | 'events' | 'holds' | 'periodS'>,
  cell: CompiledCell,
): OrderPlan {
  const { order } = schedule;
  const ops = order.map((event) => findOp(event, cell));
  return {
    count: order.length,
    action: Uint8Array.from(order, (e) => (e.action === 'pick' ? PICK : e.action === 'place' ? PLACE : HOLD)),
    station: Int32Array.from(ops, (o) => o.station),
    op: Int32Array.from(ops, (o) => o.op),
    choice: Int32Array.from(ops, (o) => o.choice),
    extraS: Float64Array.from(order, (e, i) => Math.max(0, e.robotS - nominalS(e.action, ops[i]!.op, cell))),
    firstPeriod: Int32Array.from(orderLives(order).firstPeriod),
    timetable: order.some((e) => e.waitsFor.some((l) => l.maxWaitS !== null))
      ? { startS: startTimes(schedule), periodS: schedule.periodS }
      : null,
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

/** Start of each event of the order: the listed events and holds, taken in the same order. */
function startTimes(schedule: Pick<ScheduleFound, 'order' | 'events' | 'holds'>): Float64Array {
  const events = schedule.events.slice();
  const holds = schedule.holds.slice();
  return Float64Array.from(schedule.order, (wanted) => {
    const list = wanted.action === 'hold' ? holds : events;
    const at = list.findIndex(
      (e) =>
        e.station === wanted.station &&
        e.part === wanted.part &&
        e.step === wanted.step &&
        (!('action' in e) || e.action === wanted.action),
    );
    if (at < 0)
      throw new RangeError(`the schedule gives no time for the ${wanted.action} at ${wanted.station}`);
    return list.splice(at, 1)[0]!.startS;
  });
}
