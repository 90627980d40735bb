/** Present cost of both ways against the number of changeovers in the horizon, and where the lines cross. */
import { plannedCount, scaled } from './break-even.js';
import { type CaseInputs, num } from './case-inputs.js';
import { netPresentValue } from './finance/net-present-value.js';
import { everywhere, flowsOn, type TaxBasis } from './increment-value.js';
import { planFlows } from './plan-flows.js';

export interface CumulativeCost {
  readonly points: readonly {
    readonly changeovers: number;
    readonly harness: number;
    readonly box: number;
  }[];
  /** Changeovers at which both cost the same; null where they never do. */
  readonly crossing: number | null;
}

const PIECES = 20;

/**
 * @param crossing the break-even number of changeovers, or null
 * @returns costs at 21 even counts from 0 to twice the larger of the planned count and the crossing (the planned count
 *   alone where there is no crossing); each count is spread evenly over the years, in the machines' proportions
 */
export function cumulativeCost(inputs: CaseInputs, crossing: number | null, basis: TaxBasis): CumulativeCost {
  const planned = plannedCount(inputs);
  if (planned === 0) return { points: [], crossing: null };
  const most = 2 * Math.max(planned, Math.min(crossing ?? 0, 10 * planned));
  const rate = num(inputs, 'discount_pct') / 100;
  const points = Array.from({ length: PIECES + 1 }, (_, k) => {
    const changeovers = (most * k) / PIECES;
    const at = scaled(inputs, changeovers / planned);
    const cost = (way: 'harness' | 'own box') =>
      -netPresentValue(rate, flowsOn(basis, planFlows(at, everywhere(at, way))));
    return { changeovers, harness: cost('harness'), box: cost('own box') };
  });
  return { points, crossing };
}
