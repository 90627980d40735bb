/** Name of the money of a cell. */
import type { Cell } from '../core/model/cell.js';
import { costWord } from '../core/model/cost-value.js';

/** Empty where costs.csv names none. */
export function currencyOf(cell: Pick<Cell, 'costs'>): string {
  return costWord(cell.costs, 'currency') ?? '';
}
