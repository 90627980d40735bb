/** Points, boxes, supply current and cable losses of each machine. */
import { type Block, listOf, said, section, subsection } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { pointsSentence, pointsWarnings } from '../points.js';
import { pointsTable } from '../result-tables/point-tables.js';
import type { PartView } from './report-view.js';

export function pointsBlocks({ results: { points } }: PartView<'points'>): Block[] {
  const title = section('How many points and boxes?');
  if (points === null)
    return [
      title,
      said(
        'No signals are given. Fill in signals.csv to see input and output points, boxes, supply current and cable losses by machine.',
      ),
    ];
  const warnings = pointsWarnings(points);
  return [
    title,
    said(pointsSentence(points)),
    tableBlock('Points of each machine', pointsTable(points)),
    ...(warnings.length === 0 ? [] : ([subsection('What to look at'), listOf(warnings)] as const)),
  ];
}
