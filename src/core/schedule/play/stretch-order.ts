/** A stretch of a played run as a plan and an order of it, so that its least period can be worked out. */
import { orderOfCarries, type PlannedOrder } from '../plan/carried-order.js';
import type { PlaySpace } from './play-space.js';

/** @param events events of the space's plan between two moments of one shape */
export function stretchOrder(space: PlaySpace, events: readonly number[]): PlannedOrder {
  return orderOfCarries(
    space.cell,
    events.map((event) => space.carried[event]!),
  );
}
