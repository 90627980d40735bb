/** The cost items that are given with a low or a high. */
import type { CostItem } from '../../model/cell.js';
import { costItemFormat } from '../../model/cost-items.js';
import type { ThreePoint } from '../../statistics/three-point.js';

export interface RangedItem extends ThreePoint {
  readonly item: string;
  /** Whole numbers only, such as years. */
  readonly whole: boolean;
}

/** In the order of the table; a missing low or high is the value itself, and a range of nothing is left out. */
export function rangedItems(costs: readonly CostItem[]): RangedItem[] {
  return costs.flatMap((row) => {
    const format = costItemFormat(row.item);
    if (typeof row.value !== 'number' || format?.kind !== 'number') return [];
    const [low, high] = [row.low ?? row.value, row.high ?? row.value];
    return low === high ? [] : [{ item: row.item, low, mode: row.value, high, whole: format.whole }];
  });
}

/** The items that the risk trials draw: with the number of changeovers given, its share is certain. */
export function drawnItems(costs: readonly CostItem[], countIsGiven: boolean): RangedItem[] {
  return rangedItems(costs).filter(({ item }) => !(countIsGiven && item === 'changeover_count_pct'));
}
