/** The best sequence of the robot as an answer, or why there is none. */

import { emptyStartWarnings } from '../../core/floor/empty-start.js';
import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import type { ScheduleFound, ScheduleOutcome } from '../../core/schedule/result.js';
import { scheduleFields } from '../../core/studies/study-fields.js';
import { said } from '../../render/document/blocks.js';
import { tableBlock } from '../../render/document/table-block.js';
import { contradictionTable, noScheduleSentence } from '../../render/no-schedule.js';
import { reportNumbers } from '../../render/report-page/report-view.js';
import { roundBlocks } from '../../render/report-page/round-blocks.js';
import type { Worked } from './worked.js';

export function workedSchedule(cell: Cell, schedule: ScheduleFound): Worked {
  const numbers = reportNumbers(currencyOf(cell));
  const { warnings, ...rest } = resultOf(schedule);
  return {
    result: { ...rest, warnings: [...warnings, ...emptyStartWarnings(cell, schedule)] },
    blocks: roundBlocks({ results: { schedule, simulation: null }, numbers }),
  };
}

/** The figures alone, for an answer on the way. */
export function rateOf(schedule: ScheduleFound): Worked {
  return { result: resultOf(schedule), blocks: [] };
}

export function noAnswer(outcome: Exclude<ScheduleOutcome, ScheduleFound>): Worked {
  const table = contradictionTable(outcome);
  return {
    result: { fields: { ...outcome }, assumptions: [], warnings: [] },
    blocks: [said(noScheduleSentence(outcome)), ...(table === null ? [] : [tableBlock('Why', table)])],
    isNone: true,
  };
}

function resultOf(schedule: ScheduleFound): Worked['result'] {
  const { assumptions, warnings } = schedule;
  return { fields: scheduleFields(schedule), assumptions, warnings };
}
