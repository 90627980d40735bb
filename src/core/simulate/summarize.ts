/** Turns the tallies of replications into estimates for robot, stations and parts. */

import { type CompiledCell, HELD, WORK } from '../floor/compiled-cell.js';
import type { ReplicationResult } from '../floor/floor-run.js';
import * as state from '../floor/slot-state.js';
import { COMES_LATER, NEXT_FULL, NO_PART, ROBOT_BUSY, WAIT_CAUSES } from '../floor/waits.js';
import type { Cell } from '../model/cell.js';
import { estimate, shiftParts } from './estimate.js';
import type { ReplicationJob } from './replication-job.js';
import type {
  Estimate,
  Overstay,
  RobotEstimate,
  ShiftParts,
  SimulationResult,
  StationEstimate,
} from './simulation-result.js';

/**
 * Good parts per shift by part name, and `total`.
 *
 * @param counts which of the counted shifts; default all
 */
export function partsPerShift(
  cell: CompiledCell,
  results: readonly ReplicationResult[],
  confidence: number,
  counts: (shift: number) => boolean = () => true,
): Record<string, ShiftParts> {
  const routes = cell.routeCount;
  const pick = (take: (byRoute: readonly number[]) => number): number[][] =>
    results.map((r) =>
      Array.from({ length: r.goodByShift.length / routes }, (_, shift) => shift)
        .filter(counts)
        .map((shift) => take(r.goodByShift.slice(shift * routes, (shift + 1) * routes))),
    );
  const parts: Record<string, ShiftParts> = {};
  for (const [route, name] of cell.routeNames.entries())
    parts[name] = shiftParts(
      pick((byRoute) => byRoute[route]!),
      confidence,
    );
  parts.total = shiftParts(pick(sum), confidence);
  return parts;
}

/** In the order in which the shifts follow in the week. */
export function partsByShift(
  cell: CompiledCell,
  results: readonly ReplicationResult[],
  { openSpans, shiftNames }: ReplicationJob,
  confidence: number,
): SimulationResult['byShift'] {
  return [...new Set(openSpans?.flatMap((span) => span.shiftName ?? []))].map((shift) => ({
    shift,
    partsPerShift: partsPerShift(cell, results, confidence, (i) => shiftNames[i] === shift),
  }));
}

export function robotEstimate(results: readonly ReplicationResult[], confidence: number): RobotEstimate {
  const share = (...states: number[]): Estimate =>
    estimate(
      results.map((r) => (100 * sum(states.map((s) => r.robotS[s]!))) / r.countedS),
      confidence,
    );
  return {
    utilizationPct: share(state.HANDLING, state.TRAVEL_EMPTY, state.TRAVEL_LOADED, state.HOLDING),
    handlingPct: share(state.HANDLING),
    travelEmptyPct: share(state.TRAVEL_EMPTY),
    travelLoadedPct: share(state.TRAVEL_LOADED),
    heldPct: share(state.HOLDING),
    waitPct: share(state.WAITING),
  };
}

/** Machines, benches and buffers. */
export function stationEstimates(
  cell: Cell,
  compiled: CompiledCell,
  results: readonly ReplicationResult[],
  confidence: number,
): StationEstimate[] {
  return cell.stations.flatMap((station, s) => {
    if (compiled.stationKind[s] !== WORK) return [];
    const slots = compiled.firstSlot[s + 1]! - compiled.firstSlot[s]!;
    const share = (which: number): Estimate =>
      estimate(
        results.map((r) => (100 * r.stationS[s * state.SLOT_STATES + which]!) / (r.countedS * slots)),
        confidence,
      );
    const waited = (cause: number): Estimate =>
      estimate(
        results.map((r) => (100 * r.waitS[s * WAIT_CAUSES + cause]!) / (r.countedS * slots)),
        confidence,
      );
    const processingPct = share(state.PROCESSING);
    return {
      station: station.name,
      kind: station.kind,
      processingPct,
      handlingPct: share(state.HANDLED),
      partLoadedPct: share(state.PART_LOADED),
      waitRobotPct: share(state.FINISHED),
      emptyPct: share(state.EMPTY),
      downWaitPct: share(state.DOWN_WAITING),
      downRepairPct: share(state.DOWN_REPAIR),
      plannedStopWaitPct: share(state.STOP_WAITING),
      plannedStopPct: share(state.STOP_WORK),
      changeoverPct: share(state.CHANGEOVER),
      waits: results.every((r) => r.waitS.length > 0)
        ? {
            robotBusyPct: waited(ROBOT_BUSY),
            nextFullPct: waited(NEXT_FULL),
            comesLaterPct: waited(COMES_LATER),
            noPartPct: waited(NO_PART),
          }
        : null,
      utilizationPct: processingPct,
      randomStopsPerShift: estimate(
        results.map((r) => r.randomStops[s]! / shiftsOf(r, compiled)),
        confidence,
      ),
    };
  });
}

/** Steps with a longest wait, and how many parts waited longer. */
export function overstays(
  compiled: CompiledCell,
  results: readonly ReplicationResult[],
  confidence: number,
): Overstay[] {
  return [...compiled.opMaxWaitS.keys()]
    .filter((op) => compiled.opMaxWaitS[op]! < Infinity && compiled.opKind[op] !== HELD)
    .map((op) => ({
      part: compiled.routeNames[compiled.opRoute[op]!]!,
      step: compiled.opStep[op]!,
      partsPerShift: estimate(
        results.map((r) => r.overstays[op]! / shiftsOf(r, compiled)),
        confidence,
      ),
    }));
}

/** Mean good parts per shift of each replication. */
export function meanGood(results: readonly ReplicationResult[], compiled: CompiledCell): number[] {
  return results.map((r) => sum(r.good) / shiftsOf(r, compiled));
}

export function shiftsOf(result: ReplicationResult, compiled: CompiledCell): number {
  return result.goodByShift.length / compiled.routeCount;
}

export function sum(values: readonly number[]): number {
  return values.reduce((total, v) => total + v, 0);
}
