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
  /** The same for the recommended way, where there is a third line. */
  readonly choiceCrossing?: number | null;
}

/** The recommended way of each machine, and its break-even number of changeovers. */
interface ThirdLine {
  readonly ways: readonly Way[];
  readonly crossing: number | null;
}

const PIECES = 20;

/**
 * @param crossing the break-even number of changeovers, or null
 * @param choice where a third line is wanted
 * @returns costs at 21 even counts from 0 to twice the larger of the planned count and the crossing (the planned count
 *   alone where there is no crossing), and at these and the choice's crossing; each count is spread evenly over the years, in the machines'
 *   proportions
 */
export function cumulativeCost(
  inputs: CaseInputs,
  crossing: number | null,
  basis: TaxBasis,
  choice: ThirdLine | null = null,
): CumulativeCost {
  const planned = plannedCount(inputs);
  if (planned === 0) return { points: [], crossing: null };
  const most = 2 * Math.max(planned, Math.min(crossing ?? 0, 10 * planned));
  const even = Array.from({ length: PIECES + 1 }, (_, k) => (most * k) / PIECES);
  const crossings = [crossing, choice?.crossing ?? null].filter((count) => count !== null && count <= most);
  const counts = [...even, planned, ...(crossings as number[])];
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
        ...(choice === null ? {} : { choice: cost(choice.ways) }),
      };
    });
  return { points, crossing, ...(choice === null ? {} : { choiceCrossing: choice.crossing }) };
}
