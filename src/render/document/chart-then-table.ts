/** A chart whose figures stand open below it, for documents in which they are needed on paper. */
import type { Block } from './blocks.js';

/** @returns the chart, then its table; what is no chart as it is; nothing for null */
export function chartThenTable(block: Block | null): Block[] {
  if (block === null) return [];
  if (block.kind !== 'chart' || block.data === undefined) return [block];
  const { data, ...chart } = block;
  return [chart, data];
}
