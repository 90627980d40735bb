/** A cell, its robot's program, its hours and its changeovers as plain data: all that a run of the floor rests on. */
import type { Cell } from '../model/cell.js';
import type { ChangeoverRow } from './changeovers.js';
import { compileCell } from './compile-cell.js';
import type { CompiledCell } from './compiled-cell.js';
import type { FloorSetup } from './floor-run.js';
import { type OpenSpan, openCalendar } from './open-calendar.js';
import { type FixedOrder, orderPlan } from './order-plan.js';
import { isCallRule, type Program } from './robot.js';

export interface FloorJob {
  readonly cell: Cell;
  readonly program: Program;
  /** Needed where the program follows a sequence. */
  readonly order: FixedOrder | null;
  /** null = always open, attended, at full speed. */
  readonly openSpans: readonly OpenSpan[] | null;
  /** Operators where there is no calendar. */
  readonly operators: number;
  readonly seed: number;
  readonly changeovers: YearOfChangeovers | null;
  /** Before it closes the cell takes no part that would not be out in time. */
  readonly runsOut: boolean;
}

/** When changeovers fall due, and after how many weeks that repeats. */
export interface YearOfChangeovers {
  readonly weeks: number;
  readonly rows: readonly ChangeoverRow[];
}

/** The job made ready to run, without its changeovers. */
export function floorSetup(job: FloorJob): { readonly compiled: CompiledCell; readonly setup: FloorSetup } {
  const { cell, program, order, openSpans, operators, seed, runsOut } = job;
  const compiled = compileCell(cell);
  if (!isCallRule(program) && order === null)
    throw new RangeError('to follow a sequence, the floor needs a schedule');
  return {
    compiled,
    setup: {
      ...{ program, operators, seed, runsOut },
      plan: isCallRule(program) ? null : orderPlan(order!, cell, compiled),
      calendar: openSpans === null ? null : openCalendar(openSpans, cell.robot.attendedSpeedPct),
    },
  };
}

/** The cell with constant times and no random stops; of every part its good share counts as good. */
export function withoutChance(cell: Cell): Cell {
  return {
    ...cell,
    variation: [],
    stations: cell.stations.map((s) => ({ ...s, mtbfH: null, mttrMin: null })),
  };
}
