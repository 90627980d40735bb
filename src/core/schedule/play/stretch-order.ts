/** A stretch of a played run as a plan and an order of it, so that its least period can be worked out. */
import { type CarriedEvent, orderOfCarries, type PlannedOrder } from '../carried-order.js';
import type { PlaySpace } from './play-space.js';

/** @param events events of the space's plan between two moments of one shape */
export function stretchOrder(space: PlaySpace, events: readonly number[]): PlannedOrder {
  return orderOfCarries(
    space.cell,
    events.map((event) => carriedEvent(space, event)),
  );
}

function carriedEvent({ cell, plan, carries, carryOf }: PlaySpace, event: number): CarriedEvent {
  const carry = carries[carryOf[event]!]!;
  const { steps } = cell.routes[carry.route]!;
  const stops = carry.events.map((e) => {
    const spec = plan.events[e]!;
    return { step: steps.find((s) => s.step === spec.step)!, station: plan.stations[spec.station]!.name };
  });
  return { route: carry.route, stops, stage: plan.events[event]!.stage };
}
