/** `check`: reads all tables, tells every complaint, and says what the cell is. */

import { missingItems } from '../../core/cost/case-problems.js';
import type { Cell } from '../../core/model/cell.js';
import type { Complaint } from '../../core/model/complaint.js';
import { checkedCellText } from '../../render/cell.js';
import { readAsText } from '../../render/read-as.js';
import { complain } from '../../tables/complaint-list.js';
import { tableFormats } from '../../tables/table-formats.js';
import { cellAnswer } from '../cell-answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { complaintFields } from '../wrong-input.js';

export const checkCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell',
  options: () => [],
  examples: ['check my-cell'],
  run: (folder, _values, io) =>
    cellAnswer(folder!, io, ({ cell, complaints: found, inputs, tables, readAs }) => {
      const complaints = [...found, ...lackingForCase(cell)];
      return {
        exit: EXIT.done,
        fields: {
          status: 'sound',
          complaints: complaintFields(complaints),
          readAs,
          counts: {
            stations: cell.stations.length,
            machines: cell.stations.filter((s) => s.kind === 'machine').length,
            parts: cell.routes.length,
            tables: tables.filter((name) => tableFormats.some(({ file }) => file === name)).length,
          },
        },
        text: (style) =>
          [
            checkedCellText(
              cell,
              inputs.map((input) => input.file),
              style,
            ),
            readAsText(readAs, style),
          ]
            .filter((text) => text !== '')
            .join('\n'),
        complaints,
      };
    }),
};

/** What `costcase` would ask for, where the folder means to have a cost case. */
function lackingForCase(cell: Cell): Complaint[] {
  if (cell.changeovers.length === 0 || cell.costs.length === 0) return [];
  const priced = cell.parts.some((part) => (part.contribution ?? 0) > 0);
  return missingItems(cell, null)
    .filter(({ item }) => !(priced && item === 'contribution_per_machine_h'))
    .map(({ item, file, neededFor }) => {
      const text = `found no row for \`${item}\`, which costcase needs for ${neededFor.join(', ')}`;
      return complain('COS10', file, text, `Add a row for ${item}.`, { severity: 'warning' });
    });
}
