import { requireAmount, requireYears } from './flow-arguments.js';

export const DEPRECIATION_METHODS = ['none', 'straight-line', 'macrs-3', 'macrs-5', 'macrs-7'] as const;
export type DepreciationMethod = (typeof DEPRECIATION_METHODS)[number];

/** How straight-line depreciation runs; the MACRS tables need none of it. */
export interface StraightLineOptions {
  /** Years over which it is written off, whole, 1 or more; 5 when not given. */
  readonly years?: number;
  /** Half a year's share in the first year and in the year after the last; false when not given. */
  readonly halfYear?: boolean;
  /** Value that stays at the end, not written off, 0 to basis; 0 when not given. */
  readonly salvage?: number;
}

/**
 * Half-year convention, 200% declining balance turning to straight line, per cent of the basis by year.
 * Source: IRS Publication 946, Appendix A, Table A-1.
 */
const MACRS_PCT = {
  'macrs-3': [33.33, 44.45, 14.81, 7.41],
  'macrs-5': [20, 32, 19.2, 11.52, 11.52, 5.76],
  'macrs-7': [14.29, 24.49, 17.49, 12.49, 8.93, 8.92, 8.93, 4.46],
} as const;

/**
 * Yearly amounts by which an asset is written off; the first is that of year 1.
 *
 * @param method `none` (no amounts), `straight-line`, or a MACRS class with the half-year convention
 * @param basis what the asset cost, 0 or more
 * @param options for `straight-line` only: years (5 when not given), half-year convention, salvage
 * @returns money by year from 1; the sum is the basis (less salvage)
 * @throws RangeError where an argument is outside its range
 * @example depreciation('macrs-5', 1000) // [200, 320, 192, 115.2, 115.2, 57.6]
 */
export function depreciation(
  method: DepreciationMethod,
  basis: number,
  options: StraightLineOptions = {},
): number[] {
  requireAmount(basis, 'the basis');
  if (method === 'none') return [];
  if (method === 'straight-line') return straightLine(basis, options);
  const table = MACRS_PCT[method];
  if (table === undefined)
    throw new RangeError(
      `the depreciation method is "${String(method)}": it must be one of ${DEPRECIATION_METHODS.join(', ')}`,
    );
  return table.map((pct) => (basis * pct) / 100);
}

function straightLine(basis: number, options: StraightLineOptions): number[] {
  const { years = 5, halfYear = false, salvage = 0 } = options;
  requireYears(years);
  requireAmount(salvage, 'the salvage value');
  if (salvage > basis) throw new RangeError(`the salvage value ${salvage} is above the basis ${basis}`);
  const yearly = (basis - salvage) / years;
  if (!halfYear) return Array.from({ length: years }, () => yearly);
  return Array.from({ length: years + 1 }, (_, k) => (k === 0 || k === years ? yearly / 2 : yearly));
}
