/**
 * Which machines to equip with boxes under a budget: a 0-1 program, settled exactly by branch and bound, with connector
 * wear, price breaks and the harness that is saved only when every machine is equipped.
 */
import { bestZeroOne } from './best-zero-one.js';
import { type CaseInputs, num, type TaxBasis, withNumbers } from './case-inputs.js';
import { discountRate } from './discount-rate.js';
import { everywhere, incrementValue } from './increment-value.js';
import { learningFactor } from './learning-factor.js';
import {
  contingencyFactor,
  installCost,
  planFlows,
  priceShare,
  stationBoxes,
  type Way,
  yearlyCount,
} from './plan-flows.js';
import type { SelectionResult } from './result.js';

export interface Selection extends SelectionResult {
  readonly ways: readonly Way[];
}

/** Nodes of the search; beyond it the best so far is given with its bound. */
const MOST_NODES = 100_000;

/**
 * @param inputs the case's numbers
 * @param budget most money for boxes and their installation; null = no limit
 * @param basis before or after tax
 */
export function selectStations(inputs: CaseInputs, budget: number | null, basis: TaxBasis): Selection {
  const parts = additiveParts(inputs, basis);
  const { chosen, value, proven, bound } = bestZeroOne({
    values: parts.most,
    rows: budget === null ? [] : [{ weights: parts.leastCapital, limit: budget }],
    worth: (some) =>
      budget !== null && some.includes(true) && boxCapital(inputs, some) > budget + 1e-9
        ? null
        : incrementValue(inputs, waysOf(some), basis),
    bonus: (partial) => bonus(inputs, parts, partial) + parts.movesSaved(partial),
    // Nothing is always within the budget, so there is a choice.
    start: inputs.stations.map(() => false),
    nodeLimit: MOST_NODES,
  })!;
  const ways = waysOf(chosen);
  return {
    budget,
    stations: inputs.stations.filter((_, k) => chosen[k]).map((s) => s.station),
    boxes: planFlows(inputs, ways).boxes,
    capital: boxCapital(inputs, chosen),
    npv: value,
    proven,
    bound,
    ways,
  };
}

function waysOf(chosen: readonly boolean[]): Way[] {
  return chosen.map((own) => (own ? 'own box' : 'harness'));
}

/** Money for boxes and their installation, without the harness. */
function boxCapital(inputs: CaseInputs, chosen: readonly boolean[]): number {
  return planFlows(withNumbers(inputs, { harness_price: 0 }), waysOf(chosen)).capital;
}

interface AdditiveParts {
  /** Most that the harness's resting where it is can add, which is no sum over the machines. */
  movesSaved(partial: readonly (boolean | null)[]): number;
  /** Value with the box at its lowest price. */
  readonly most: readonly number[];
  readonly leastCapital: readonly number[];
  /** Value of all wear of the harness's connectors, by which machines are still on it. */
  wearSaved(onHarness: readonly boolean[]): number;
  readonly harnessSaved: number;
}

/** Splits the value into what adds up over the machines and what does not. */
function additiveParts(inputs: CaseInputs, basis: TaxBasis): AdditiveParts {
  // Fitting is cheapest by the piece when every machine is equipped: the hours at that factor bound all choices.
  const practice = learningFactor(inputs.stations.length, num(inputs, 'install_learning_pct') / 100);
  const bare = {
    connector_price: 0,
    box_plug_price: 0,
    harness_price: 0,
    engineering_price: 0,
    risk_assessment_price: 0,
    box_price: 0,
    install_learning_pct: 100,
    install_per_h: num(inputs, 'install_per_h') * practice,
    // Moved at every changeover: so the machines add up.
    harness_elsewhere_per_year: ALWAYS_ELSEWHERE,
  };
  const plainCase: CaseInputs = { ...withNumbers(inputs, bare), priceBreaks: [] };
  const only = (k: number): Way[] => inputs.stations.map((_, j) => (j === k ? 'own box' : 'harness'));
  const boxes = inputs.stations.map((station) => stationBoxes(inputs, station));
  // Value of each machine's box apart from box price, wear and harness.
  const plain = inputs.stations.map((_, k) => incrementValue(plainCase, only(k), basis));
  // Change of value for one money of the quoted price of a box.
  const priced = withNumbers(plainCase, { box_price: 1 });
  const priceFactor =
    inputs.stations.length === 0 ? 1 : (plain[0]! - incrementValue(priced, only(0), basis)) / boxes[0]!;
  const each = Math.min(num(inputs, 'box_price'), ...inputs.priceBreaks.map((step) => step.each));
  const leastPrice = each * priceShare(inputs);
  const moved = withNumbers(plainCase, {
    harness_elsewhere_per_year: num(inputs, 'harness_elsewhere_per_year'),
  });
  const wearCase = withNumbers(moved, { connector_price: num(inputs, 'connector_price') });
  const noWear = (ways: Way[]) => incrementValue(moved, ways, basis);
  const all = everywhere(inputs, 'own box');
  const harnessCase = withNumbers(moved, { harness_price: num(inputs, 'harness_price') });
  return {
    most: plain.map((value, k) => value - priceFactor * each * boxes[k]!),
    leastCapital: inputs.stations.map(
      (s, k) =>
        contingencyFactor(inputs) * (installCost(inputs, s, boxes[k]!, practice) + leastPrice * boxes[k]!),
    ),
    movesSaved: movesSaved(inputs, (ways) => noWear(ways) - incrementValue(plainCase, ways, basis)),
    wearSaved: (onHarness) => {
      const ways: Way[] = onHarness.map((on) => (on ? 'harness' : 'own box'));
      return incrementValue(wearCase, ways, basis) - noWear(ways);
    },
    harnessSaved: Math.max(0, incrementValue(harnessCase, all, basis) - noWear(all)),
  };
}

/** More often than any machine is changed over. */
const ALWAYS_ELSEWHERE = 1e12;

/**
 * The harness rests only at a machine that is changed over more often than all others on it together, which one machine
 * at most can be, and most so with no other on it. That bounds every choice.
 *
 * @param gap value of some ways less their value with the harness moved at every changeover
 */
function movesSaved(
  inputs: CaseInputs,
  gap: (ways: Way[]) => number,
): (partial: readonly (boolean | null)[]) => number {
  const elsewhere = num(inputs, 'harness_elsewhere_per_year');
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const resting = -gap(everywhere(inputs, 'own box'));
  const eachMove = counts.map((count, k) => {
    if (count <= elsewhere) return 0;
    const alone = inputs.stations.map((_, j): Way => (j === k ? 'harness' : 'own box'));
    return (gap(alone) + resting) / (count - elsewhere);
  });
  return (partial) => {
    const kept = counts.reduce((sum, count, k) => (partial[k] === false ? sum + count : sum), 0);
    const most = counts.map((count, k) => {
      if (partial[k] === true) return 0;
      const others = kept - (partial[k] === false ? count : 0) + elsewhere;
      return eachMove[k]! * Math.max(0, count - others);
    });
    return Math.max(0, ...most) - resting;
  };
}

/**
 * Most that wear and the harness can add: all undecided machines off the harness saves most connectors. That holds
 * while money later is worth no more than money now; otherwise all wear counts as saved.
 */
function bonus(inputs: CaseInputs, parts: AdditiveParts, partial: readonly (boolean | null)[]): number {
  const harness = partial.includes(false) ? 0 : parts.harnessSaved;
  if (num(inputs, 'connector_price') === 0 || inputs.numbers.connector_matings == null) return harness;
  const rise = num(inputs, 'inflation_pct') / 100;
  const discounts = discountRate(inputs, 'before tax') >= rise && discountRate(inputs, 'after tax') >= rise;
  const onHarness = partial.map((decided) => discounts && decided === false);
  return harness + Math.max(0, parts.wearSaved(onHarness));
}
