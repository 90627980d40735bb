/**
 * The positions of each unit in the graph of a prefix. A unit is one position, but an event at which the robot may do
 * well to wait with a part in hand begins one of its own. That can help only where both ends of a carry have a longest
 * wait: the part must leave in time, and must not arrive too soon.
 */
import type { Plan } from '../../plan/plan.js';
import type { Units } from './units.js';

export interface UnitPositions {
  /** Of all units of a period. */
  readonly count: number;
  /** By event: 1 where it begins a position, but for the first of its unit. */
  readonly opens: Uint8Array;
  /** By event: its position's start from the start of the unit. */
  readonly startS: Float64Array;
  /** By event: its start from the start of its position. */
  readonly offsetS: Float64Array;
  /** By unit: start of its last position. */
  readonly lastStartS: Float64Array;
}

export function unitPositions(plan: Plan, units: Units): UnitPositions {
  const opens = new Uint8Array(plan.events.length);
  const startS = new Float64Array(plan.events.length);
  const lastStartS = new Float64Array(units.events.length);
  let count = 0;
  for (const [u, list] of units.events.entries())
    for (const [i, e] of list.entries()) {
      const isNew = i > 0 && mayWaitBefore(plan, list, i);
      if (isNew) {
        opens[e] = 1;
        lastStartS[u] = units.offsetS[e]!;
      }
      if (isNew || i === 0) count += units.counts[u]!;
      startS[e] = lastStartS[u]!;
    }
  const offsetS = units.offsetS.map((at, e) => at - startS[e]!);
  return { count, opens, startS, offsetS, lastStartS };
}

function mayWaitBefore({ nodes, events, carries }: Plan, list: readonly number[], index: number): boolean {
  const event = events[list[index]!]!;
  // A carry waits once, before its last event; a unit of several carries may wait before each of them.
  if (event.action === 'hold') return false;
  const limited = (node: number): boolean => nodes[node]!.maxWaitS !== null;
  if (list.length > carries[event.carry]!.events.length) return nodes.some((node) => node.maxWaitS !== null);
  return limited(events[list[0]!]!.from) && limited(event.to);
}
