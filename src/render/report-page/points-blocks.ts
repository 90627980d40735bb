/** Points, boxes, supply current and cable losses of each machine. */
import type { Block } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { pointsSentence, pointsWarnings } from '../points.js';
import { pointsTable } from '../result-tables/point-tables.js';
import type { PartView } from './report-view.js';

export function pointsBlocks({ results: { points } }: PartView<'points'>): Block[] {
  const title = { kind: 'section', title: 'How many points and boxes?' } as const;
  if (points === null)
    return [
      title,
      {
        kind: 'paragraph',
        text: 'No signals are given. Fill in signals.csv to see input and output points, boxes, supply current and cable losses by machine.',
      },
    ];
  const warnings = pointsWarnings(points);
  return [
    title,
    { kind: 'paragraph', text: pointsSentence(points) },
    tableBlock('Points of each machine', pointsTable(points)),
    ...(warnings.length === 0
      ? []
      : ([
          { kind: 'subsection', title: 'What to look at' },
          { kind: 'list', items: warnings },
        ] as const)),
  ];
}
