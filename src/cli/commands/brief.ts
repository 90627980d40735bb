/** The short answer of a cell, given when the program is called with a folder or workbook and no command. */
import type { Cell } from '../../core/model/cell.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { runStudy } from '../../core/studies/studies.js';
import { type BriefFacts, briefAnswers, briefWithout, renderBrief } from '../../render/brief.js';
import type { NoSchedule } from '../../render/no-schedule.js';
import type { Answer } from '../answer.js';
import { cellAnswer, type OpenCell } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import { withProgress } from '../progress.js';
import { noSchedule, searched } from '../schedule-outcome.js';

/** Risk trials do not touch the decision; the case asks for some. */
const FEW_TRIALS = 100;

export const briefCommand: CommandBody = {
  argument: 'folder or workbook that holds the tables of the cell',
  options: () => [],
  examples: ['my-cell', 'brief my-cell --json'],
  run: (folder, _values, io) =>
    cellAnswer(folder!, io, async (open) => {
      const outcome = searched(open.cell, io);
      const path = /\s/.test(folder!) ? `"${folder}"` : folder!;
      if (!('order' in outcome)) return withoutSequence(outcome, open, path);
      const facts = await withProgress(io, 'Working out machines, shifts and money', () =>
        factsOf(open.cell, outcome),
      );
      const answers = briefAnswers(facts);
      return {
        exit: EXIT.done,
        fields: { answers },
        text: (style) => renderBrief(answers, path, style),
        assumptions: outcome.assumptions,
        warnings: outcome.warnings,
        // The commands that tell more tell them; here they would bury the answer.
        noticesInFiles: true,
      };
    }),
};

/** The reason in short, and that the other questions wait for it. */
function withoutSequence(outcome: NoSchedule, open: OpenCell, path: string): Answer {
  const answers = briefWithout(outcome);
  return {
    ...noSchedule(outcome, open),
    fields: { ...outcome, answers },
    text: (style) => renderBrief(answers, path, style),
  };
}

async function factsOf(cell: Cell, schedule: ScheduleFound): Promise<BriefFacts> {
  const inputs = { cell, schedule };
  const hasCase = cell.changeovers.length > 0 && cell.costs.length > 0;
  return {
    cell,
    schedule,
    size: await runStudy('size', inputs, { sensitivity: false, simulation: null }, ON_THIS_THREAD),
    shifts:
      cell.shifts.length === 0 ? null : await runStudy('shifts', inputs, { losses: false }, ON_THIS_THREAD),
    costCase: hasCase ? await runStudy('costcase', inputs, { trials: FEW_TRIALS }, ON_THIS_THREAD) : null,
  };
}
