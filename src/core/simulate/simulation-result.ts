/** The result of a simulation as plain data, for renderers and other commands. */
import type { Program } from '../floor/robot.js';

/** A mean over replications with its confidence interval; null bounds where there is only one replication. */
export interface Estimate {
  readonly mean: number;
  readonly ciLow: number | null;
  readonly ciHigh: number | null;
}

/** Good parts in a shift: the mean, and how single shifts spread about it. */
export interface ShiftParts extends Estimate {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly p10Ci: readonly [number, number] | null;
  readonly p50Ci: readonly [number, number] | null;
  readonly p90Ci: readonly [number, number] | null;
}

/** Shares of the robot's time, per cent. */
export interface RobotEstimate {
  readonly utilizationPct: Estimate;
  readonly handlingPct: Estimate;
  readonly travelEmptyPct: Estimate;
  readonly travelLoadedPct: Estimate;
  readonly heldPct: Estimate;
  readonly waitPct: Estimate;
}

/** Shares of a station's time in which it waits, by cause, per cent of capacity times elapsed time. */
export interface StationWaits {
  /** The robot is busy elsewhere. */
  readonly robotBusyPct: Estimate;
  /** The next station is full or down. */
  readonly nextFullPct: Estimate;
  /** The robot waits for something else that its program has first. */
  readonly comesLaterPct: Estimate;
  /** No part: the infeed is out of parts, or the station before has none ready. */
  readonly noPartPct: Estimate;
}

/** Shares of a station's time, per cent of capacity times elapsed time; they add up to 100. */
export interface StationEstimate {
  readonly station: string;
  readonly kind: string;
  readonly processingPct: Estimate;
  /** Robot at the door, door opening and closing. */
  readonly handlingPct: Estimate;
  /** Loaded, waiting until the fixture is full. */
  readonly partLoadedPct: Estimate;
  /** Blocked: finished, waiting for unload. */
  readonly waitRobotPct: Estimate;
  readonly emptyPct: Estimate;
  /** Stopped by itself, waiting for an operator. */
  readonly downWaitPct: Estimate;
  readonly downRepairPct: Estimate;
  readonly plannedStopWaitPct: Estimate;
  readonly plannedStopPct: Estimate;
  readonly changeoverPct: Estimate;
  /** Why it waits, blocked or empty; null where that was not asked. */
  readonly waits: StationWaits | null;
  readonly utilizationPct: Estimate;
  readonly randomStopsPerShift: Estimate;
}

export interface Overstay {
  readonly part: string;
  readonly step: number;
  readonly partsPerShift: Estimate;
}

/** What a cause takes from a shift, found by running the cell without it and with it under the same luck. */
export interface SimulatedLoss extends Estimate {
  readonly cause: string;
  readonly partsPerShift: number;
}

export interface SimulationResult {
  readonly replications: number;
  readonly warmupH: number;
  /** Hours counted in each replication. */
  readonly horizonH: number;
  readonly shifts: number;
  readonly seed: number;
  readonly confidencePct: number;
  readonly dispatch: Program;
  /** False where a stop signal ended the work early. */
  readonly complete: boolean;
  /** Half-width reached, per cent of the mean; null with one replication or no parts. */
  readonly halfWidthPct: number | null;
  /** Whether the asked half-width was reached; null where none was asked. */
  readonly halfWidthReached: boolean | null;
  readonly partsPerShift: Readonly<Record<string, ShiftParts>>;
  /** The same of the shifts of each name, in the order in which they follow; empty without shifts. */
  readonly byShift: readonly {
    readonly shift: string;
    readonly partsPerShift: Readonly<Record<string, ShiftParts>>;
  }[];
  readonly scrapPerShift: Estimate;
  readonly robot: RobotEstimate;
  readonly stations: readonly StationEstimate[];
  /** Share of the operators' time in calls (response included), per cent; null where nobody is ever called. */
  readonly operatorBusyPct: Estimate | null;
  readonly overstays: readonly Overstay[];
  /** Parts per shift with none of the causes below. */
  readonly ceilingPerShift: number | null;
  /** True where these have no wait for the robot either: no program makes more then. */
  readonly ceilingIsMaximum: boolean;
  readonly losses: readonly SimulatedLoss[];
  /** Mean round of the fixed order, seconds; null for the other rules. */
  readonly periodS: Estimate | null;
  /** Who waits for whom, where a replication locked up; null = none did. */
  readonly deadlock: string | null;
  /** Mean good parts per shift of each replication, to pair with another run under the same seed. */
  readonly meanByReplication: readonly number[];
  readonly events: number;
  readonly eventsPerSecond: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}
