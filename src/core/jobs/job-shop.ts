/** What laying out a week needs at hand: hours of each part at each machine, robot hours, racks, people. */
import { goodShare } from '../mix/mix-program.js';
import { type JobFrame, legVar } from './job-frame.js';
import type { JobProblem } from './job-problem.js';
import { rackHolds } from './unattended-rows.js';

/** A step of a route for which machines are set up. */
export interface ShopStep {
  /** Places in the problem's machines. */
  readonly machines: readonly number[];
  /** Hours of each of them for one started part; an occasional step counts in its share. */
  readonly hours: readonly number[];
}

export interface ShopPart {
  /** Share of started parts that is good. */
  readonly good: number;
  readonly steps: readonly ShopStep[];
  /** Hours of the robot for one started part, about: which empty trips come between is not known yet. */
  readonly robotH: number;
  /** Racks with a capacity that it is taken from or put into. */
  readonly racks: readonly number[];
  /** Not taken in while nobody is there. */
  readonly attendedOnly: boolean;
  /** Its place in the parts of each machine; -1 where it is not made. */
  readonly place: readonly number[];
}

export interface JobShop {
  readonly problem: JobProblem;
  /** By route. */
  readonly parts: readonly ShopPart[];
  /** Route of each job. */
  readonly routeOf: readonly number[];
  /** Hours of each machine's places that count in an hour by the clock. */
  readonly perClockH: readonly number[];
  /** Capacity of each rack. */
  readonly racks: readonly number[];
  /** Hours of people that the week leaves for set-ups. */
  readonly peopleWeekH: number;
}

/** Empty trips are chosen well: a share of the mean trip is counted. */
const TRIP_SHARE = 0.5;

export function jobShop(problem: JobProblem, frame: JobFrame): JobShop {
  const { cell, machines } = problem;
  const first = new Map(
    frame.hours.filter(({ slot }) => slot === 0).map((row) => [row.resource, row] as const),
  );
  const racks: number[] = [];
  const rackKeys = new Map<string, number>();
  const rackOf = (stations: readonly string[]): number[] => {
    const capacity = stations.reduce((sum, name) => {
      const holds = rackHolds(cell, cell.stations.find((s) => s.name === name)!);
      return sum + (holds ?? Number.POSITIVE_INFINITY);
    }, 0);
    if (!Number.isFinite(capacity)) return [];
    const key = [...stations].sort().join('\0');
    if (!rackKeys.has(key)) rackKeys.set(key, racks.push(capacity) - 1);
    return [rackKeys.get(key)!];
  };
  const robot = first.get('robot');
  const trips = Object.entries(robot?.terms ?? {}).filter(([name]) => name.startsWith('0 trip '));
  const tripH = trips.reduce((sum, [, hours]) => sum + hours, 0) / Math.max(1, trips.length);
  const parts = cell.routes.map((route, r): ShopPart => {
    const legs = frame.legs.flatMap((leg, l) => (leg.route === r ? [{ ...leg, l }] : []));
    const steps = route.steps.flatMap((step, s): ShopStep[] => {
      const places = step.stations.map((name) => machines.findIndex((machine) => machine.station === name));
      if (places.some((m) => m < 0)) return [];
      const hours = step.stations.map((name) => {
        const hoursOf = (found: readonly { readonly l: number }[]): number =>
          found.length === 0
            ? 0
            : Math.min(...found.map(({ l }) => first.get(name)?.terms[legVar(0, l)] ?? 0));
        const into = legs.filter((leg) => leg.toStep === s && leg.to === name);
        // A part that goes straight back in is in both.
        const out = legs.filter((leg) => leg.fromStep === s && leg.from === name && leg.to !== name);
        return (hoursOf(into) + hoursOf(out)) / step.everyParts;
      });
      return [{ machines: places, hours }];
    });
    const robotH = route.steps.slice(1).reduce((sum, step, k) => {
      const into = legs.filter((leg) => leg.toStep === k + 1);
      const each = into.map(({ l }) => robot?.terms[legVar(0, l)] ?? 0);
      return sum + ((into.length === 0 ? 0 : Math.min(...each)) + TRIP_SHARE * tripH) / step.everyParts;
    }, 0);
    return {
      good: goodShare(cell, route.part),
      steps,
      robotH,
      racks: [...rackOf(route.steps[0]!.stations), ...rackOf(route.steps.at(-1)!.stations)],
      attendedOnly: cell.parts.find((p) => p.part === route.part)?.unattended === false,
      place: machines.map((machine) => machine.parts.indexOf(route.part)),
    };
  });
  return {
    problem,
    parts,
    routeOf: problem.jobs.map((job) => cell.routes.findIndex((route) => route.part === job.part)),
    perClockH: machines.map(({ station }) => first.get(station)?.perClockH ?? 0),
    racks,
    peopleWeekH: frame.operatorWeek.most,
  };
}
