/** A comparison as a page of its own: what the report says of layouts, their plans with the moved stations ringed among it. */
import type { CellComparison } from '../core/compare/comparison.js';
import type { Document } from './document/blocks.js';
import { countText } from './numbers.js';
import { layoutBlocks } from './report-page/layout-blocks.js';
import type { FolderChanges } from './result-tables/comparison-tables.js';

export function comparisonPage(
  comparison: CellComparison,
  changes: readonly FolderChanges[],
  currency: string,
): Document {
  const money = currency === '' ? '' : ` Money in ${currency}.`;
  return {
    title: 'Cells side by side',
    subtitle: `${countText(comparison.cells.length, 'cell')}: ${comparison.cells.map(({ name }) => name).join('; ')}.${money} Estimates for a decision.`,
    blocks: layoutBlocks({ results: { comparison }, facts: { currency, changes } }),
  };
}
