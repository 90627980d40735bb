/**
 * The result of scheduling, as plain data: the best repeating order found, what it yields, who waits for whom, and
 * how sure that is. Renderers, shift accounting, sizing and the cost case all read this object.
 */

/** One robot action at a station within the period. */
export interface ScheduleEvent {
  readonly startS: number;
  readonly endS: number;
  readonly action: 'pick' | 'place';
  readonly station: string;
  readonly part: string;
  /** Step number of the route at this station. */
  readonly step: number;
  readonly hand: 1 | 2;
}

/** A stretch in which the robot holds a part at a held station (brush, wheel, deburr). */
export interface ScheduleHold {
  readonly startS: number;
  readonly endS: number;
  readonly station: string;
  readonly part: string;
  readonly step: number;
  readonly hand: 1 | 2;
}

/**
 * One event of the repeating order with all that is needed to run it again from any state: how long the robot takes,
 * which pick brought the part, and which processes must have finished.
 */
export interface OrderEvent {
  readonly action: 'pick' | 'place' | 'hold';
  readonly station: string;
  readonly part: string;
  readonly step: number;
  readonly hand: 1 | 2;
  /** Robot time of the action itself (a hold: all robot time at the held station). */
  readonly robotS: number;
  /** Robot time from the end of this event to the arrival at the next one in the order (travel or index). */
  readonly toNextS: number;
  /** True when a part is in hand on the way to the next event. */
  readonly loadedToNext: boolean;
  /** Place and hold: index in the order of the pick that took the part. Pick: its own index. */
  readonly pickIndex: number;
  /** Periods between that pick and this event: 0 = same period, 1 = the pick was in the period before. */
  readonly pickLag: number;
  /** Pick: the processes that must have finished. The place at `placeIndex`, `lag` periods before, plus processS. */
  readonly waitsFor: readonly ProcessLink[];
}

/** A pick waits for a place: start of pick >= end of the place (lag periods before) + processS. */
export interface ProcessLink {
  readonly placeIndex: number;
  readonly lag: number;
  /** close + cycle + ready, seconds. */
  readonly processS: number;
  /** Longest wait after that; null = unlimited. */
  readonly maxWaitS: number | null;
}

export interface RobotShare {
  /** All in seconds per period; they add up to the period. Index time counts as handling. */
  readonly handlingS: number;
  readonly travelEmptyS: number;
  readonly travelLoadedS: number;
  readonly heldS: number;
  readonly waitS: number;
  readonly utilizationPct: number;
}

export interface StationShare {
  readonly station: string;
  readonly kind: string;
  /** Seconds per period, summed over the parts it can hold at once (capacity x period = the sum of all). */
  readonly processingS: number;
  /** Ready and close times and the robot's own pick and place time here. */
  readonly handlingS: number;
  /** Finished and waiting for the robot. */
  readonly waitRobotS: number;
  /** Of that, while the next place could take the part and the robot was at work: what a second robot would save. */
  readonly waitBusyS: number;
  /** Nothing inside. */
  readonly emptyS: number;
  readonly utilizationPct: number;
}

export interface ChainLink {
  readonly what: string;
  readonly S: number;
}

export interface Bottleneck {
  /** The critical circuit as a sentence. */
  readonly text: string;
  readonly stations: readonly string[];
  /** Periods that the circuit spans: the period is the sum of the chain over this. */
  readonly periods: number;
  readonly chain: readonly ChainLink[];
}

export interface Improvement {
  /** An input, such as `robot travel mill_1 to rack` or `cycle of cap at mill_1`. */
  readonly element: string;
  /** Parts per hour gained for each second less. */
  readonly partsPerHPerSecond: number;
}

/** What a change of the cell or of the order would bring. */
export interface WhatIf {
  readonly change: string;
  readonly partsPerH: number;
  /** Parts against the schedule shown; below 0 for what the best order already saves. */
  readonly gainPerH: number;
  /** The same by what the sequence is chosen for (contribution, machine time or parts), per cent of the schedule shown. */
  readonly goalGainPct: number;
  readonly proven: boolean;
  /** Why a change that was tried brings nothing; null where it brings something. */
  readonly noGain: string | null;
}

export interface RateBound {
  /** Parts of all kinds per hour that no sequence exceeds, whatever the mix. */
  readonly total: number;
  /** The most of each part when nothing else is made. */
  readonly perPart: Readonly<Record<string, number>>;
  /** The robot and the stations whose time is used up at the bound on the total. */
  readonly binding: readonly string[];
  /** The bound on what the sequence is chosen for; null where only a bound of the part set is known. */
  readonly goal: GoalBound | null;
}

/** The most of the goal that any sequence makes. */
export interface GoalBound {
  readonly of: 'parts' | 'parts in the mix' | 'contribution' | 'machine-cycle seconds';
  readonly perH: number;
  readonly binding: readonly string[];
}

/** A robot cycle that is easier to program than the best one, and what it gives away. */
export interface ShorterCycle {
  readonly periodS: number;
  readonly partsPerPeriod: Readonly<Record<string, number>>;
  /** By part and `total`. */
  readonly partsPerH: Readonly<Record<string, number>>;
  /** Visits to machines, benches and buffers in a period. */
  readonly visits: number;
  /** Of what the sequence is chosen for, per cent of the best. */
  readonly givesAwayPct: number;
  readonly events: readonly ScheduleEvent[];
}

export interface ScheduleFound {
  readonly status: 'proven' | 'best found';
  readonly periodS: number;
  readonly partsPerPeriod: Readonly<Record<string, number>>;
  /** By part and `total`. */
  readonly partsPerH: Readonly<Record<string, number>>;
  /** True when no sequence whatever, repeating or not, yields more (of what the sequence is chosen for). */
  readonly proven: boolean;
  /** No sequence whatever yields what one period does in less time; 0 where no bound is known. */
  readonly boundS: number;
  /** By how much the period is longer than that; null where no bound is known. */
  readonly gapPct: number | null;
  /** The same for the orders of this part set alone. */
  readonly partSet: {
    readonly proven: boolean;
    readonly boundS: number;
    readonly gapPct: number;
  };
  /** A cycle with fewer visits within half a per cent of this one; null where there is none. */
  readonly shorter: ShorterCycle | null;
  readonly rateBoundPerH: RateBound;
  /**
   * No layout of the cell, with whatever sequence, brings more than this of what the sequence is chosen for, per cent
   * of this schedule: the upper limit with no travel at all. null where it was not asked for or not had.
   */
  readonly layoutGainPct: number | null;
  readonly robot: RobotShare;
  readonly stations: readonly StationShare[];
  readonly events: readonly ScheduleEvent[];
  readonly holds: readonly ScheduleHold[];
  readonly order: readonly OrderEvent[];
  readonly bottleneck: Bottleneck;
  readonly improvements: readonly Improvement[];
  /** Empty where it was not asked for. */
  readonly whatIf: readonly WhatIf[];
  readonly searched: {
    readonly nodes: number;
    readonly seconds: number;
    /** Every part set was searched to its end or ruled out by its bound; else the limit came first. */
    readonly complete: boolean;
  };
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/** No order can be run for ever: longest waits contradict the handling, or the robot locks up. */
export interface ScheduleInfeasible {
  readonly status: 'infeasible';
  readonly reason: string;
  /** The shortest contradicting chain, where there is one. */
  readonly chain: readonly ChainLink[];
  readonly searched: { readonly nodes: number; readonly seconds: number };
}

/** A time or node limit ended the search before any order was found. */
export interface ScheduleUndecided {
  readonly status: 'undecided';
  readonly reason: string;
  readonly boundS: number;
  readonly searched: { readonly nodes: number; readonly seconds: number };
}

export type ScheduleOutcome = ScheduleFound | ScheduleInfeasible | ScheduleUndecided;
