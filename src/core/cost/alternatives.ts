/** The ways of serving the machines that are compared with one another. */
import { type CaseInputs, num } from './case-inputs.js';
import { annualEquivalent } from './finance/annual-equivalent.js';
import { netPresentValue } from './finance/net-present-value.js';
import { incrementFor } from './increment-for.js';
import { everywhere, incrementValue, type TaxBasis } from './increment-value.js';
import { type PlanFlows, planFlows, stationBoxes, type Way } from './plan-flows.js';
import type { AlternativeResult, Worth } from './result.js';
import type { Selection } from './select-stations.js';

export const HARNESS = 'move the harness';
export const BOX_EVERYWHERE = 'a box on every machine';
export const BOX_SOME = 'boxes on the best machines';
export const BOX_SHARED = 'shared boxes';

export interface NamedPlan {
  readonly name: string;
  readonly ways: readonly Way[];
}

/** The harness and boxes everywhere always; the best machines and shared boxes where they are something else. */
export function plansCompared(inputs: CaseInputs, selection: Selection, basis: TaxBasis): NamedPlan[] {
  const plans: NamedPlan[] = [
    { name: HARNESS, ways: everywhere(inputs, 'harness') },
    { name: BOX_EVERYWHERE, ways: everywhere(inputs, 'own box') },
  ];
  const some = selection.stations.length > 0 && selection.stations.length < inputs.stations.length;
  if (some) plans.push({ name: BOX_SOME, ways: selection.ways });
  const shared = bestSharing(inputs, selection.budget, basis);
  if (shared) plans.push({ name: BOX_SHARED, ways: shared });
  return plans;
}

/**
 * Fewer boxes than machines: the machines that are changed over most keep a box of their own, the rest share the boxes
 * of the one among them that needs most, moved at each of their changeovers. The best number of sharers is taken.
 */
function bestSharing(inputs: CaseInputs, budget: number | null, basis: TaxBasis): Way[] | null {
  const count = inputs.stations.length;
  if (inputs.numbers.box_move_min == null || count < 2) return null;
  const ranked = inputs.stations
    .map((station, k) => ({ k, count: station.perYear, boxes: stationBoxes(inputs, station) }))
    .sort((a, b) => b.count - a.count || b.boxes - a.boxes)
    .map((entry) => entry.k);
  const candidates = Array.from({ length: count - 1 }, (_, owners) => {
    const own = new Set(ranked.slice(0, owners));
    return inputs.stations.map((_s, k): Way => (own.has(k) ? 'own box' : 'shared box'));
  }).filter((ways) => budget === null || spending(inputs, ways) <= budget + 1e-9);
  const best = candidates.reduce<{ ways: Way[]; value: number } | null>((most, ways) => {
    const value = incrementValue(inputs, ways, basis);
    return most && most.value >= value ? most : { ways, value };
  }, null);
  return best?.ways ?? null;
}

/** Money of year 0 for boxes and their installation; the harness does not count against the budget. */
function spending(inputs: CaseInputs, ways: readonly Way[]): number {
  const harness = ways.some((way) => way === 'harness') ? num(inputs, 'harness_price') : 0;
  return planFlows(inputs, ways).capital - harness;
}

/** One plan's figures. */
export function alternativeResult(
  inputs: CaseInputs,
  { name, ways }: NamedPlan,
  budget: number | null,
): AlternativeResult {
  const plan: PlanFlows = planFlows(inputs, ways);
  const rate = num(inputs, 'discount_pct') / 100;
  return {
    name,
    capital: plan.capital,
    annualCost: plan.running.reduce((sum, cost) => sum + cost, 0) / plan.running.length,
    ...worth(rate, plan.flows),
    boxes: plan.boxes,
    stations: inputs.stations.filter((_, k) => ways[k] !== 'harness').map((s) => s.station),
    afterTax: plan.flowsAfterTax ? worth(rate, plan.flowsAfterTax) : null,
    withinBudget: budget === null || name === HARNESS || spending(inputs, ways) <= budget + 1e-9,
    increment: name === HARNESS ? null : incrementFor(inputs, ways, 'before tax'),
    incrementAfterTax:
      name === HARNESS || plan.flowsAfterTax === null ? null : incrementFor(inputs, ways, 'after tax'),
  };
}

function worth(rate: number, cashFlow: readonly number[]): Worth {
  return {
    cashFlow,
    npvCost: -netPresentValue(rate, cashFlow),
    annualEquivalent: -annualEquivalent(rate, cashFlow),
  };
}
