/** One line of the sizing table: what a cell with so many machines makes, how busy it is, and what a part costs. */
import { type AskedWeek, soldOf } from '../calendar/asked-amounts.js';
import type { Cell } from '../model/cell.js';
import { earnedBy, runningCostPerH } from '../model/contribution.js';
import type { ScheduleFound } from '../schedule/result.js';
import { shiftYield } from '../shifts/shift-yield.js';

export interface SizeRow {
  readonly machines: number;
  readonly machineNames: readonly string[];
  /** Machines that the sequence visits; the others stand. */
  readonly machinesUsed: number;
  /** Steady rate of all parts together. */
  readonly partsPerH: number;
  /** The same by part; parts that are not made are left out. */
  readonly partsPerHByPart: Readonly<Record<string, number>>;
  /** Good parts: from the shift pattern where there is one, else the steady rate times the stated shift. */
  readonly partsPerShift: number;
  readonly robotUtilizationPct: number;
  /** Processing over all machines' time. */
  readonly machineUtilizationPct: number;
  /** Finished and waiting for the robot, over all machines' time. */
  readonly waitRobotPct: number;
  /** Of that, while the robot is busy elsewhere and the next place could take the part. */
  readonly waitBusyPct: number;
  /** Robot, stations and people per good part; null where no costs are given. */
  readonly costPerPart: number | null;
  /**
   * Contribution of what is sold of the good parts, up to the amounts that are asked for, less robot, stations and
   * people; null where a made part has no contribution.
   */
  readonly contributionPerH: number | null;
  /** Parts an hour more than the row before; null in the first, and where the two make different parts. */
  readonly marginalPartsPerH: number | null;
  /** What no sequence can do without more of: `robot`, or names of stations; empty where it is not known. */
  readonly limitedBy: readonly string[];
  /** False where the search for the best order stopped at its limit. */
  readonly proven: boolean;
}

export interface RowContext {
  readonly labourPerH: number;
  /** What is asked for is held against the good parts of this week. */
  readonly week: AskedWeek;
  /** Pattern to run, or null for hours times rate. */
  readonly pattern: string | null;
  readonly shiftH: number;
  /** Name of the money, or empty. */
  readonly currency: string;
}

/**
 * @param machines names of the machines that are there, used or not
 * @param before the row with one machine less
 */
export function sizeRow(
  cell: Cell,
  machines: readonly string[],
  schedule: ScheduleFound,
  before: SizeRow | null,
  context: RowContext,
): SizeRow {
  const good = goodByRoute(cell, schedule);
  const goodPerH = good.reduce((sum, rate) => sum + rate, 0);
  const costPerH = costPerHour(cell, context);
  const earned = earnedPerH(cell, good, context);
  const shares = machineShares(schedule, machines);
  const partsPerH = schedule.partsPerH.total ?? 0;
  const partsPerHByPart = Object.fromEntries(
    cell.routes.flatMap(({ part }) => {
      const rate = schedule.partsPerH[part] ?? 0;
      return rate > 0 ? [[part, rate] as const] : [];
    }),
  );
  return {
    machines: machines.length,
    machineNames: machines,
    machinesUsed: schedule.stations.filter((s) => machines.includes(s.station)).length,
    partsPerH,
    partsPerHByPart,
    partsPerShift:
      context.pattern === null
        ? goodPerH * context.shiftH
        : (shiftYield(cell, schedule, context.pattern, { losses: false, program: 'best' }).partsPerShift
            .total ?? 0),
    robotUtilizationPct: schedule.robot.utilizationPct,
    ...shares,
    costPerPart: costPerH > 0 && goodPerH > 0 ? costPerH / goodPerH : null,
    contributionPerH: earned === null ? null : earned - costPerH,
    marginalPartsPerH:
      before !== null && Object.keys(before.partsPerHByPart).join() === Object.keys(partsPerHByPart).join()
        ? partsPerH - before.partsPerH
        : null,
    limitedBy: schedule.rateBoundPerH.goal?.binding ?? schedule.rateBoundPerH.binding,
    proven: schedule.proven && schedule.searched.complete,
  };
}

/** Robot, stations and people. */
export function costPerHour(cell: Cell, { labourPerH }: Pick<RowContext, 'labourPerH'>): number {
  return labourPerH + runningCostPerH(cell);
}

/** Good parts an hour. */
function goodByRoute({ routes, parts }: Cell, schedule: ScheduleFound): number[] {
  return routes.map(({ part }) => {
    const yieldPct = parts.find((row) => row.part === part)?.yieldPct ?? 100;
    return ((schedule.partsPerH[part] ?? 0) * yieldPct) / 100;
  });
}

/**
 * Contribution an hour of what a week sells.
 *
 * @param goodPerH good parts an hour by route
 * @returns null where a part that is made has no contribution
 */
export function earnedPerH(
  cell: Cell,
  goodPerH: readonly number[],
  { week }: Pick<RowContext, 'week'>,
): number | null {
  const good = goodPerH.map((rate) => rate * week.hours);
  const earned = earnedBy(cell, soldOf(cell, good, week.shifts));
  return earned === null ? null : earned / week.hours;
}

/** Shares over the time of all machines; one that the schedule never visits counts as standing. */
function machineShares(
  schedule: ScheduleFound,
  machines: readonly string[],
): Pick<SizeRow, 'machineUtilizationPct' | 'waitRobotPct' | 'waitBusyPct'> {
  const visited = schedule.stations.filter((s) => machines.includes(s.station));
  const idle = machines.length - visited.length;
  const allS =
    idle * schedule.periodS +
    visited.reduce((sum, s) => sum + s.processingS + s.handlingS + s.waitRobotS + s.emptyS, 0);
  const pct = (of: 'processingS' | 'waitRobotS' | 'waitBusyS'): number =>
    (100 * visited.reduce((sum, s) => sum + s[of], 0)) / allS;
  return {
    machineUtilizationPct: pct('processingS'),
    waitRobotPct: pct('waitRobotS'),
    waitBusyPct: pct('waitBusyS'),
  };
}
