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
 * @param cell its changeovers.csv
 * @param stations those that the order visits; the others' changeovers stop nothing
 * @param ways by machine; none named: left out, 0 minutes
 * @returns by name of the machine: which changeover falls due when must not hang on the order of the table's rows
 */
export function changeoverWork(
  cell: Pick<Cell, 'changeovers'>,
  stations: ReadonlySet<string>,
  ways: Readonly<Record<string, WayMinutes>>,
): ChangeoverWork[] {
  return cell.changeovers
    .filter((row) => row.perYear > 0 && stations.has(row.station))
    .map((row) => {
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
    .filter((work) => work.workMin > 0)
    .sort((a, b) => (a.station < b.station ? -1 : 1));
}
