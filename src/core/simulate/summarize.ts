/** Turns the tallies of replications into estimates for robot, stations and parts. */
import type { Cell } from '../model/cell.js';
import { type CompiledCell, HELD, WORK } from './compiled-cell.js';
import { estimate, shiftParts } from './estimate.js';
import type { ReplicationResult } from './run-replication.js';
import type { Estimate, Overstay, RobotEstimate, ShiftParts, StationEstimate } from './simulation-result.js';
import * as state from './slot-state.js';

/** Good parts per shift by part name, and `total`. */
export function partsPerShift(
  cell: CompiledCell,
  results: readonly ReplicationResult[],
  confidence: number,
): Record<string, ShiftParts> {
  const routes = cell.routeCount;
  const pick = (take: (byRoute: readonly number[]) => number): number[][] =>
    results.map((r) =>
      Array.from({ length: r.goodByShift.length / routes }, (_, shift) =>
        take(r.goodByShift.slice(shift * routes, (shift + 1) * routes)),
      ),
    );
  const parts: Record<string, ShiftParts> = {};
  for (const [route, name] of cell.routeNames.entries())
    parts[name] = shiftParts(
      pick((counts) => counts[route]!),
      confidence,
    );
  parts.total = shiftParts(pick(sum), confidence);
  return parts;
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
