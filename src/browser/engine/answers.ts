/**
 * Works out the questions with the functions and defaults of the commands, so that a result of the page is that of the
 * command line, and draws them with the report's renderers.
 */

import { costCase } from '../../core/cost/cost-case.js';
import { standingHours } from '../../core/cost/standing/standing-hours.js';
import { points } from '../../core/io/points.js';
import type { Cell } from '../../core/model/cell.js';
import { costWord } from '../../core/model/cost-value.js';
import { patternPerformance } from '../../core/performance/pattern-performance.js';
import type { ScheduleFound, ScheduleOutcome } from '../../core/schedule/result.js';
import { shiftPatterns } from '../../core/shifts/shift-patterns.js';
import { patternNames, weekCalendar } from '../../core/shifts/week-calendar.js';
import { openSpans } from '../../core/simulate/open-spans.js';
import { studyCell } from '../../core/simulate/study-cell.js';
import { sizeSearch } from '../../core/size/size-search.js';
import { sizeStudy } from '../../core/size/size-study.js';
import type { Block } from '../../render/document/blocks.js';
import { tableBlock } from '../../render/document/table-block.js';
import { contradictionTable, noScheduleSentence } from '../../render/no-schedule.js';
import { chanceBlocks } from '../../render/report-page/chance-blocks.js';
import { machineBlocks } from '../../render/report-page/machine-blocks.js';
import { moneyBlocks } from '../../render/report-page/money-blocks.js';
import { pointsBlocks } from '../../render/report-page/points-blocks.js';
import { moneyView, reportNumbers } from '../../render/report-page/report-view.js';
import { roundBlocks } from '../../render/report-page/round-blocks.js';
import { weekBlocks } from '../../render/report-page/week-blocks.js';
import type { Question, Result } from './messages.js';

export interface Worked {
  readonly result: Result;
  readonly blocks: readonly Block[];
  /** The cell has no sequence, so that there is no answer; the blocks say why. */
  readonly isNone?: boolean;
}

type Progress = (done: number, of: number) => void;

/** Every question but the schedule itself; `outcome` searches for the best sequence where a question goes on from it. */
type Work = (cell: Cell, outcome: () => ScheduleOutcome, progress: Progress) => Worked | Promise<Worked>;

export const answers: Readonly<Record<Exclude<Question, 'schedule'>, Work>> = {
  size: (cell) => sizeAnswer(cell),
  shifts: onSchedule(shiftsAnswer),
  simulate: (cell, outcome, progress) => simulateAnswer(cell, outcome(), progress),
  costcase: onSchedule(costAnswer),
  io: (cell) => pointsAnswer(cell),
};

function onSchedule(work: (cell: Cell, schedule: ScheduleFound) => Worked): Work {
  return (cell, outcome) => {
    const found = outcome();
    return 'order' in found ? work(cell, found) : noAnswer(found);
  };
}

export function noAnswer(outcome: Exclude<ScheduleOutcome, ScheduleFound>): Worked {
  const table = contradictionTable(outcome);
  return {
    result: { fields: { ...outcome }, assumptions: [], warnings: [] },
    blocks: [
      { kind: 'paragraph', text: noScheduleSentence(outcome) },
      ...(table === null ? [] : [tableBlock('Why', table)]),
    ],
    isNone: true,
  };
}

export function scheduleAnswer(cell: Cell, schedule: ScheduleFound): Worked {
  const { assumptions, warnings, rateBoundPerH, ...fields } = schedule;
  const { total, perPart, binding, goal } = rateBoundPerH;
  return {
    result: {
      fields: { ...fields, rateBoundPerH: { total, perPart, binding, goal } },
      assumptions,
      warnings,
    },
    blocks: roundBlocks({ results: { schedule, cell, simulation: null }, numbers: numbersOf(cell) }),
  };
}

function common(cell: Cell) {
  return { facts: { currency: currencyOf(cell) }, numbers: numbersOf(cell), money: null };
}

function currencyOf(cell: Cell): string {
  return costWord(cell.costs, 'currency') ?? '';
}

function numbersOf(cell: Cell) {
  return reportNumbers(currencyOf(cell));
}

async function sizeAnswer(cell: Cell): Promise<Worked> {
  const size = await sizeStudy({ cell, order: 'best' }, sizeSearch(cell), {}, {});
  const { assumptions, warnings, ...fields } = size;
  return {
    result: { fields, assumptions, warnings },
    blocks: machineBlocks({ results: { size }, ...common(cell) }),
  };
}

function shiftsAnswer(cell: Cell, schedule: ScheduleFound): Worked {
  const shifts = shiftPatterns(cell, schedule, {});
  const { warnings, ...fields } = shifts;
  const performance = shifts.patterns.map((pattern) => patternPerformance(cell, pattern));
  const shared = new Set(shifts.patterns.flatMap((pattern) => pattern.assumptions));
  const results = { shifts: shifts.patterns.length === 0 ? null : shifts, performance, patterns: null };
  return {
    result: {
      fields: { ...fields, performance },
      assumptions: [...schedule.assumptions, ...shared],
      warnings: [...schedule.warnings, ...warnings],
    },
    blocks: weekBlocks({ results, ...common(cell) }),
  };
}

const PLAIN_RULES = ['first', 'nearest', 'longest'] as const;
const NO_SEQUENCE =
  'No repeating sequence was found, so the rule `order` is not among the rules; `schedule` says why.';

/** @param runs fewer than the default, for an answer on the way */
export async function simulateAnswer(
  cell: Cell,
  outcome: ScheduleOutcome,
  progress: Progress,
  runs?: number,
): Promise<Worked> {
  const pattern = patternNames(cell.shifts)[0] ?? null;
  const order = 'order' in outcome ? outcome : null;
  const rules = order === null ? PLAIN_RULES : (['order', ...PLAIN_RULES] as const);
  const [dispatch, ...against] = rules;
  const options = {
    dispatch,
    order,
    against: runs === undefined ? against : [],
    ...(runs === undefined ? {} : { replications: runs }),
    ...(pattern === null ? {} : { openSpans: openSpans(weekCalendar(cell.shifts, pattern), cell.shifts) }),
  };
  const simulation = await studyCell(cell, options, { onProgress: progress });
  const { result, rules: yields, ruleToProgram, responseCost } = simulation;
  const { assumptions, warnings, ...fields } = result;
  return {
    result: {
      fields: { ...fields, pattern, rules: yields, ruleToProgram, responseCost },
      assumptions: [...assumptions, ...(order === null ? [NO_SEQUENCE] : [])],
      warnings,
    },
    blocks: chanceBlocks({ results: { simulation, simulatedPattern: pattern, cell }, ...common(cell) }),
  };
}

function costAnswer(cell: Cell, schedule: ScheduleFound): Worked {
  const pattern = patternNames(cell.shifts)[0] ?? null;
  const found = costCase(cell, standingHours(cell, schedule, { pattern }), { correlations: [] });
  if (found.status === 'wrong') {
    const { status, complaints, missing, recommendation } = found;
    const items = complaints.map(({ file, text, help }) => `${file}: ${text}. ${help ?? ''}`.trim());
    return {
      result: { fields: { status, complaints, missing, recommendation }, assumptions: [], warnings: [] },
      blocks: [{ kind: 'list', items }],
      isNone: true,
    };
  }
  const results = { costCase: cell.costs.length === 0 && cell.changeovers.length === 0 ? null : found };
  const blocks = moneyBlocks({ results, ...common(cell), money: moneyView(results, numbersOf(cell)) });
  if (found.status === 'too little data')
    return { result: { fields: { ...found }, assumptions: [], warnings: schedule.warnings }, blocks };
  const { assumptions, warnings, ...fields } = found;
  return { result: { fields, assumptions, warnings: [...schedule.warnings, ...warnings] }, blocks };
}

function pointsAnswer(cell: Cell): Worked {
  const counted = cell.signals.length === 0 ? null : points(cell);
  const blocks = pointsBlocks({ results: { points: counted }, ...common(cell) });
  if (counted === null)
    return { result: { fields: {}, assumptions: [], warnings: [] }, blocks, isNone: true };
  const { assumptions, warnings, ...fields } = counted;
  return { result: { fields, assumptions, warnings }, blocks };
}
