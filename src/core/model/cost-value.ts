/** Looking up items of the cost table: what was given, else the default of the list of items. */
import type { Cell, CostItem } from './cell.js';
import { type CostItemFormat, costItemFormat, costItems } from './cost-items.js';

const FORMATS = new Map(costItems.map((format) => [format.name, format]));

/** The row of costs.csv that gives an item, or null. */
export function givenCost(costs: readonly CostItem[], name: string): CostItem | null {
  return costs.find((row) => row.item === name) ?? null;
}

/**
 * Value of a numeric item: as given, else its default (which may be another item's value), else null.
 *
 * @throws RangeError where the list of items has no such name
 */
export function costNumber(costs: readonly CostItem[], name: string): number | null {
  const given = givenCost(costs, name);
  if (given) return typeof given.value === 'number' ? given.value : null;
  const fallback = formatOf(name).default;
  if (typeof fallback === 'string') return costNumber(costs, fallback);
  return fallback;
}

/**
 * Value of an item that holds a word or text: as given, else its default, else null.
 *
 * @throws RangeError where the list of items has no such name
 */
export function costWord(costs: readonly CostItem[], name: string): string | null {
  const given = givenCost(costs, name);
  if (given) return String(given.value);
  const fallback = formatOf(name).default;
  return fallback === null ? null : String(fallback);
}

/** Name of the money of a cell; empty where costs.csv names none. */
export function currencyOf({ costs }: Pick<Cell, 'costs'>): string {
  return costWord(costs, 'currency') ?? '';
}

/** The same of several cells; null where they have unlike ones. */
export function sharedCurrency(cells: readonly Pick<Cell, 'costs'>[]): string | null {
  const [currency = '', ...others] = new Set(cells.map(currencyOf));
  return others.length === 0 ? currency : null;
}

function formatOf(name: string): CostItemFormat {
  const format = FORMATS.get(name) ?? costItemFormat(name);
  if (!format) throw new RangeError(`the list of cost items has no item ${name}`);
  return format;
}
