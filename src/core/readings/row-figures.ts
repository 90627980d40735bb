/** Figures as they stand in rows of the tables: as many digits as the scatter makes sense of. */

import type { Distribution } from '../model/cell.js';
import { decadeOf } from '../numbers/functions.js';

const MOST_DIGITS = 9;

/** Decimals that show four digits of a figure; three where it is 0. */
function decimalsFor(figure: number): number {
  if (!(figure > 0)) return 3;
  return Math.min(MOST_DIGITS, Math.max(0, 3 - decadeOf(figure)));
}

/**
 * Four digits of the scatter, and no fewer of the figure itself.
 *
 * @example rowFigure(14.23456, 1.2) // '14.235'
 */
export function rowFigure(value: number, sd: number | null): string {
  const digits = Math.max(decimalsFor(sd ?? 0), decimalsFor(value));
  return String(Number(value.toFixed(digits)));
}

/** Which parameters of a distribution are times; the others are shapes, without a unit. */
const TIMES: Readonly<Partial<Record<Distribution, number>>> = { gamma: 1, erlang: 1, weibull: 1 };

/**
 * The parameters of a row of variation.csv: three cells, the empty ones included.
 *
 * @param perUnit seconds to the unit of the element: 1, or 60 where it is minutes
 * @param sd standard deviation of the distribution, seconds
 */
export function rowParameters(
  distribution: Distribution,
  parameters: readonly number[],
  perUnit: number,
  sd: number,
): [a: string, b: string, c: string] {
  const cells = parameters.map((value, i) =>
    i < (TIMES[distribution] ?? parameters.length)
      ? rowFigure(value / perUnit, sd / perUnit)
      : String(Number(value.toPrecision(6))),
  );
  if (distribution === 'readings') return [cells.join('|'), '', ''];
  return [cells[0]!, cells[1] ?? '', cells[2] ?? ''];
}
