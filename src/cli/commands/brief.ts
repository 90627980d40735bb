/** The short answer of a cell, given when the program is called with a folder or workbook and no command. */
import type { Cell } from '../../core/model/cell.js';
import type { PartInputs } from '../../core/report/report-parts.js';
import { runStudy, type StudyName } from '../../core/studies/studies.js';
import { type BriefFacts, briefAnswers, briefWithout, renderBrief } from '../../render/brief.js';
import type { NoSchedule } from '../../render/no-schedule.js';
import type { AskedStudy } from '../../workers/studies-share.js';
import { workPool } from '../../workers/work-pool.js';
import type { Answer } from '../answer.js';
import { cellAnswer, type OpenCell } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import { withProgress } from '../progress.js';
import { noSchedule, searched } from '../schedule-outcome.js';

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
        onTwoThreads({ cell: open.cell, schedule: outcome }),
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

/** Machines on this thread, shifts and money on another: each takes about as long. */
async function onTwoThreads(inputs: PartInputs): Promise<BriefFacts> {
  const asked = weekAndMoney(inputs.cell);
  const pool = asked.length === 0 ? null : workPool({ workers: 1 });
  try {
    const others = pool?.run('studies', { inputs, asked });
    // A fault on this thread ends the other before anybody waits for it; its own is then nobody's.
    others?.catch(() => undefined);
    const size = await runStudy('size', inputs, { sensitivity: false, simulation: null }, ON_THIS_THREAD);
    const results = (await others) ?? [];
    const answerTo = (name: StudyName) => results[asked.findIndex((one) => one.name === name)] ?? null;
    return {
      ...inputs,
      size,
      shifts: answerTo('shifts') as BriefFacts['shifts'],
      costCase: answerTo('costcase') as BriefFacts['costCase'],
    };
  } finally {
    await pool?.close();
  }
}

/** What the tables of a cell allow. */
function weekAndMoney(cell: Cell): AskedStudy[] {
  const hasCase = cell.changeovers.length > 0 && cell.costs.length > 0;
  return [
    ...(cell.shifts.length > 0 ? [{ name: 'shifts' as const, options: { losses: false } }] : []),
    ...(hasCase ? [{ name: 'costcase' as const, options: { decisionOnly: true } }] : []),
  ];
}
