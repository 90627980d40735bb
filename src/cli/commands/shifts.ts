/** `shifts`: parts per shift and week of every shift pattern, with the losses by cause. */
import { patternPerformance } from '../../core/performance/pattern-performance.js';
import { bestSchedule } from '../../core/schedule/best-schedule.js';
import { shiftPatterns } from '../../core/shifts/shift-patterns.js';
import { renderPerformance } from '../../render/performance.js';
import { renderShifts } from '../../render/shifts.js';
import { cellAnswer, complaintLines, withHands } from '../cell-answer.js';
import { type CommandSpec, numberOf } from '../command-spec.js';
import { currencyOf } from '../currency.js';
import { EXIT } from '../exit-codes.js';
import { handsOption } from '../option-values.js';
import { withProgress } from '../progress.js';
import { withSchedule } from '../schedule-outcome.js';

export const shiftsCommand: CommandSpec = {
  name: 'shifts',
  usage: '<folder>',
  argument: 'folder that holds the tables of the cell',
  summary: 'run the best sequence through each shift pattern: parts per shift, losses, labour',
  options: () => [handsOption()],
  examples: ['shifts my-cell'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, (open) => {
      const { cell, assumptions } = withHands(open.cell, numberOf(values, 'hands'));
      const outcome = withProgress(io, 'Searching for the best sequence', () =>
        bestSchedule(cell, { improvements: false }),
      );
      return withSchedule(outcome, open, (schedule) => {
        const result = withProgress(io, 'Running the shifts', () => shiftPatterns(cell, schedule));
        const { warnings, ...fields } = result;
        const performance = result.patterns.map((p) => patternPerformance(cell, p));
        const shared = new Set(result.patterns.flatMap((p) => p.assumptions));
        return {
          exit: EXIT.done,
          fields: { ...fields, performance },
          text: (style) =>
            `${renderShifts(result, currencyOf(cell), style)}${renderPerformance(performance, style)}`,
          inputs: open.inputs,
          assumptions: [...assumptions, ...schedule.assumptions, ...shared],
          warnings: [...complaintLines(open.complaints), ...schedule.warnings, ...warnings],
        };
      });
    }),
};
