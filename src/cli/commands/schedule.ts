/** `schedule`: the best repeating round of the robot. */

import { Option } from 'commander';
import { emptyStartWarnings } from '../../core/floor/empty-start.js';
import type { CallRule } from '../../core/model/call-rules.js';
import type { Cell } from '../../core/model/cell.js';
import { currencyOf } from '../../core/model/cost-value.js';
import { bestSchedule, type ScheduleOptions } from '../../core/schedule/best-schedule.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { plainRule } from '../../core/simulate/plain-rule.js';
import { studies } from '../../core/studies/studies.js';
import { renderPlainRule } from '../../render/plain-rule.js';
import { SCHEDULE_TABLES, scheduleTables } from '../../render/result-tables/schedule-tables.js';
import { renderSchedule, scheduleSentences } from '../../render/schedule.js';
import { pieces } from '../../render/text-section.js';
import { cellAnswer, withHands } from '../cell-answer.js';
import { type CommandBody, numberOf, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { handsOption, numberOption, timeLimitOption } from '../option-values.js';
import { withProgress } from '../progress.js';
import { withSchedule } from '../schedule-outcome.js';

export const scheduleCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [
    handsOption(),
    numberOption('--parts-per-period <number>', 'parts that one robot cycle makes; not given: chosen', {
      words: 'parts',
      min: 1,
      max: 100,
      whole: true,
    }),
    numberOption('--max-visits <number>', 'most visits to machines and benches in one robot cycle', {
      words: 'visits',
      min: 1,
      max: 200,
      whole: true,
    }),
    timeLimitOption(),
    new Option(
      '--dispatch <rule>',
      'compare a simple rule with the best sequence, at constant times: first (first come, first served), nearest (shortest trip) or longest (longest cycle)',
    ).choices(['first', 'nearest', 'longest']),
    new Option('--chart', 'draw robot and machines through one robot cycle'),
  ],
  tables: SCHEDULE_TABLES,
  examples: ['schedule my-cell', 'schedule my-cell --hands 2 --json'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, async (open) => {
      const { cell, assumptions } = withHands(open.cell, numberOf(values, 'hands'));
      const outcome = withProgress(io, 'Searching for the best sequence', () =>
        bestSchedule(cell, searchOptions(cell, values)),
      );
      const currency = currencyOf(cell);
      const rule = values.dispatch as CallRule | undefined;
      const held = rule !== undefined && 'order' in outcome ? await plainRule(cell, rule, outcome) : null;
      return withSchedule(outcome, open, (schedule) => ({
        exit: isCutShort(schedule, values) ? EXIT.limitReached : EXIT.done,
        bestSoFar: isCutShort(schedule, values),
        fields: { ...studies.schedule.fields(schedule), ...(held === null ? {} : { dispatch: held }) },
        text: (style) =>
          pieces(
            renderSchedule(schedule, currency, style),
            held !== null && renderPlainRule(held, schedule, style),
          ),
        tables: () => ({
          sentences: scheduleSentences(schedule, currency),
          tables: scheduleTables(schedule),
        }),
        assumptions: [...assumptions, ...schedule.assumptions],
        warnings: [...schedule.warnings, ...emptyStartWarnings(cell, schedule)],
      }));
    }),
};

/** With a time limit the search goes on until it is complete, so one that is not was ended by the limit. */
function isCutShort({ proven, searched }: ScheduleFound, values: OptionValues): boolean {
  return values.timeLimit !== undefined && !proven && !searched.complete;
}

function searchOptions(cell: Cell, values: OptionValues): ScheduleOptions {
  return {
    ...studies.schedule.defaults(cell),
    ...numbersOf(values, {
      partsPerPeriod: 'partsPerPeriod',
      maxVisits: 'maxVisits',
      timeLimitS: 'timeLimit',
    }),
    // An asked time is the limit that counts: the search may then look at as much as it can.
    ...(values.timeLimit === undefined ? {} : { nodeLimit: Number.MAX_SAFE_INTEGER }),
  };
}
