/**
 * Which machines to equip with boxes under a budget: a 0-1 program. The plain form (each machine's value, price breaks
 * as tiers) goes to a linear-programming package for a good start; our own branch and bound then settles it exactly,
 * with connector wear, price breaks and the harness that is saved only when every machine is equipped.
 */
import { type LinearProgram, type LinearRow, solveLinearProgram } from '../lp/solve-linear-program.js';
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

export interface Selection {
  /** null = no limit. */
  readonly budget: number | null;
  readonly stations: readonly string[];
  readonly boxes: number;
  readonly capital: number;
  /** Worth of equipping these machines against moving the harness everywhere. */
  readonly npv: number;
  readonly proven: boolean;
  /** No selection within the budget is worth more. */
  readonly bound: number;
  /** What the linear-programming package made of the plain form. */
  readonly secondSolver: 'agrees' | 'found less' | 'gave no answer';
  readonly ways: readonly Way[];
}

/**
 * @param inputs the case's numbers
 * @param budget most money for boxes and their installation; null = no limit
 * @param basis before or after tax
 * @param nodeLimit most nodes of the exact search; beyond it the best so far is given with its bound
 */
export function selectStations(
  inputs: CaseInputs,
  budget: number | null,
  basis: TaxBasis,
  nodeLimit = 100_000,
): Selection {
  const candidate = packageCandidate(inputs, budget, additiveParts(inputs, basis));
  const selection = exactSelection(inputs, budget, basis, { nodeLimit, candidate });
  const worth = worthOf(inputs, budget, basis);
  return { ...selection, secondSolver: judge(candidate, worth, selection.npv) };
}

interface ExactOptions {
  readonly nodeLimit?: number;
  /** A choice to start from. */
  readonly candidate?: readonly boolean[] | null;
}

/** The branch and bound alone. */
export function exactSelection(
  inputs: CaseInputs,
  budget: number | null,
  basis: TaxBasis,
  { nodeLimit = 100_000, candidate = null }: ExactOptions = {},
): Omit<Selection, 'secondSolver'> {
  const parts = additiveParts(inputs, basis);
  const worth = worthOf(inputs, budget, basis);
  const limit = budget ?? Number.POSITIVE_INFINITY;
  const found = bestZeroOne({
    values: parts.most,
    rows: budget === null ? [] : [{ weights: parts.leastCapital, limit }],
    worth,
    bonus: (partial) => bonus(inputs, parts, partial) + parts.movesSaved(partial),
    start: startOf(candidate, worth, inputs.stations.length),
    nodeLimit,
  });
  const chosen = found?.chosen ?? inputs.stations.map(() => false);
  const npv = found?.value ?? 0;
  return {
    budget,
    stations: inputs.stations.filter((_, k) => chosen[k]).map((s) => s.station),
    boxes: planFlows(inputs, waysOf(chosen)).boxes,
    capital: boxCapital(inputs, chosen),
    npv,
    proven: found?.proven ?? true,
    bound: found?.bound ?? 0,
    ways: waysOf(chosen),
  };
}

function worthOf(inputs: CaseInputs, budget: number | null, basis: TaxBasis): Worth {
  return (chosen) => {
    if (budget !== null && chosen.includes(true) && boxCapital(inputs, chosen) > budget + 1e-9) return null;
    return incrementValue(inputs, waysOf(chosen), basis);
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
  readonly boxes: readonly number[];
  /** Value of each machine's box apart from box price, wear and harness. */
  readonly plain: readonly number[];
  /** Change of value for one money of the quoted price of a box. */
  readonly priceFactor: number;
  /** Most that the harness's resting where it is can add, which is no sum over the machines. */
  movesSaved(partial: readonly (boolean | null)[]): number;
  /** Value with the box at its lowest price. */
  readonly most: readonly number[];
  readonly leastCapital: readonly number[];
  /** Value of all wear of the harness's connectors, by which machines are still on it. */
  wearSaved(onHarness: readonly boolean[]): number;
  readonly harnessSaved: number;
  /** Least share of the first machine's fitting hours that any machine can take. */
  readonly practice: number;
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
  const plain = inputs.stations.map((_, k) => incrementValue(plainCase, only(k), basis));
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
    boxes,
    plain,
    priceFactor,
    most: plain.map((value, k) => value - priceFactor * each * boxes[k]!),
    leastCapital: inputs.stations.map(
      (s, k) =>
        contingencyFactor(inputs) * (installCost(inputs, s, boxes[k]!, practice) + leastPrice * boxes[k]!),
    ),
    practice,
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

/** The plain form: machines as 0-1 variables, one tier of box prices, wear shared out by counts. */
function packageCandidate(inputs: CaseInputs, budget: number | null, parts: AdditiveParts): boolean[] | null {
  if (inputs.stations.length === 0) return [];
  const program = plainProgram(inputs, budget, parts);
  const answer = solveLinearProgram(program);
  if (answer.status !== 'optimal') return null;
  return inputs.stations.map((_, k) => (answer.at[`x${k}`] ?? 0) > 0.5);
}

function plainProgram(inputs: CaseInputs, budget: number | null, parts: AdditiveParts): LinearProgram {
  const tiers = [{ from: 0, each: num(inputs, 'box_price') }, ...inputs.priceBreaks];
  const total = parts.boxes.reduce((sum, boxes) => sum + boxes, 0);
  const most = Math.max(total, ...tiers.map((tier) => tier.from));
  const counts = inputs.stations.map((station) => station.perYear);
  const allCounts = counts.reduce((sum, count) => sum + count, 0) || 1;
  const wear = parts.wearSaved(inputs.stations.map(() => false));
  const objective: Record<string, number> = {};
  const install: Record<string, number> = {};
  const factor = contingencyFactor(inputs);
  const share = priceShare(inputs);
  const need: Record<string, number> = {};
  inputs.stations.forEach((station, k) => {
    objective[`x${k}`] = parts.plain[k]! + (wear * counts[k]!) / allCounts;
    install[`x${k}`] = factor * installCost(inputs, station, parts.boxes[k]!, parts.practice);
    need[`x${k}`] = -parts.boxes[k]!;
  });
  const rows: LinearRow[] = inputs.stations.map((_, k) => ({
    name: `x${k}`,
    terms: { [`x${k}`]: 1 },
    most: 1,
  }));
  tiers.forEach((tier, t) => {
    objective[`o${t}`] = -parts.priceFactor * tier.each;
    install[`o${t}`] = factor * share * tier.each;
    need[`o${t}`] = 1;
    rows.push({ name: `least ${t}`, terms: { [`o${t}`]: 1, [`t${t}`]: -tier.from }, least: 0 });
    rows.push({ name: `most ${t}`, terms: { [`o${t}`]: 1, [`t${t}`]: -most }, most: 0 });
  });
  rows.push({ name: 'tiers', terms: Object.fromEntries(tiers.map((_, t) => [`t${t}`, 1])), most: 1 });
  rows.push({ name: 'boxes', terms: need, least: 0 });
  if (budget !== null) rows.push({ name: 'budget', terms: install, most: budget });
  const harness: Record<string, number> = { z: -inputs.stations.length };
  inputs.stations.forEach((_, k) => {
    harness[`x${k}`] = 1;
  });
  objective.z = parts.harnessSaved;
  rows.push({ name: 'z', terms: { z: 1 }, most: 1 }, { name: 'harness', terms: harness, least: 0 });
  const whole = [...inputs.stations.map((_, k) => `x${k}`), ...tiers.map((_, t) => `t${t}`), 'z'];
  return { sense: 'most', objective, rows, whole };
}

type Worth = (chosen: readonly boolean[]) => number | null;

function startOf(candidate: readonly boolean[] | null, worth: Worth, count: number): readonly boolean[] {
  const nothing = Array.from({ length: count }, () => false);
  return candidate && worth(candidate) !== null ? candidate : nothing;
}

function judge(candidate: readonly boolean[] | null, worth: Worth, npv: number): Selection['secondSolver'] {
  const value = candidate ? worth(candidate) : null;
  if (value === null) return 'gave no answer';
  return value >= npv - 1e-6 * Math.max(1, Math.abs(npv)) ? 'agrees' : 'found less';
}
