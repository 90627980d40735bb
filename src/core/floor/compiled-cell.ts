/**
 * The cell as flat tables of numbers, which the simulation's kernel reads: stations, slots (one for every part that a
 * station can hold), operations (one for every step of every route), travel times, samplers. Made by compileCell.
 */
import type { TimeDistribution } from '../distributions/distribution.js';

export const INFEED = 0;
export const OUTFEED = 1;
export const HELD = 2;
/** Machine, bench or buffer: takes a part, works on it, and calls the robot. */
export const WORK = 3;

/** Planned stop of a station. */
export interface CompiledStop {
  readonly station: number;
  readonly name: string;
  /** Infinity where the other rule holds. */
  readonly everyParts: number;
  readonly everyS: number;
  readonly seconds: number;
  readonly needsOperator: boolean;
  /** By at most so many parts it is done early, before people leave. */
  readonly earlyParts: number;
  /** Mean time until somebody comes. */
  readonly responseS: number;
}

/** A random time: a distribution and the stream it draws from. */
export interface Sampler {
  readonly stream: string;
  readonly distribution: TimeDistribution;
}

export interface CompiledCell {
  readonly stationNames: readonly string[];
  readonly stationCount: number;
  readonly stationKind: Int8Array;
  readonly closeS: Float64Array;
  readonly readyS: Float64Array;
  /** Infinity where the station has no random stops. */
  readonly mtbfS: Float64Array;
  /** Parts that an infeed or outfeed holds; Infinity = no limit. */
  readonly rackParts: Float64Array;
  /** Slots of station s: firstSlot[s] to firstSlot[s + 1] - 1. */
  readonly firstSlot: Int32Array;
  readonly slotStation: Int32Array;
  readonly slotCount: number;
  readonly stops: readonly CompiledStop[];

  readonly routeNames: readonly string[];
  readonly routeCount: number;
  readonly routeFirstOp: Int32Array;
  /** Parts of the route in one set of the mix; 0 where no mix is asked for. */
  readonly routeMix: Float64Array;
  /** Parts of the route that may be started ahead of its mix: one set, or the largest fixture's load. */
  readonly routeLead: Float64Array;
  readonly goodShare: Float64Array;
  /** By route: taken in only while people are there. */
  readonly attendedOnly: Uint8Array;

  readonly opCount: number;
  readonly opRoute: Int32Array;
  readonly opStep: Float64Array;
  readonly opKind: Int8Array;
  /** Stations of operation o: opStations[firstChoice[o] .. firstChoice[o + 1] - 1]. */
  readonly firstChoice: Int32Array;
  readonly opStations: Int32Array;
  /** Operation of each choice. */
  readonly choiceOp: Int32Array;
  readonly opCycleS: Float64Array;
  readonly opLoadS: Float64Array;
  readonly opUnloadS: Float64Array;
  readonly opMaxWaitS: Float64Array;
  readonly opBatch: Int32Array;
  readonly opEvery: Int32Array;
  /** Next operation of the route when nothing stands between (no held step, no `every`); -1 otherwise. */
  readonly opPlainNext: Int32Array;
  /** Routes whose raw parts can come straight to station s: rawRoutes[firstRaw[s] .. firstRaw[s + 1] - 1]. */
  readonly firstRaw: Int32Array;
  readonly rawRoutes: Int32Array;
  /**
   * Where all raw parts of station s come from one infeed by one way that never changes, and no mix is asked for: the
   * choice (see firstChoice) at that infeed; else -1.
   */
  readonly soleFeed: Int32Array;
  /** Routes whose first stop after the infeed is an outfeed. */
  readonly directRoutes: Int32Array;
  /** Parts can block each other in a ring. */
  readonly hasRing: boolean;

  /** Robot times between stations: [from * stationCount + to], at full speed. */
  readonly travelEmptyS: Float64Array;
  readonly travelLoadedS: Float64Array;
  readonly hands: 1 | 2;
  readonly indexS: number;

  readonly samplers: readonly Sampler[];
  /** Sampler of cycle, load, unload by [station]; -1 = as written. */
  readonly cycleSampler: Int32Array;
  readonly loadSampler: Int32Array;
  readonly unloadSampler: Int32Array;
  readonly travelSampler: Int32Array;
  readonly repairSampler: Int32Array;
  readonly responseSampler: Int32Array;
  /** What a drawn repair is multiplied by, by station. */
  readonly repairScale: Float64Array;
  /** What a draw is multiplied by, by [station * opCount + op]; 1 where the draw is the time itself. */
  readonly cycleScale: Float64Array;
  readonly loadScale: Float64Array;
  readonly unloadScale: Float64Array;
  /** Streams after those of the samplers: one for random stops of each station, one for the yield of each route. */
  readonly streamNames: readonly string[];
}
