/**
 * For how long finished parts wait in a repeating order, and how much of that is the robot's doing: from the moment at
 * which the part is finished and its next place could take it, while the robot works elsewhere.
 *
 *      |----- process -----|-- next place is full --|-- waits for the robot --|
 *      placed           finishS                   roomS                 startS: picked
 */

import type { Plan } from '../plan/plan.js';
import type { EvaluatedOrder } from './evaluate-order.js';

/** A finished part before its pick; times on the clock of the period, finishes may lie before its start. */
export interface PartWait {
  readonly node: number;
  readonly finishS: number;
  /** From here on the next place can take the part: it has room, or what lies there is finished and can go on. */
  readonly roomS: number;
  readonly startS: number;
}

export function partWaits(plan: Plan, found: EvaluatedOrder): PartWait[] {
  const finishes = finishesByPick(plan, found);
  const roomS = placesFree(plan, found, finishes);
  return [...finishes].map(([pick, finishS]) => {
    const startS = found.startS[pick]!;
    return {
      node: plan.events[found.order[pick]!]!.from,
      finishS: Math.min(finishS, startS),
      roomS: Math.min(startS, Math.max(finishS, roomS(pick))),
      startS,
    };
  });
}

/** By position of the pick: when the part that it takes is finished. */
function finishesByPick(plan: Plan, found: EvaluatedOrder): Map<number, number> {
  const readyBy = new Map<number, number>();
  for (const link of found.links) {
    if (plan.nodes[link.node]!.kind !== 'inside') continue;
    const place = plan.events[found.order[link.place]!]!;
    const finishS =
      found.startS[link.place]! + place.robotS + plan.nodes[link.node]!.processS - link.lag * found.periodS;
    readyBy.set(link.pick, Math.max(readyBy.get(link.pick) ?? Number.NEGATIVE_INFINITY, finishS));
  }
  return readyBy;
}

/**
 * By position of a pick, the moment from which its part's next place is not what it waits for. A place of capacity 1 is
 * free once the part that leaves it before is finished and can go on itself.
 */
function placesFree(
  plan: Plan,
  found: EvaluatedOrder,
  finishes: ReadonlyMap<number, number>,
): (pick: number) => number {
  const known = new Map<number, number>();
  const roomS = (pick: number): number => {
    if (known.has(pick)) return known.get(pick)!;
    // A ring of full places that wait for each other: none of them is held up by a process.
    known.set(pick, Number.NEGATIVE_INFINITY);
    const leaves = leavesBefore(plan, found, pick);
    const at =
      leaves === null
        ? Number.NEGATIVE_INFINITY
        : Math.max(finishes.get(leaves.pick)!, roomS(leaves.pick)) + leaves.shiftS;
    known.set(pick, at);
    return at;
  };
  return roomS;
}

/** The pick that empties the next place of capacity 1 for this pick's part, and how its times are to be shifted. */
function leavesBefore(
  plan: Plan,
  found: EvaluatedOrder,
  pick: number,
): { readonly pick: number; readonly shiftS: number } | null {
  const { order, periodS } = found;
  const { carry, from } = plan.events[order[pick]!]!;
  const { events } = plan.carries[carry]!;
  const { room } = plan.nodes[plan.events[events[events.length - 1]!]!.to]!;
  if (room < 0 || plan.rooms[room]!.capacity !== 1 || room === plan.nodes[from]!.room) return null;
  const isLast = (at: number): boolean => order[at] === events[events.length - 1];
  // Forward to where the part is placed, then back to the pick that made room.
  let place = pick;
  for (let step = 1; step <= order.length && !isLast(place % order.length); step++) place = pick + step;
  for (let at = place - 1; at > place - order.length; at--) {
    const index = ((at % order.length) + order.length) % order.length;
    const event = plan.events[order[index]!]!;
    if (event.action !== 'pick' || plan.nodes[event.from]!.room !== room) continue;
    return { pick: index, shiftS: Math.floor(at / order.length) * periodS };
  }
  return null;
}

/** How long the robot works (handling, travel, held steps) between two moments of at most one period. */
export function robotWorkS(plan: Plan, found: EvaluatedOrder): (fromS: number, toS: number) => number {
  const { order, startS, periodS } = found;
  const stretches = order.map((kind, position) => ({
    fromS: startS[position]!,
    toS: startS[position]! + plan.events[kind]!.robotS + found.arcs[position]!.travelS,
  }));
  return (fromS, toS) => {
    let sum = 0;
    if (periodS <= 0) return sum;
    for (const stretch of stretches)
      for (let shiftS = Math.floor((fromS - stretch.toS) / periodS) * periodS; ; shiftS += periodS) {
        if (stretch.fromS + shiftS >= toS) break;
        sum += Math.max(0, Math.min(toS, stretch.toS + shiftS) - Math.max(fromS, stretch.fromS + shiftS));
      }
    return sum;
  };
}
