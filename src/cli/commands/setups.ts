/** `setups`: the order of jobs on each machine that needs the fewest set-up minutes. */

import { Option } from 'commander';
import { runStudy, studies } from '../../core/studies/studies.js';
import { paragraph } from '../../render/paragraph.js';
import { SETUP_TABLES, setupTables } from '../../render/result-tables/setup-tables.js';
import { renderSetups, setupSentence } from '../../render/setups.js';
import { nameHelp } from '../../tables/nearest-name.js';
import { type CellAnswer, cellAnswer, type OpenCell } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import { UsageError } from '../usage-error.js';

export const setupsCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell, with setups.csv',
  options: () => [
    new Option(
      '--once',
      'the jobs run once; without it they repeat, and the changeover from the last to the first counts',
    ),
    new Option('--now <job>', 'job that is set up now: it comes first'),
  ],
  tables: SETUP_TABLES,
  examples: ['setups my-cell', 'setups my-cell --once --now cap'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, async (open) => {
      if (open.cell.setups.length === 0) return nothingToOrder(open);
      const now = values.now as string | undefined;
      requireJob(now, [...new Set(open.cell.setups.flatMap((setup) => [setup.from, setup.to]))]);
      const options = { once: values.once === true, ...(now === undefined ? {} : { now }) };
      const inputs = { cell: open.cell, schedule: null };
      const result = await runStudy('setups', inputs, options, ON_THIS_THREAD);
      const { assumptions, warnings } = result;
      return {
        exit: EXIT.done,
        fields: studies.setups.fields(result),
        text: (style) => renderSetups(result, style),
        tables: () => ({
          sentences: result.stations.map(setupSentence),
          tables: setupTables(result),
        }),
        assumptions,
        warnings,
      };
    }),
};

function nothingToOrder(open: OpenCell): CellAnswer {
  const isThere = open.tables.includes('setups.csv');
  const recommendation = isThere
    ? 'setups.csv has no row, so there are no jobs to put in order.'
    : 'The folder has no setups.csv, so there are no jobs to put in order. That table lists station, from, to and minutes.';
  return {
    exit: EXIT.infeasible,
    fields: { status: 'nothing to put in order', stations: [], recommendation },
    text: (style) => `${paragraph(recommendation, style.columns)}\n`,
  };
}

function requireJob(now: string | undefined, jobs: readonly string[]): void {
  if (now === undefined || jobs.includes(now)) return;
  const help = nameHelp(now, jobs, 'jobs');
  throw new UsageError(`No job of setups.csv is called ${now}.${help === null ? '' : ` ${help}`}`);
}
