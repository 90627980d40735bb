/**
 * A schedule's order on a cell that has changed: other times, or more stations than the schedule uses. The ways of the
 * parts are read from the order itself, so that any schedule found before can be tried again.
 */
import type { Cell, Step } from '../model/cell.js';
import { buildPlan, type PathCount, type Plan } from './plan.js';
import type { OrderEvent, ScheduleFound } from './result.js';

/** A plan of the cell and an order of its events. */
export interface PlannedOrder {
  readonly plan: Plan;
  readonly order: readonly number[];
}

interface Stop {
  readonly step: Step;
  readonly station: string;
}

/** One kind of carry in the order: from its pick over what is held to its place, and how often it comes. */
interface Carry {
  readonly route: number;
  readonly stops: readonly Stop[];
  left: number;
}

interface CarriedEvent {
  readonly event: OrderEvent;
  /** Place in the order. */
  readonly index: number;
}

/**
 * @param cell the changed cell
 * @returns null where the cell has not all the stations and steps of the order
 */
export function sameOrder(cell: Cell, { order }: Pick<ScheduleFound, 'order'>): PlannedOrder | null {
  const known = new Map<string, Carry>();
  const keys: string[] = [];
  for (const [position, events] of eventsByPick(order)) {
    const ordered = carriedInTurn(events, position);
    const stops = ordered.map((e) => stopOf(cell, e.event));
    const route = cell.routes.findIndex((r) => r.part === order[position]!.part);
    if (route < 0 || stops.some((stop) => stop === null)) return null;
    const key = ordered.map((e) => eventKey(e.event)).join('|');
    const carry = known.get(key) ?? { route, stops: stops as Stop[], left: 0 };
    carry.left++;
    known.set(key, carry);
    for (const [stage, e] of ordered.entries()) keys[e.index] = `${key}#${stage}`;
  }
  const plan = buildPlan(cell, pathsOf(cell, [...known.values()]));
  const kindOf = eventKinds(plan);
  return { plan, order: keys.map((key) => kindOf.get(key)!) };
}

/** The events of each carry, by the place of its pick in the order. */
function eventsByPick(order: readonly OrderEvent[]): Map<number, CarriedEvent[]> {
  const byPick = new Map<number, CarriedEvent[]>();
  for (const [index, event] of order.entries()) if (event.action === 'pick') byPick.set(index, []);
  for (const [index, event] of order.entries()) byPick.get(event.pickIndex)?.push({ event, index });
  return byPick;
}

/** The events of one carry from its pick on; those of the next round come after the end of the order. */
function carriedInTurn(events: readonly CarriedEvent[], pick: number): CarriedEvent[] {
  const before = (a: CarriedEvent): number => (a.index === pick ? -1 : a.event.pickLag * 1e6 + a.index);
  return [...events].sort((a, b) => before(a) - before(b));
}

function stopOf(cell: Cell, event: OrderEvent): Stop | null {
  const route = cell.routes.find((r) => r.part === event.part);
  const step = route?.steps.find((s) => s.step === event.step && s.stations.includes(event.station));
  return step === undefined ? null : { step, station: event.station };
}

function eventKey(event: { readonly part: string; readonly step: number; readonly station: string }): string {
  return `${event.part} ${event.step} ${event.station}`;
}

/** Follows carries from the infeed to the outfeed until all are used: any such ways give the same plan. */
function pathsOf(cell: Cell, carries: readonly Carry[]): PathCount[] {
  const paths = new Map<string, { route: number; stops: Stop[]; count: number }>();
  const isFirst = (carry: Carry): boolean => cell.routes[carry.route]!.steps[0] === carry.stops[0]!.step;
  for (const start of carries.filter(isFirst)) {
    while (start.left > 0) {
      const stops: Stop[] = [start.stops[0]!];
      for (let at: Carry | undefined = start; at !== undefined; at = nextCarry(carries, at)) {
        at.left--;
        stops.push(...at.stops.slice(1));
      }
      const key = `${start.route} ${stops.map((s) => `${s.step.step}@${s.station}`).join('|')}`;
      const path = paths.get(key) ?? { route: start.route, stops, count: 0 };
      path.count++;
      paths.set(key, path);
    }
  }
  return [...paths.values()];
}

function nextCarry(carries: readonly Carry[], { route, stops }: Carry): Carry | undefined {
  const end = stops[stops.length - 1]!;
  return carries.find(
    (c) =>
      c.left > 0 && c.route === route && c.stops[0]!.step === end.step && c.stops[0]!.station === end.station,
  );
}

/** Index of each event of the plan by its carry and its place in it. */
function eventKinds(plan: Plan): Map<string, number> {
  return new Map(
    plan.carries.flatMap(({ events }) => {
      const named = events.map((e) => {
        const event = plan.events[e]!;
        return eventKey({ ...event, station: plan.stations[event.station]!.name });
      });
      return events.map((e, stage) => [`${named.join('|')}#${stage}`, e] as const);
    }),
  );
}
