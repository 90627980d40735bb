/**
 * A schedule's order on a cell that has changed: other times, or more stations than the schedule uses. The ways of the
 * parts are read from the order itself, so that any schedule found before can be tried again.
 */
import type { Cell, Step } from '../../model/cell.js';
import type { OrderEvent, ScheduleFound } from '../result.js';
import { type CarriedEvent, type CarryStop, orderOfCarries, type PlannedOrder } from './carried-order.js';

interface PlacedEvent {
  readonly event: OrderEvent;
  /** Place in the order. */
  readonly index: number;
}

/**
 * @param cell the changed cell
 * @returns null where the cell has not all the stations and steps of the order, or a step that the order passes over
 */
export function sameOrder(cell: Cell, { order }: Pick<ScheduleFound, 'order'>): PlannedOrder | null {
  const carried: CarriedEvent[] = [];
  for (const [position, events] of eventsByPick(order)) {
    const ordered = carriedInTurn(events, position);
    const stops = ordered.map((e) => stopOf(cell, e.event));
    const route = cell.routes.findIndex((r) => r.part === order[position]!.part);
    if (route < 0 || stops.some((stop) => stop === null)) return null;
    if (passesOver(cell.routes[route]!.steps, stops as CarryStop[])) return null;
    for (const [stage, { index }] of ordered.entries())
      carried[index] = { route, stops: stops as CarryStop[], stage };
  }
  return orderOfCarries(cell, carried);
}

/** The events of each carry, by the place of its pick in the order. */
function eventsByPick(order: readonly OrderEvent[]): Map<number, PlacedEvent[]> {
  const byPick = new Map<number, PlacedEvent[]>();
  for (const [index, event] of order.entries()) if (event.action === 'pick') byPick.set(index, []);
  for (const [index, event] of order.entries()) byPick.get(event.pickIndex)?.push({ event, index });
  return byPick;
}

/** The events of one carry from its pick on; those of the next round come after the end of the order. */
function carriedInTurn(events: readonly PlacedEvent[], pick: number): PlacedEvent[] {
  const before = (a: PlacedEvent): number => (a.index === pick ? -1 : a.event.pickLag * 1e6 + a.index);
  return [...events].sort((a, b) => before(a) - before(b));
}

/** A carry from one step to a later one leaves out only steps that not every part makes. */
function passesOver(steps: readonly Step[], stops: readonly CarryStop[]): boolean {
  const places = stops.map(({ step }) => steps.indexOf(step));
  return places.some((to, i) => i > 0 && steps.slice(places[i - 1]! + 1, to).some((s) => s.everyParts === 1));
}

function stopOf(cell: Cell, event: OrderEvent): CarryStop | null {
  const route = cell.routes.find((r) => r.part === event.part);
  const step = route?.steps.find((s) => s.step === event.step && s.stations.includes(event.station));
  return step === undefined ? null : { step, station: event.station };
}
