/** A fixed order of robot events in the numbers of a compiled cell, made from the best schedule found. */
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
  readonly pickIndex: Int32Array;
  readonly pickLag: Int32Array;
  /** Places that pick i needs: linkPlace[firstLink[i] .. firstLink[i + 1] - 1], with the periods back to them. */
  readonly firstLink: Int32Array;
  readonly linkPlace: Int32Array;
  readonly linkLag: Int32Array;
  /** Periods that must be remembered. */
  readonly memory: number;
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
  const links = order.map((event) => event.waitsFor);
  const firstLink = new Int32Array(order.length + 1);
  for (const [i, list] of links.entries()) firstLink[i + 1] = firstLink[i]! + list.length;
  const flat = links.flat();
  const lags = [...flat.map((l) => l.lag), ...order.map((e) => e.pickLag)];
  return {
    count: order.length,
    action: Uint8Array.from(order, (e) => (e.action === 'pick' ? PICK : e.action === 'place' ? PLACE : HOLD)),
    station: Int32Array.from(ops, (o) => o.station),
    op: Int32Array.from(ops, (o) => o.op),
    choice: Int32Array.from(ops, (o) => o.choice),
    extraS: Float64Array.from(order, (e, i) => Math.max(0, e.robotS - nominalS(e.action, ops[i]!.op, cell))),
    pickIndex: Int32Array.from(order, (e) => e.pickIndex),
    pickLag: Int32Array.from(order, (e) => e.pickLag),
    firstLink,
    linkPlace: Int32Array.from(flat, (l) => l.placeIndex),
    linkLag: Int32Array.from(flat, (l) => l.lag),
    memory: Math.max(1, ...lags) + 2,
    timetable: flat.some((l) => l.maxWaitS !== null)
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
