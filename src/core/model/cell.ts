/**
 * The cell as plain data: one robot, the stations it reaches, the parts' routes and all that the tables say about
 * shifts, stops, scatter, changeovers, signals and money. Every function of the core takes this and nothing else.
 * Names carry their units: S seconds, Min minutes, H hours, M metres, Pct 0 to 100.
 */
import type { Place } from './place.js';

export const STATION_KINDS = ['infeed', 'outfeed', 'machine', 'bench', 'held', 'buffer'] as const;
export type StationKind = (typeof STATION_KINDS)[number];

/** A place where the robot picks, places or holds a part. */
export interface Station {
  readonly name: string;
  readonly kind: StationKind;
  /** Position, when given; both or neither. */
  readonly xM: number | null;
  readonly yM: number | null;
  /** Parts it can hold; null = unlimited. */
  readonly capacityParts: number | null;
  /** Machine-only time from finish until the robot may enter. */
  readonly readyS: number;
  /** Machine-only time from the robot's leaving until the cycle starts. */
  readonly closeS: number;
  readonly costPerH: number;
  /** Mean processing time between random stops, and mean time to clear one; both or neither. */
  readonly mtbfH: number | null;
  readonly mttrMin: number | null;
  readonly at?: Place;
}

/** One step of a part's route; `stations` holds more than one name where there are alternatives. */
export interface Step {
  /** The number written in the table; steps rise within a part. */
  readonly step: number;
  readonly stations: readonly string[];
  /** Processing time here. At a held station: time the robot holds the part there. */
  readonly cycleS: number;
  /** Robot time to place here (0 at an infeed). */
  readonly loadS: number;
  /** Robot time to pick here (0 at an outfeed). */
  readonly unloadS: number;
  /** Longest wait after the process has finished; null = unlimited. */
  readonly maxWaitS: number | null;
  /** Parts loaded before the station starts. */
  readonly partsPerCycle: number;
  /** One part in this many makes this step. */
  readonly everyParts: number;
  readonly at?: Place;
}

export interface Route {
  readonly part: string;
  readonly steps: readonly Step[];
}

export interface Robot {
  readonly hands: 1 | 2;
  /** Time to turn a two-handed gripper between its hands at a station. */
  readonly indexS: number;
  readonly speedMS: number | null;
  readonly accelMS2: number | null;
  /** One time for every pair of stations not given elsewhere; null = not given. */
  readonly travelS: number | null;
  /** Speed in attended hours as a share of full speed, 0 < pct <= 100. */
  readonly attendedSpeedPct: number;
  readonly costPerH: number;
}

export interface TravelRow {
  readonly from: string;
  readonly to: string;
  readonly emptyS: number;
  readonly loadedS: number;
  readonly at?: Place;
}

export interface Part {
  readonly part: string;
  /** Money that one more good part brings; null = not given. */
  readonly contribution: number | null;
  /** Demand per shift; null = not given. */
  readonly perShift: number | null;
  /** Demand per week, however many shifts it has; in place of one per shift. */
  readonly perWeek?: number | null;
  /** Fixed ratio in which parts are made together; null = not given. */
  readonly ratio: number | null;
  /** Good share, 0 to 100. */
  readonly yieldPct: number;
  /** Taken in also while nobody is there; default yes. */
  readonly unattended?: boolean;
  readonly at?: Place;
}

export const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
export type Day = (typeof DAYS)[number];

/** A span of the clock in minutes after midnight of the day on which the shift starts; may pass 1440. */
export interface ClockSpan {
  readonly startMin: number;
  readonly endMin: number;
}

export interface Shift {
  readonly pattern: string;
  readonly shift: string;
  /** Days on which the shift starts, in week order. */
  readonly days: readonly Day[];
  /** Minutes after midnight; endMin > startMin, past 1440 when the shift ends on the next day. */
  readonly startMin: number;
  readonly endMin: number;
  /** Breaks inside the shift, ascending, on the same clock as startMin. */
  readonly breaks: readonly ClockSpan[];
  /** The cell stops in the breaks, as where a person loads it; not given = it goes on. */
  readonly breaksStop?: boolean;
  readonly attended: boolean;
  readonly operators: number;
  readonly labourPerH: number;
  /** In a week in which the clocks change, for a pattern that it makes longer or shorter; not there in other weeks. */
  readonly clockChange?: ClockChange;
  readonly at?: Place;
}

/** A week that has more or fewer minutes than the clock shows. */
export interface ClockChange {
  /** Minutes of the week. */
  readonly weekMin: number;
  /** Minutes after Monday 00:00 that have passed when the clocks are changed. */
  readonly atMin: number;
  /** Minutes by which they are put back; below 0 = put forward. */
  readonly byMin: number;
}

export interface PlannedStop {
  readonly station: string;
  readonly name: string;
  /** Exactly one of everyParts and everyH is given. */
  readonly everyParts: number | null;
  readonly everyH: number | null;
  readonly minutes: number;
  /** Needs an operator, so it waits for attended hours. */
  readonly operator: boolean;
  /** By at most so many parts it is done early, before people leave; default 0. */
  readonly earlyParts?: number;
  readonly at?: Place;
}

export const ELEMENTS = ['cycle', 'load', 'unload', 'travel', 'repair', 'response'] as const;
export type Element = (typeof ELEMENTS)[number];

export const DISTRIBUTIONS = [
  'constant',
  'exponential',
  'gamma',
  'erlang',
  'lognormal',
  'triangular',
  'pert',
  'weibull',
  'readings',
] as const;
export type Distribution = (typeof DISTRIBUTIONS)[number];

export interface Variation {
  /** Station name, or `*` for all. */
  readonly station: string;
  readonly element: Element;
  readonly distribution: Distribution;
  /** Parameters in the order that the README lists; readings: all values. */
  readonly parameters: readonly number[];
  readonly at?: Place;
}

export interface Changeover {
  readonly station: string;
  readonly perYear: number;
  readonly minutesOther: number;
  readonly internalPct: number;
  readonly people: number;
  readonly at?: Place;
}

/** Minutes to change a machine over from one job to another. */
export interface Setup {
  readonly station: string;
  readonly from: string;
  readonly to: string;
  readonly minutes: number;
  readonly at?: Place;
}

/** Good parts that are wanted by a time of the week. */
export interface Job {
  readonly job: string;
  readonly part: string;
  /** Good parts. */
  readonly quantity: number;
  /** Minutes after Monday 00:00 by which all are to be made, up to 10080 (the end of Sunday). */
  readonly dueMin: number;
  /** Minutes after Monday 00:00 before which none can be made. */
  readonly notBeforeMin: number;
  /** Set-up minutes onto this part, on every machine; null = those of changeovers.csv. */
  readonly setupMin: number | null;
  readonly at?: Place;
}

export interface Signal {
  readonly station: string;
  readonly signal: string;
  /** Seen from the robot's side. */
  readonly direction: 'in' | 'out';
  readonly kind: 'digital' | 'analog';
  readonly volts: number | null;
  readonly milliamps: number | null;
  readonly normally: 'open' | 'closed' | null;
  readonly cableM: number | null;
  readonly cableMm2: number | null;
  readonly safety: boolean;
  readonly at?: Place;
}

export interface CostItem {
  readonly item: string;
  readonly value: number | string;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
  readonly source: string;
  readonly at?: Place;
}

export interface Cell {
  readonly stations: readonly Station[];
  readonly routes: readonly Route[];
  readonly robot: Robot;
  readonly travel: readonly TravelRow[];
  readonly parts: readonly Part[];
  readonly shifts: readonly Shift[];
  readonly stops: readonly PlannedStop[];
  readonly variation: readonly Variation[];
  readonly changeovers: readonly Changeover[];
  readonly setups: readonly Setup[];
  readonly jobs: readonly Job[];
  readonly signals: readonly Signal[];
  readonly costs: readonly CostItem[];
}
