/** `setups`: the order of jobs on each machine that needs the fewest set-up minutes. */
import { Option } from 'commander';
import { setupOrders } from '../../core/setups/setup-orders.js';
import { renderSetups } from '../../render/setups.js';
import { nameHelp } from '../../tables/nearest-name.js';
import { cellAnswer, complaintLines } from '../cell-answer.js';
import type { CommandSpec } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { UsageError } from '../usage-error.js';

export const setupsCommand: CommandSpec = {
  name: 'setups',
  usage: '<folder>',
  argument: 'folder that holds the tables of the cell, with setups.csv',
  summary: 'put the jobs of each machine in the order that needs the fewest set-up minutes',
  options: () => [
    new Option('--once', 'the jobs run once; without it they come round again, and the way back counts'),
    new Option('--now <job>', 'job that is set up now: it comes first'),
  ],
  examples: ['setups my-cell', 'setups my-cell --once --now cap'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, (open) => {
      const now = values.now as string | undefined;
      requireJob(now, [...new Set(open.cell.setups.flatMap((setup) => [setup.from, setup.to]))]);
      const result = setupOrders(open.cell, {
        once: values.once === true,
        ...(now === undefined ? {} : { now }),
      });
      const { assumptions, warnings, ...fields } = result;
      return {
        exit: EXIT.done,
        fields,
        text: (style) => renderSetups(result, style),
        inputs: open.inputs,
        assumptions,
        warnings: [...complaintLines(open.complaints), ...warnings],
      };
    }),
};

function requireJob(now: string | undefined, jobs: readonly string[]): void {
  if (now === undefined || jobs.includes(now)) return;
  const help = nameHelp(now, jobs, 'jobs');
  throw new UsageError(`No job of setups.csv is called ${now}.${help === null ? '' : ` ${help}`}`);
}
