/** How many machines one robot can tend: the numbers tried, the closed forms beside, how the answer moves. */
import { sizeChart } from '../charts/size-chart.js';
import { type Block, beside, listOf, note, section } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import {
  breakPointTable,
  closedFormTable,
  simulatedTable,
  sizeSensitivityTable,
  sizeTable,
} from '../result-tables/size-tables.js';
import { breakPointNote, closedFormNote, simulatedNote, sizeNotes, sizeSentences } from '../size.js';
import { moneyUnit, type PartView } from './report-view.js';

export function machineBlocks(view: PartView<'size'>): Block[] {
  const { size } = view.results;
  const head: Block[] = [section('How many machines can it tend?'), listOf(sizeSentences(size))];
  if (size.recommended === null) return head;
  return [
    ...head,
    sizeChart(size, view.facts.currency),
    tableBlock(`Machine by machine, constant times${moneyUnit(view)}`, sizeTable(size), { wide: true }),
    note(sizeNotes(size).join(' ')),
    ...simulatedBlocks(view),
    beside([
      ...(size.closedForm === null
        ? []
        : [
            [
              tableBlock(
                'A cross-check: parts an hour by the closed forms of machine interference',
                closedFormTable(size.closedForm, size.rows),
              ),
              note(closedFormNote(size.closedForm)),
            ],
          ]),
      ...(size.sensitivity.length === 0
        ? []
        : [[tableBlock('Sensitivity to times (±10%)', sizeSensitivityTable(size))]]),
      ...(size.breakPoints.length === 0
        ? []
        : [[tableBlock('Where the answer changes', breakPointTable(size)), note(breakPointNote(size))]]),
    ]),
  ];
}

/** The rows with stops and scatter, or why there are none. */
function simulatedBlocks(view: PartView<'size'>): Block[] {
  const { size } = view.results;
  const table = simulatedTable(size);
  const remark = note(simulatedNote(size));
  if (table === null) return [remark];
  return [tableBlock(`With downtime and variation${moneyUnit(view)}`, table, { wide: true }), remark];
}
