/** The changeovers of a year as work for people: which machine, how often, how long, and how long the machine stands. */
import type { SetupWay, WayMinutes } from '../cost/way-minutes.js';
import type { Cell } from '../model/cell.js';

/** The changeovers of one machine. */
export interface ChangeoverWork {
  readonly station: string;
  /** A year of 52 weeks; above 0. */
  readonly perYear: number;
  /** Minutes in which people are at work, those of the way included; above 0. */
  readonly workMin: number;
  /** Of these, minutes in which the machine stands; the rest follows while it runs again. */
  readonly standMin: number;
  /** People at work; 1 where the table says fewer. */
  readonly people: number;
  readonly way: SetupWay;
  readonly wayMin: number;
}

/**
 * @param cell its changeovers.csv, and its routes
 * @param stations those that the order visits; the others' changeovers stop nothing
 * @param ways by machine; none named: left out, 0 minutes
 * @returns the most frequent first, then by what the rows and the routes say of the machine: which changeover falls due when
 * must hang neither on names nor, but for machines alike in all that, on the order of the rows
 */
export function changeoverWork(
  { changeovers, routes }: Pick<Cell, 'changeovers' | 'routes'>,
  stations: ReadonlySet<string>,
  ways: Readonly<Record<string, WayMinutes>>,
): ChangeoverWork[] {
  return changeovers
    .filter((row) => row.perYear > 0 && stations.has(row.station))
    .map((row) => ({ row, cyclesS: cyclesAt(routes, row.station) }))
    .sort(
      (a, b) =>
        b.row.perYear - a.row.perYear ||
        b.row.minutesOther - a.row.minutesOther ||
        b.row.internalPct - a.row.internalPct ||
        b.row.people - a.row.people ||
        b.cyclesS - a.cyclesS,
    )
    .map(({ row }) => {
      const { way, minutes } = ways[row.station] ?? { way: 'left out' as const, minutes: 0 };
      const workMin = row.minutesOther + minutes;
      return {
        station: row.station,
        perYear: row.perYear,
        workMin,
        standMin: (workMin * row.internalPct) / 100,
        people: Math.max(1, row.people),
        way,
        wayMin: minutes,
      };
    })
    .filter((work) => work.workMin > 0);
}

/** The cycles of all steps that a machine can make. */
function cyclesAt(routes: Cell['routes'], station: string): number {
  const steps = routes.flatMap((route) => route.steps).filter((step) => step.stations.includes(station));
  return steps.reduce((sum, step) => sum + step.cycleS, 0);
}
