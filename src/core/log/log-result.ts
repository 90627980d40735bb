/** What a log of signals says, as plain data. Times in seconds; intervals at the confidence given. */
import type { StationKind } from '../model/cell.js';
import type { DamageEntry } from './damage.js';
import type { ClockForm } from './log-clock.js';
import type { MeasureSummary } from './measure.js';
import type { LogBreak } from './time-line.js';

/** A time measured at a station, over all parts and by part; null where the log does not give it. */
export interface StationTimes {
  /** From start to finish, without the stops between. */
  readonly cycle: MeasureSummary | null;
  readonly interval: MeasureSummary | null;
  readonly waitRobot: MeasureSummary | null;
  readonly load: MeasureSummary | null;
  readonly unload: MeasureSummary | null;
  readonly ready: MeasureSummary | null;
  readonly close: MeasureSummary | null;
  /** Random stops, planned ones, and of the random ones the clearing alone and the time until somebody comes. */
  readonly stop: MeasureSummary | null;
  readonly pause: MeasureSummary | null;
  readonly repair: MeasureSummary | null;
  readonly response: MeasureSummary | null;
}

export interface PartTimes {
  readonly part: string;
  readonly cycle: MeasureSummary | null;
  readonly load: MeasureSummary | null;
  readonly unload: MeasureSummary | null;
}

/** Processing time between random stops. */
export interface StopRate {
  readonly stops: number;
  readonly processingH: number;
  /** Hours of processing between two stops; null without a stop. */
  readonly mtbfH: number | null;
  readonly ciLow: number;
  /** null = no limit can be given. */
  readonly ciHigh: number | null;
}

/** Seconds of the covered time, summed over the parts that the station can hold at once. */
export interface StationShares {
  readonly processingS: number;
  readonly stoppedS: number;
  readonly pausedS: number;
  readonly waitRobotS: number;
  readonly handlingS: number;
  /** Nothing inside, or not told by the log. */
  readonly restS: number;
}

export interface StationLog {
  readonly station: string;
  readonly kind: StationKind | null;
  readonly records: number;
  readonly finishes: number;
  readonly finishesPerH: number;
  readonly placed: number;
  readonly times: StationTimes;
  readonly byPart: readonly PartTimes[];
  /** null where the log has no cycles of this station. */
  readonly stopRate: StopRate | null;
  /** null where the station holds parts without limit. */
  readonly shares: StationShares | null;
}

export interface WayLog {
  readonly from: string;
  readonly to: string;
  readonly loaded: boolean;
  /** In attended shifts, where the cell slows the robot down there; null where that makes no difference. */
  readonly attended: boolean | null;
  readonly times: MeasureSummary;
}

export interface RobotLog {
  /** Placing, picking, and turning the hands between. */
  readonly handlingS: number;
  /** From a pick to the place that follows it at the same station. */
  readonly index: MeasureSummary | null;
  readonly heldS: number;
  /** null where the log does not say when the robot leaves and arrives. */
  readonly travelEmptyS: number | null;
  readonly travelLoadedS: number | null;
  /** The rest of the covered time: waiting, and travel too where that is not logged. */
  readonly waitS: number;
  readonly busyPct: number;
  readonly ways: readonly WayLog[];
}

export interface ShiftLog {
  readonly shift: string;
  readonly date: string;
  readonly hours: number;
  /** Share of its time that the log covers. */
  readonly coveredPct: number;
  /** The log begins before it and ends after it. */
  readonly isWhole: boolean;
  readonly parts: number;
}

export interface ShiftMean {
  readonly shift: string;
  /** Whole shifts. */
  readonly n: number;
  readonly hours: number;
  readonly mean: number;
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
}

export interface LogGap {
  readonly kind: LogBreak['kind'];
  readonly line: number;
  readonly from: string;
  readonly to: string;
  readonly seconds: number;
}

export interface LogResult {
  /** Records read, and those of them used. */
  readonly records: number;
  readonly used: number;
  readonly clock: ClockForm;
  readonly resolutionS: number;
  readonly first: string;
  readonly last: string;
  /** From the first to the last time without gaps. */
  readonly coveredH: number;
  readonly confidencePct: number;
  readonly damage: readonly DamageEntry[];
  readonly gaps: readonly LogGap[];
  /** What counts as a part made. */
  readonly partsCountedBy: 'placed' | 'finish' | 'nothing';
  readonly parts: Readonly<Record<string, number>>;
  readonly partsPerH: Readonly<Record<string, number>>;
  /** Interval of the parts an hour of all parts together, from the times between them; null with fewer than three. */
  readonly partsPerHInterval: { readonly ciLow: number; readonly ciHigh: number } | null;
  readonly stations: readonly StationLog[];
  readonly robot: RobotLog | null;
  /** Empty without shifts. */
  readonly shifts: readonly ShiftLog[];
  readonly shiftMeans: readonly ShiftMean[];
  readonly partsOutsideShifts: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}
