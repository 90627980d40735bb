/** `io`: input and output points, boxes, supply current and cable losses of each machine. */

import { type NothingToCount, nothingToCount } from '../../core/io/points.js';
import { runStudy, studies } from '../../core/studies/studies.js';
import { paragraph } from '../../render/paragraph.js';
import { pointsSentence, renderPoints } from '../../render/points.js';
import { POINT_TABLES, pointTables } from '../../render/result-tables/point-tables.js';
import { type CellAnswer, cellAnswer } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { ON_THIS_THREAD } from '../on-pool.js';

export const ioCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [],
  tables: POINT_TABLES,
  examples: ['io my-cell'],
  run: (folder, _values, io) =>
    cellAnswer(folder!, io, async (open) => {
      const nothing = nothingToCount(open.tables);
      if (nothing !== null) return noPoints(nothing);
      const result = await runStudy('io', { cell: open.cell, schedule: null }, {}, ON_THIS_THREAD);
      const { assumptions, warnings } = result;
      return {
        exit: EXIT.done,
        fields: studies.io.fields(result),
        text: (style) => renderPoints(result, style),
        tables: () => ({
          sentences: [pointsSentence(result)],
          tables: pointTables(result),
        }),
        assumptions,
        warnings,
      };
    }),
};

function noPoints(nothing: NothingToCount): CellAnswer {
  return {
    exit: EXIT.infeasible,
    fields: { ...nothing },
    text: (style) => `${paragraph(nothing.reason, style.columns)}\n`,
  };
}
