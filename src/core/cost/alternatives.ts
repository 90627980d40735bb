/** The ways of serving the machines that are compared with one another. */
import { BOX_EVERYWHERE, BOX_SHARED, BOX_SOME, connectionPlanName, HARNESS } from '../model/plan-words.js';
import { type CaseInputs, num, type TaxBasis } from './case-inputs.js';
import { discountRate } from './discount-rate.js';
import { annualEquivalent } from './finance/annual-equivalent.js';
import { netPresentValue } from './finance/net-present-value.js';
import { incrementFor } from './increment-result.js';
import { everywhere, incrementValue, incrementValues } from './increment-value.js';
import { type NamedPlan, type PlanFlows, planFlows, stationBoxes, type Way } from './plan-flows.js';
import type { AlternativeResult, Worth } from './result.js';
import { type Selection, selectStations } from './select-stations.js';

/** The harness and boxes everywhere always; the best machines and shared boxes where they are something else. */
export function plansCompared(
  inputs: CaseInputs,
  selection: Pick<Selection, 'stations' | 'ways' | 'budget'>,
  basis: TaxBasis,
): NamedPlan[] {
  const plans: NamedPlan[] = [
    { name: HARNESS, ways: everywhere(inputs, 'harness') },
    { name: BOX_EVERYWHERE, ways: everywhere(inputs, 'own box') },
  ];
  const some = selection.stations.length > 0 && selection.stations.length < inputs.stations.length;
  if (some) plans.push({ name: BOX_SOME, ways: selection.ways });
  const shared = bestSharing(inputs, selection.budget, basis);
  if (shared) plans.push({ name: BOX_SHARED, ways: shared });
  for (const connection of inputs.connections)
    plans.push(...connectionPlans(inputs, connection, selection.budget, basis));
  return plans;
}

/** Up to so many machines every set of them is tried; of more, single changes from all and from none. */
const MOST_SETS_OF = 8;

/** A named connection on every machine, and on the machines where it is worth most. */
function connectionPlans(
  inputs: CaseInputs,
  connection: string,
  budget: number | null,
  basis: TaxBasis,
): NamedPlan[] {
  const own: Way = `connection ${connection}`;
  const all = everywhere(inputs, own);
  const none = everywhere(inputs, 'harness');
  const values = (sets: readonly (readonly Way[])[]) =>
    incrementValues(inputs, sets, basis).map((value, k) =>
      isWithinBudget(inputs, sets[k]!, budget) ? value : Number.NEGATIVE_INFINITY,
    );
  const count = inputs.stations.length;
  const sets =
    count <= MOST_SETS_OF
      ? Array.from({ length: 2 ** count }, (_, bits) =>
          all.map((way, k): Way => (bits & (1 << k) ? way : 'harness')),
        )
      : [none, all].map((start) => bySingleChanges(start, own, values));
  const best = mostWorth(sets, values(sets));
  const some = best.includes(own) && best.includes('harness');
  return [
    { name: connectionPlanName(connection, true), ways: all },
    ...(some ? [{ name: connectionPlanName(connection, false), ways: best }] : []),
  ];
}

function mostWorth(sets: readonly Way[][], values: readonly number[]): Way[] {
  const most = values.reduce((best, value, k) => (value > values[best]! ? k : best), 0);
  return sets[most]!;
}

/** Puts it on one machine more or takes it off one while that is worth more. */
function bySingleChanges(
  start: readonly Way[],
  own: Way,
  values: (sets: readonly (readonly Way[])[]) => readonly number[],
): Way[] {
  let best = [...start];
  for (;;) {
    // Itself first: an equal one changes nothing.
    const sets = [
      best,
      ...best.map((_, k) => best.map((way, j): Way => (j !== k ? way : way === own ? 'harness' : own))),
    ];
    const next = mostWorth(sets, values(sets));
    if (next === best) return best;
    best = next;
  }
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
  }).filter((ways) => isWithinBudget(inputs, ways, budget));
  const best = candidates.reduce<{ ways: Way[]; value: number } | null>((most, ways) => {
    const value = incrementValue(inputs, ways, basis);
    return most && most.value >= value ? most : { ways, value };
  }, null);
  return best?.ways ?? null;
}

export function isWithinBudget(inputs: CaseInputs, ways: readonly Way[], budget: number | null): boolean {
  return budget === null || ways.every((way) => way === 'harness') || spending(inputs, ways) <= budget + 1e-9;
}

/** The plan that is worth most within the budget; of equals the first, so that nothing is bought without need. */
export function bestPlan(inputs: CaseInputs, basis: TaxBasis): NamedPlan {
  const budget = inputs.numbers.budget ?? null;
  const plans = plansCompared(inputs, selectStations(inputs, budget, basis), basis);
  const values = planValues(inputs, plans, basis);
  return plans.reduce((best, plan, k) => {
    const value = values[k] ?? Number.NEGATIVE_INFINITY;
    return value > values[plans.indexOf(best)]! ? plan : best;
  });
}

/** Value of each plan against moving the harness; null where it is beyond the budget. */
export function planValues(
  inputs: CaseInputs,
  plans: readonly NamedPlan[],
  basis: TaxBasis,
): (number | null)[] {
  const budget = inputs.numbers.budget ?? null;
  const values = incrementValues(
    inputs,
    plans.map((plan) => plan.ways),
    basis,
  );
  return values.map((value, k) => (isWithinBudget(inputs, plans[k]!.ways, budget) ? value : null));
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
  const rate = (basis: TaxBasis) => discountRate(inputs, basis);
  return {
    name,
    capital: plan.capital,
    annualCost: plan.running.reduce((sum, cost) => sum + cost, 0) / plan.running.length,
    ...worth(rate('before tax'), plan.flows),
    boxes: plan.boxes,
    ways: Object.fromEntries(inputs.stations.map(({ station }, k) => [station, ways[k]!])),
    stations: inputs.stations.filter((_, k) => ways[k] !== 'harness').map((s) => s.station),
    afterTax: plan.flowsAfterTax ? worth(rate('after tax'), plan.flowsAfterTax) : null,
    withinBudget: isWithinBudget(inputs, ways, budget),
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
