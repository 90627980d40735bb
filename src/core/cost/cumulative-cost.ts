/** Present cost of both ways against the number of changeovers in the horizon, and where the lines cross. */
import { plannedCount, scaled } from './break-even.js';
import type { CaseInputs, TaxBasis } from './case-inputs.js';
import { discountRate } from './discount-rate.js';
import { netPresentValue } from './finance/net-present-value.js';
import { everywhere, flowsOn } from './increment-value.js';
import { planFlows, type Way } from './plan-flows.js';

export interface CumulativeCost {
  readonly points: readonly {
    readonly changeovers: number;
    readonly harness: number;
    readonly box: number;
    /** The recommended way, where that is neither of the two. */
    readonly choice?: number;
  }[];
  /** Changeovers at which both cost the same; null where they never do. */
  readonly crossing: number | null;
}

const PIECES = 20;

/**
 * @param crossing the break-even number of changeovers, or null
 * @param choice the recommended way of each machine, where a third line is wanted
 * @returns costs at 21 even counts from 0 to twice the larger of the planned count and the crossing (the planned count
 *   alone where there is no crossing), and at both of these; each count is spread evenly over the years, in the machines'
 *   proportions
 */
export function cumulativeCost(
  inputs: CaseInputs,
  crossing: number | null,
  basis: TaxBasis,
  choice: readonly Way[] | null = null,
): CumulativeCost {
  const planned = plannedCount(inputs);
  if (planned === 0) return { points: [], crossing: null };
  const most = 2 * Math.max(planned, Math.min(crossing ?? 0, 10 * planned));
  const even = Array.from({ length: PIECES + 1 }, (_, k) => (most * k) / PIECES);
  const counts = [...even, planned, ...(crossing !== null && crossing <= most ? [crossing] : [])];
  const rate = discountRate(inputs, basis);
  const points = [...new Set(counts)]
    .sort((a, b) => a - b)
    .map((changeovers) => {
      const at = scaled(inputs, changeovers / planned);
      const cost = (ways: readonly Way[]) => -netPresentValue(rate, flowsOn(basis, planFlows(at, ways)));
      return {
        changeovers,
        harness: cost(everywhere(at, 'harness')),
        box: cost(everywhere(at, 'own box')),
        ...(choice === null ? {} : { choice: cost(choice) }),
      };
    });
  return { points, crossing };
}
