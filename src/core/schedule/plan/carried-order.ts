/**
 * A plan and an order of its events from a sequence of carries that is known to repeat: what another search, a run of
 * the cell or an earlier schedule did. The parts' ways through the cell are read from the carries.
 */
import type { Cell, Step } from '../../model/cell.js';
import { buildPlan, type PathCount, type Plan } from './plan.js';

/** A plan of the cell and an order of its events. */
export interface PlannedOrder {
  readonly plan: Plan;
  readonly order: readonly number[];
}

export interface CarryStop {
  readonly step: Step;
  readonly station: string;
}

/** One event of a sequence: which carry it belongs to, and its place in it. */
export interface CarriedEvent {
  readonly route: number;
  /** From the station of the pick over held stations to that of the place. */
  readonly stops: readonly CarryStop[];
  /** Place in the carry: 0 the pick. */
  readonly stage: number;
}

interface Carry {
  readonly route: number;
  readonly stops: readonly CarryStop[];
  left: number;
}

/** @param events a whole repeating sequence: each carry with all its events, as often as it comes */
export function orderOfCarries(cell: Cell, events: readonly CarriedEvent[]): PlannedOrder {
  const known = new Map<string, Carry>();
  // Events of one carry mostly share one list of stops: its key is made once.
  const keys = new Map<readonly CarryStop[], string>();
  const keyOf = ({ route, stops }: CarriedEvent): string => {
    const made = keys.get(stops) ?? carryKey(cell, route, stops);
    keys.set(stops, made);
    return made;
  };
  for (const event of events) {
    if (event.stage > 0) continue;
    const { route, stops } = event;
    const key = keyOf(event);
    const carry = known.get(key) ?? { route, stops, left: 0 };
    carry.left++;
    known.set(key, carry);
  }
  const plan = buildPlan(cell, pathsOf(cell, [...known.values()]));
  const kindsOf = eventKinds(plan);
  const order = events.map((event) => kindsOf.get(keyOf(event))![event.stage]!);
  return { plan, order };
}

function carryKey(cell: Cell, route: number, stops: readonly CarryStop[]): string {
  const { part } = cell.routes[route]!;
  return stops.map(({ step, station }) => eventKey({ part, step: step.step, station })).join('|');
}

function eventKey(event: { readonly part: string; readonly step: number; readonly station: string }): string {
  return `${event.part} ${event.step} ${event.station}`;
}

/** Follows carries from the infeed to the outfeed until all are used: any such ways give the same plan. */
function pathsOf(cell: Cell, carries: readonly Carry[]): PathCount[] {
  const paths = new Map<string, { route: number; stops: CarryStop[]; count: number }>();
  const isFirst = (carry: Carry): boolean => cell.routes[carry.route]!.steps[0] === carry.stops[0]!.step;
  for (const start of carries.filter(isFirst)) {
    while (start.left > 0) {
      const stops: CarryStop[] = [start.stops[0]!];
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

/** The events of each carry of the plan, first to last, by the key of the carry. */
function eventKinds(plan: Plan): Map<string, readonly number[]> {
  return new Map(
    plan.carries.map(({ events }) => {
      const named = events.map((e) => {
        const event = plan.events[e]!;
        return eventKey({ ...event, station: plan.stations[event.station]!.name });
      });
      return [named.join('|'), events] as const;
    }),
  );
}
