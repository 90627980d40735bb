/** Name of the money of a cell; empty where costs.csv names none. */
import type { Cell } from '../core/model/cell.js';
import { costWord } from '../core/model/cost-value.js';

export function currencyOf(cell: Pick<Cell, 'costs'>): string {
  return costWord(cell.costs, 'currency') ?? '';
}
