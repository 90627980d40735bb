/** A row of the sizing table with its stops and scatter: the same cell, simulated. */
import type { Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { simulateCell } from '../simulate/simulate-cell.js';
import { simulatedFloor } from '../simulate/simulated-floor.js';
import type { SimulateContext, SimulateOptions } from '../simulate/simulation-options.js';
import type { Estimate, SimulationResult } from '../simulate/simulation-result.js';
import type { Stage } from './copies.js';
import { costPerHour, earnedPerH, type RowContext } from './size-row.js';

export interface SimulatedRow {
  /** Good parts a shift. */
  readonly partsPerShift: Estimate;
  /** Finished and waiting for the robot, over the time of all machines. */
  readonly waitRobotPct: number;
  /** Stopped by itself or as planned, over the time of all machines. */
  readonly stoppedPct: number;
  /** Processing, over the time of all machines. */
  readonly machineUtilizationPct: number;
  readonly robotUtilizationPct: number;
  /** null where no costs are given; its interval is that of the parts. */
  readonly costPerPart: Estimate | null;
  /** null where a part that is made has no contribution. */
  readonly contributionPerH: number | null;
  readonly replications: number;
}

export interface SimulatedStage {
  /** null where the robot locks the cell up or follows a rule that it cannot. */
  readonly row: SimulatedRow | null;
  /** Good parts a shift in each replication. */
  readonly partsByReplication: readonly number[];
  readonly shiftH: number;
  readonly warnings: readonly string[];
}

/**
 * @param program what the robot is programmed to do
 * @param options hours, replications, seed and week
 */
export async function simulateStage(
  { cell, machines }: Stage,
  schedule: ScheduleFound,
  program: Program,
  options: Omit<SimulateOptions, 'program'>,
  context: SimulateContext,
  row: RowContext,
): Promise<SimulatedStage> {
  const asked: SimulateOptions = {
    ...options,
    ...simulatedFloor(cell, schedule, row.pattern, { program }),
    losses: false,
  };
  const result = await simulateCell(cell, asked, context);
  const shiftH = result.horizonH / result.shifts;
  return {
    row: result.deadlock === null ? rowOf(cell, machines, result, shiftH, row) : null,
    partsByReplication: result.meanByReplication,
    shiftH,
    warnings: result.warnings,
  };
}

function rowOf(
  cell: Cell,
  machines: readonly string[],
  result: SimulationResult,
  shiftH: number,
  row: RowContext,
): SimulatedRow {
  const { mean, ciLow, ciHigh } = result.partsPerShift.total!;
  const costPerH = costPerHour(cell, row);
  const earned = earnedPerH(
    cell,
    cell.routes.map(({ part }) => (result.partsPerShift[part]?.mean ?? 0) / shiftH),
    row,
  );
  return {
    partsPerShift: { mean, ciLow, ciHigh },
    ...machineShares(cell, machines, result),
    robotUtilizationPct: result.robot.utilizationPct.mean,
    costPerPart: costEstimate(costPerH * shiftH, result.partsPerShift.total!),
    contributionPerH: earned === null ? null : earned - costPerH,
    replications: result.replications,
  };
}

/** Fewer parts make each dearer, so the bounds change places. */
function costEstimate(costPerShift: number, { mean, ciLow, ciHigh }: Estimate): Estimate | null {
  if (costPerShift <= 0 || mean <= 0) return null;
  const each = (parts: number | null): number | null =>
    parts === null || parts <= 0 ? null : costPerShift / parts;
  return { mean: costPerShift / mean, ciLow: each(ciHigh), ciHigh: each(ciLow) };
}

function machineShares(
  cell: Cell,
  machines: readonly string[],
  { stations }: SimulationResult,
): Pick<SimulatedRow, 'waitRobotPct' | 'stoppedPct' | 'machineUtilizationPct'> {
  const roomOf = (name: string): number => cell.stations.find((s) => s.name === name)?.capacityParts ?? 1;
  const own = stations.filter((s) => machines.includes(s.station));
  const all = own.reduce((sum, s) => sum + roomOf(s.station), 0);
  const mean = (of: (s: (typeof own)[number]) => number): number =>
    own.reduce((sum, s) => sum + roomOf(s.station) * of(s), 0) / all;
  return {
    waitRobotPct: mean((s) => s.waitRobotPct.mean),
    stoppedPct: mean(
      (s) => s.downWaitPct.mean + s.downRepairPct.mean + s.plannedStopWaitPct.mean + s.plannedStopPct.mean,
    ),
    machineUtilizationPct: mean((s) => s.processingPct.mean),
  };
}
