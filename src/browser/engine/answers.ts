/**
 * Works out the questions with the functions and defaults of the commands, so that a result of the page is that of the
 * command line, and draws them with the report's renderers. The robot's sequence itself: schedule-answer.ts.
 */

import { nothingToCount } from '../../core/io/points.js';
import { nothingToPlan } from '../../core/jobs/case-ways.js';
import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import type { ScheduleFound, ScheduleOutcome } from '../../core/schedule/result.js';
import type { SimulateContext } from '../../core/simulate/simulation-options.js';
import { cellsStudies } from '../../core/studies/cells-studies.js';
import { runStudy, type StudyName, type StudyTypes, studies } from '../../core/studies/studies.js';
import type { StudyContext } from '../../core/studies/study-inputs.js';
import { listOf, said } from '../../render/document/blocks.js';
import { chanceBlocks } from '../../render/report-page/chance-blocks.js';
import { jobBlocks } from '../../render/report-page/job-blocks.js';
import { layoutBlocks } from '../../render/report-page/layout-blocks.js';
import { machineBlocks } from '../../render/report-page/machine-blocks.js';
import { mixBlocks } from '../../render/report-page/mix-blocks.js';
import { moneyBlocks } from '../../render/report-page/money-blocks.js';
import { pointsBlocks } from '../../render/report-page/points-blocks.js';
import { moneyView, reportNumbers } from '../../render/report-page/report-view.js';
import { weekBlocks } from '../../render/report-page/week-blocks.js';
import { carriedSolver } from './carried-solver.js';
import type { NamedCell, Question, Result } from './messages.js';
import { noAnswer } from './schedule-answer.js';
import type { Worked } from './worked.js';

/** What a question is asked with. */
export interface AskedWith {
  readonly cell: Cell;
  /** Names of the tables that are there. */
  readonly files: readonly string[];
  /** Searches for the best sequence, where a question goes on from it. */
  readonly outcome: () => ScheduleOutcome;
  readonly onProgress: (done: number, of: number) => void;
}

/** Every question but the schedule itself. */
type Work = (asked: AskedWith) => Worked | Promise<Worked>;

export const answers: Readonly<Record<Exclude<Question, 'schedule' | 'compare' | 'sweep'>, Work>> = {
  size: sizeAnswer,
  shifts: onSchedule(shiftsAnswer),
  simulate: ({ cell, outcome, onProgress }) => simulateAnswer(cell, outcome(), { onProgress }),
  mix: mixAnswer,
  jobs: jobsAnswer,
  costcase: onSchedule(costAnswer),
  io: pointsAnswer,
};

function onSchedule(work: (asked: AskedWith, schedule: ScheduleFound) => Worked | Promise<Worked>): Work {
  return (asked) => {
    const found = asked.outcome();
    return 'order' in found ? work(asked, found) : noAnswer(found);
  };
}

type Said = Pick<Result, 'assumptions' | 'warnings'>;

/** @param said what goes with the figures, of the study and of what it goes on from */
function answered<Name extends StudyName>(
  name: Name,
  result: StudyTypes[Name][1],
  { assumptions, warnings }: Said,
  blocks: Worked['blocks'],
): Worked {
  return { result: { fields: studies[name].fields(result), assumptions, warnings }, blocks };
}

/** No figures of a study. */
function without(
  fields: Result['fields'],
  blocks: Worked['blocks'],
  warnings: Said['warnings'] = [],
): Worked {
  return { result: { fields, assumptions: [], warnings }, blocks };
}

/** On this thread. */
export const CONTEXT: StudyContext = { mixedSolver: carriedSolver };

function common(cell: Cell) {
  return { facts: { currency: currencyOf(cell) }, numbers: numbersOf(cell), money: null };
}

function numbersOf(cell: Cell) {
  return reportNumbers(currencyOf(cell));
}

async function sizeAnswer({ cell, onProgress }: AskedWith): Promise<Worked> {
  const size = await runStudy('size', { cell, schedule: null }, {}, { ...CONTEXT, onProgress });
  return answered('size', size, size, machineBlocks({ results: { size }, ...common(cell) }));
}

async function shiftsAnswer({ cell, onProgress }: AskedWith, schedule: ScheduleFound): Promise<Worked> {
  const shifts = await runStudy('shifts', { cell, schedule }, {}, { ...CONTEXT, onProgress });
  const { warnings, performance } = shifts;
  const shared = new Set(shifts.patterns.flatMap((pattern) => pattern.assumptions));
  const results = { shifts: shifts.patterns.length === 0 ? null : shifts, performance, patterns: null };
  const said = {
    assumptions: [...schedule.assumptions, ...shared],
    warnings: [...schedule.warnings, ...warnings],
  };
  return answered('shifts', shifts, said, weekBlocks({ results, ...common(cell) }));
}

const NO_SEQUENCE =
  'No repeating sequence was found, so only programs that answer calls are simulated; `schedule` says why.';

/** @param runs fewer than the default, for an answer on the way */
export async function simulateAnswer(
  cell: Cell,
  outcome: ScheduleOutcome,
  context: SimulateContext,
  runs?: number,
): Promise<Worked> {
  const schedule = 'order' in outcome ? outcome : null;
  const few = runs === undefined ? {} : { replications: runs, against: [] };
  const simulation = await runStudy('simulate', { cell, schedule }, few, { ...CONTEXT, ...context });
  const { assumptions, warnings } = simulation.result;
  const results = { simulation, simulatedPattern: simulation.pattern, cell };
  const said = { assumptions: [...assumptions, ...(schedule === null ? [NO_SEQUENCE] : [])], warnings };
  return answered('simulate', simulation, said, chanceBlocks({ results, ...common(cell) }));
}

async function mixAnswer({ cell, onProgress }: AskedWith): Promise<Worked> {
  const mix = await runStudy('mix', { cell, schedule: null }, {}, { ...CONTEXT, onProgress });
  return answered('mix', mix, mix, mixBlocks({ results: { mix }, ...common(cell) }));
}

async function jobsAnswer({ cell, files, outcome, onProgress }: AskedWith): Promise<Worked> {
  const nothing = nothingToPlan(cell, files);
  if (nothing !== null) return noneOf({ ...nothing }, `There is nothing to plan: ${nothing.recommendation}`);
  // The cost case, which decides how the machines are connected, goes on from the sequence.
  const found = cell.costs.length === 0 ? null : outcome();
  const schedule = found !== null && 'order' in found ? found : null;
  const jobs = await runStudy('jobs', { cell, schedule }, {}, { ...CONTEXT, onProgress });
  return answered('jobs', jobs, jobs, jobBlocks({ results: { jobs, cell }, ...common(cell) }));
}

async function costAnswer({ cell, onProgress }: AskedWith, schedule: ScheduleFound): Promise<Worked> {
  const found = await runStudy('costcase', { cell, schedule }, {}, { ...CONTEXT, onProgress });
  if (found.status === 'wrong') {
    const { status, complaints, missing, recommendation } = found;
    const items = complaints.map(({ file, text, help }) => `${file}: ${text}. ${help ?? ''}`.trim());
    return { ...without({ status, complaints, missing, recommendation }, [listOf(items)]), isNone: true };
  }
  const results = { costCase: cell.costs.length === 0 && cell.changeovers.length === 0 ? null : found };
  const blocks = moneyBlocks({ results, ...common(cell), money: moneyView(results, numbersOf(cell)) });
  if (found.status === 'too little data') return without({ ...found }, blocks, schedule.warnings);
  const warnings = [...schedule.warnings, ...found.warnings];
  return answered('costcase', found, { assumptions: found.assumptions, warnings }, blocks);
}

async function pointsAnswer({ cell, files }: AskedWith): Promise<Worked> {
  const nothing = nothingToCount(files);
  if (nothing !== null) return noneOf({ ...nothing }, nothing.reason);
  const counted = await runStudy('io', { cell, schedule: null }, {}, CONTEXT);
  const results = { points: counted.stations.length === 0 ? null : counted };
  return answered('io', counted, counted, pointsBlocks({ results, ...common(cell) }));
}

/** There is no answer, and why. */
function noneOf(fields: Result['fields'], text: string): Worked {
  return { ...without(fields, [said(text)]), isNone: true };
}

/** The cells by name side by side, as `compare` does it. */
export async function compareAnswer(
  named: readonly NamedCell[],
  onProgress: AskedWith['onProgress'],
): Promise<Worked> {
  const variants = named.map(({ name, cell }) => ({ name, cell, dispatch: 'best' as const }));
  const comparison = await cellsStudies.compare.run(variants, {}, { ...CONTEXT, onProgress });
  const { assumptions, warnings } = comparison;
  const blocks = layoutBlocks({
    results: { comparison },
    facts: { currency: currencyOf(named[0]!.cell), changes: [] },
  });
  return { result: { fields: cellsStudies.compare.fields(comparison), assumptions, warnings }, blocks };
}
