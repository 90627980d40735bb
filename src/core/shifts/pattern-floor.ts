/**
 * The floor of a cell in a shift pattern: program, hours, changeovers, and what is done before the cell closes. Whoever
 * runs a pattern, with chance or without, takes it from here.
 */
import { weekCalendar } from '../calendar/week-calendar.js';
import { harnessWays, type WayMinutes } from '../cost/way-minutes.js';
import { compileCell } from '../floor/compile-cell.js';
import type { YearOfChangeovers } from '../floor/floor-job.js';
import { type OpenSpan, openCalendar } from '../floor/open-calendar.js';
import { openSpans } from '../floor/open-spans.js';
import { type OrderPlan, orderPlan } from '../floor/order-plan.js';
import { isCallRule, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ScheduleFound } from '../schedule/result.js';
import { chosenProgram, type ProgramChoice } from './best-program.js';
import { type ChangeoverWork, changeoverWork } from './changeover-work.js';
import { yearOfChangeovers } from './changeover-year.js';

export interface PatternFloorOptions {
  /** What the robot is programmed to do. */
  readonly program: ProgramChoice;
  /** Minutes of one changeover onto a station without those of the way, by station; default: minutes_other. */
  readonly changeoverMinutesByStation?: Readonly<Record<string, number>>;
  /**
   * How the robot's signals come to each machine at a changeover, and the minutes of that; default: the harness is moved,
   * where costs.csv says what that takes.
   */
  readonly ways?: Readonly<Record<string, WayMinutes>>;
  /**
   * What the robot does before the cell closes. `parts stay` (default): it goes on to the end and parts wait inside;
   * `run out` (default where a longest wait is set): it takes no new part that would not be out in time.
   */
  readonly atEnd?: 'parts stay' | 'run out';
}

export interface PatternFloor {
  readonly program: Program;
  readonly order: ScheduleFound | null;
  /** null = day and night. */
  readonly openSpans: readonly OpenSpan[] | null;
  readonly runsOut: boolean;
  /** Why the cell is not run empty though that was wanted. */
  readonly refused: readonly string[];
  readonly work: readonly ChangeoverWork[];
  readonly changeovers: YearOfChangeovers | null;
}

const NO_RUN_OUT =
  'The cell cannot be run empty in this sequence, since batches tie the parts of all robot cycles together; parts stay inside.';
const NO_RUN_OUT_OF_RULE = 'A robot that answers calls does not run the cell empty; parts stay inside.';

/**
 * @param schedule needed for the programs that follow a sequence
 * @param pattern of shifts.csv; null = day and night, where nothing closes and no changeovers are made
 */
export function patternFloor(
  cell: Cell,
  schedule: ScheduleFound | null,
  pattern: string | null,
  options: PatternFloorOptions,
): PatternFloor {
  const program = chosenProgram(cell, schedule, pattern, options.program);
  if (pattern === null)
    return {
      ...{
        program,
        order: schedule,
        openSpans: null,
        runsOut: false,
        refused: [],
        work: [],
        changeovers: null,
      },
    };
  const spans = openSpans(weekCalendar(cell.shifts, pattern), cell.shifts);
  const work = changeoversOf(cell, schedule, options);
  const plan = isCallRule(program) || schedule === null ? null : orderPlan(schedule, cell, compileCell(cell));
  return {
    ...{ program, order: schedule, openSpans: spans, work },
    ...atEnd(plan, options.atEnd),
    changeovers: yearOfChangeovers(work, openCalendar(spans)),
  };
}

function atEnd(
  plan: OrderPlan | null,
  asked: PatternFloorOptions['atEnd'],
): Pick<PatternFloor, 'runsOut' | 'refused'> {
  const wanted = asked ?? (plan?.hasLongestWaits === true ? 'run out' : 'parts stay');
  if (wanted === 'parts stay') return { runsOut: false, refused: [] };
  if (plan === null) return { runsOut: false, refused: [NO_RUN_OUT_OF_RULE] };
  return plan.canRunOut ? { runsOut: true, refused: [] } : { runsOut: false, refused: [NO_RUN_OUT] };
}

/** The changeovers of the machines that parts visit. */
function changeoversOf(
  cell: Cell,
  schedule: ScheduleFound | null,
  options: PatternFloorOptions,
): ChangeoverWork[] {
  const visited =
    schedule === null
      ? cell.routes.flatMap((r) => r.steps.flatMap((s) => s.stations))
      : schedule.order.map((e) => e.station);
  const minutes = options.changeoverMinutesByStation ?? {};
  const changeovers = cell.changeovers.map((row) => ({
    ...row,
    minutesOther: minutes[row.station] ?? row.minutesOther,
  }));
  return changeoverWork(
    { changeovers, routes: cell.routes },
    new Set(visited),
    options.ways ?? harnessWays(cell),
  );
}
