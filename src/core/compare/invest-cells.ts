/**
 * Cells as investments: each is run on its own floor under its own best program, in its own pattern and with the same
 * random numbers; what its week makes and costs goes through the finance of the cost case.
 */
import { askedPerWeek } from '../calendar/asked-amounts.js';
import { weekCalendar } from '../calendar/week-calendar.js';
import { type Investments, investmentTerms, weighInvestments } from '../cost/invest/investments.js';
import { readCase } from '../cost/read-case.js';
import type { Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleOutcome } from '../schedule/result.js';
import { simulateCell } from '../simulate/simulate-cell.js';
import { simulatedFloor } from '../simulate/simulated-floor.js';
import type { SimulateContext } from '../simulate/simulation-options.js';
import { type CellInPattern, cellMoney } from './cell-money.js';
import { leftOpenShare } from './left-open.js';

export interface InvestVariant {
  readonly name: string;
  readonly cell: Cell;
  /** A pattern of its shifts.csv. */
  readonly pattern: string;
}

export interface InvestOptions {
  /** Runs of each cell; default 20. */
  readonly replications?: number;
  readonly seed?: number;
}

export type InvestOutcome =
  | {
      readonly status: 'found';
      readonly investments: Investments;
      /** What the robot of each cell is programmed to do, in their order. */
      readonly programs: readonly Program[];
      readonly replications: number;
      readonly seed: number;
      readonly warnings: readonly string[];
    }
  /** No sequence can be repeated in this cell. */
  | { readonly status: 'infeasible'; readonly cell: string; readonly schedule: ScheduleOutcome };

/** @param variants two or more; the first is the cell that is there, and gives the terms of the finance */
export async function investCells(
  variants: readonly InvestVariant[],
  { replications = 20, seed = 1 }: InvestOptions = {},
  context: SimulateContext = {},
): Promise<InvestOutcome> {
  const run: CellInPattern[] = [];
  const programs: Program[] = [];
  const warnings: string[] = [];
  for (const { name, cell, pattern } of variants) {
    const schedule = bestSchedule(cell, { improvements: false });
    if (!('order' in schedule)) return { status: 'infeasible', cell: name, schedule };
    const floor = simulatedFloor(cell, schedule, pattern, { program: 'best' });
    const result = await simulateCell(cell, { losses: false, replications, seed, ...floor }, context);
    run.push({ name, cell, pattern, run: result, openShare: leftOpenShare(schedule) });
    programs.push(floor.program);
    warnings.push(...[...schedule.warnings, ...result.warnings].map((text) => `${name}: ${text}`));
  }
  const [first] = run as [CellInPattern];
  return {
    status: 'found',
    investments: weighInvestments(
      run.map((each) => cellMoney(each, first)),
      investmentTerms(readCase(first.cell, null, null)),
    ),
    programs,
    replications,
    seed,
    warnings: [...new Set([...warnings, ...run.flatMap(nothingStops), ...demandWarnings(run)])],
  };
}

/** Nobody is there, and nothing in the tables ends what the cell then makes: it counts like attended hours. */
function nothingStops({ name, cell, pattern }: CellInPattern): string[] {
  const { unattendedH } = weekCalendar(cell.shifts, pattern);
  const mayStop =
    cell.stops.length > 0 ||
    cell.stations.some(
      (s) => s.mtbfH !== null || (['infeed', 'outfeed'].includes(s.kind) && s.capacityParts !== null),
    );
  if (unattendedH === 0 || mayStop) return [];
  return [
    `${name}: it runs ${unattendedH} h a week unattended, and no table says what could stop it then (capacity of the racks, stops.csv, mtbf_h), so these hours count as fully as attended ones.`,
  ];
}

/** A demand per shift grows with the shifts; what is sold in a week seldom does. */
function demandWarnings([first, ...others]: readonly CellInPattern[]): string[] {
  const asked = ({ cell, pattern }: CellInPattern, part: string) => {
    const row = cell.parts.find((each) => each.part === part);
    return row?.perShift == null ? null : askedPerWeek(row, weekCalendar(cell.shifts, pattern).shifts.length);
  };
  return others.flatMap((other) =>
    other.cell.parts.flatMap(({ part }) => {
      const [now, then] = [asked(first!, part), asked(other, part)];
      return now === null || then === null || now === then
        ? []
        : [
            `${other.name}: ${then} a week of ${part} are asked for, ${now} in ${first!.name}, since per_shift counts in every shift; where the week’s sales stay the same, write per_week.`,
          ];
    }),
  );
}
