/** `points`: input and output points, boxes, supply current and cable losses of each machine. */
import { points } from '../../core/points/points.js';
import { renderPoints } from '../../render/points.js';
import { cellAnswer, complaintLines } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';

export const pointsCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [],
  examples: ['points my-cell'],
  run: (folder, _values, io) =>
    cellAnswer(folder!, io, (open) => {
      const { assumptions, warnings, ...fields } = points(open.cell);
      return {
        exit: EXIT.done,
        fields,
        text: (style) => renderPoints({ assumptions, warnings, ...fields }, style),
        inputs: open.inputs,
        assumptions,
        warnings: [...complaintLines(open.complaints), ...warnings],
      };
    }),
};
