/** `check`: reads all tables, tells every complaint, and says what the cell is. */
import { cellText } from '../../render/cell.js';
import { readAsText } from '../../render/read-as.js';
import { cellAnswer } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { complaintFields } from '../wrong-input.js';

export const checkCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [],
  examples: ['check my-cell'],
  run: (folder, _values, io) =>
    cellAnswer(folder!, io, ({ cell, complaints, inputs, readAs }) => ({
      exit: EXIT.done,
      fields: {
        status: 'sound',
        complaints: complaintFields(complaints),
        readAs,
        counts: {
          stations: cell.stations.length,
          machines: cell.stations.filter((s) => s.kind === 'machine').length,
          parts: cell.routes.length,
          tables: inputs.length,
        },
      },
      text: (style) =>
        [
          cellText(
            cell,
            inputs.map((input) => input.file),
            style,
          ),
          readAsText(readAs, style),
        ]
          .filter((text) => text !== '')
          .join('\n'),
      inputs,
      complaints,
    })),
};
