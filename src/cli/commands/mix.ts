/** `mix`: which parts on which machines in which shift pattern, and what is scarce. */

import { Option } from 'commander';
import { MIX_DEMANDS, type MixDemandKind } from '../../core/mix/product-mix.js';
import { currencyOf } from '../../core/model/cost-value.js';
import { runStudy, studies } from '../../core/studies/studies.js';
import { renderMix } from '../../render/mix.js';
import { MIX_TABLES, mixTables } from '../../render/result-tables/mix-tables.js';
import { cellAnswer } from '../cell-answer.js';
import { type CommandBody, numbersOf } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { ON_THIS_THREAD } from '../on-pool.js';
import { numberOption } from '../option-values.js';

export const mixCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [
    new Option(
      '--demand <kind>',
      'per_shift or per_week of parts.csv is to be made and no more of it is sold (`all`), is the least to be made with the rest sold too (`least`), or the most that is sold, to be made or not (`most`); default all',
    ).choices([...MIX_DEMANDS]),
    numberOption('--hours <number>', 'hours a week where the folder has no shifts; default 40', {
      words: 'hours',
      min: 0,
      aboveMin: true,
      max: 168,
    }),
  ],
  tables: MIX_TABLES,
  examples: ['mix my-cell', 'mix my-cell --demand most --set parts.cap.per_shift=120'],
  run: (folder, values, io) =>
    cellAnswer(folder!, io, async (open) => {
      const demand = values.demand as MixDemandKind | undefined;
      const options = {
        ...numbersOf(values, { hoursPerWeek: 'hours' }),
        ...(demand === undefined ? {} : { demand }),
      };
      const inputs = { cell: open.cell, schedule: null };
      const result = await runStudy('mix', inputs, options, ON_THIS_THREAD);
      const { assumptions, warnings } = result;
      const isSure = result.patterns.some((p) => p.status !== 'unsure');
      return {
        exit: isSure ? EXIT.done : EXIT.limitReached,
        fields: studies.mix.fields(result),
        text: (style) => renderMix(result, currencyOf(open.cell), style),
        tables: () => ({
          sentences: [result.recommendation],
          tables: mixTables(result),
        }),
        assumptions,
        warnings,
      };
    }),
};
