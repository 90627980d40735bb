/** The cost case: boxes that stay on the machines against one harness that is moved. */

import { amountText } from '../model/amount-text.js';
import type { Cell, CostItem } from '../model/cell.js';
import { costItemFormat, itemsOf } from '../model/cost-items.js';
import { costNumber, costWord, currencyOf } from '../model/cost-value.js';
import { BOX_EVERYWHERE, HARNESS } from '../model/plan-words.js';
import { alternativeResult, bestPlan, plansCompared, planValues } from './alternatives.js';
import { auditOf } from './audit/audit.js';
import { benefitOf } from './benefit.js';
import { type BreakEven, breakEvenStation, breakEvenTotal, plannedCount } from './break-even.js';
import { type CaseInputs, num, type TaxBasis } from './case-inputs.js';
import { caseItems } from './case-items.js';
import { missingItems, wrongValues } from './case-problems.js';
import { caseAssumptions, caseWarnings, countedAsZero, selectionWarnings } from './case-remarks.js';
import { cumulativeCost } from './cumulative-cost.js';
import { discountKind, discountRate } from './discount-rate.js';
import { choiceTurns, nearestTurn } from './doubt/choice-turns.js';
import type { RankCorrelation } from './doubt/correlation.js';
import { drawnItems } from './doubt/ranged-items.js';
import { type Risk, risks } from './doubt/risk.js';
import { scenarios } from './doubt/scenarios.js';
import { tornado } from './doubt/tornado.js';
import { incrementalAnalysis } from './finance/incremental-analysis.js';
import { everywhere, flowsOn, incrementValue, incrementValues } from './increment-value.js';
import { type NamedPlan, planFlows, type Way } from './plan-flows.js';
import { readCase } from './read-case.js';
import { recommendationText, tooLittleText } from './recommend.js';
import type {
  BreakEvenOfChoice,
  CaseFigures,
  CostCaseFound,
  CostCaseOutcome,
  CostCaseWrong,
} from './result.js';
import { selectStations } from './select-stations.js';
import type { StandingFacts } from './standing/standing-facts.js';
import { standingResult, standingWarnings } from './standing/standing-result.js';
import { stationResult } from './station-result.js';

export interface CostCaseOptions {
  /** Changeovers in the horizon, over all machines in the table's proportions; 0 or more. */
  readonly changeovers?: number;
  /** Risk trials; 10,000 when not given. */
  readonly trials?: number;
  /** Seed of the risk trials; 1 when not given. */
  readonly seed?: number;
  /** Cost items that take these values in place of the table's, such as { tax_pct: 21 }. */
  readonly items?: Readonly<Record<string, number>>;
  /** Items that move together in the risk trials; all others are independent. */
  readonly correlations?: readonly RankCorrelation[];
  /** Work out at which values of each input the choice changes, most of the work; default true. */
  readonly turns?: boolean;
}

/**
 * Works out the cost case of a cell.
 *
 * @param cell the tables changeovers, signals, costs and parts count
 * @param facts what an hour of each machine is worth by the schedule (`standingHours`); null = not scheduled
 * @returns the case; or which items are missing; or which values are wrong. Nothing is invented.
 * @throws RangeError where an option is outside its range
 */
export function costCase(
  cell: Cell,
  facts: StandingFacts | null,
  options: CostCaseOptions = {},
): CostCaseOutcome {
  const asked = withItems(cell, options);
  const complaints = [...wrongValues(asked), ...proportionComplaints(asked, options)];
  const missing = missingItems(asked, facts);
  if (complaints.length > 0) {
    const texts = complaints.map((complaint) => complaint.text).join('; ');
    return { status: 'wrong', complaints, missing, recommendation: `No cost case can be made: ${texts}.` };
  }
  if (missing.length > 0)
    return { status: 'too little data', missing, recommendation: tooLittleText(missing) };
  return compute(asked, facts, options);
}

function withItems(cell: Cell, options: CostCaseOptions): Cell {
  const { changeovers, items = {} } = options;
  if (changeovers !== undefined && !(Number.isFinite(changeovers) && changeovers >= 0))
    throw new RangeError(`the number of changeovers is ${changeovers}: it must be 0 or more`);
  const names = Object.keys(items);
  const unknown = names.find((name) => costItemFormat(name)?.kind !== 'number');
  if (unknown !== undefined) throw new RangeError(`there is no numeric cost item \`${unknown}\``);
  const typed = names.map(
    (item): CostItem => ({
      item,
      value: items[item]!,
      low: null,
      high: null,
      unit: '',
      source: 'command line',
      at: { file: 'command line', line: 1 },
    }),
  );
  return { ...cell, costs: [...cell.costs.filter((row) => !names.includes(row.item)), ...typed] };
}

function proportionComplaints(cell: Cell, options: CostCaseOptions): CostCaseWrong['complaints'] {
  const wanted = options.changeovers ?? 0;
  if (wanted === 0 || cell.changeovers.length === 0) return [];
  if (cell.changeovers.some((row) => row.perYear > 0)) return [];
  return [
    {
      code: 'CASE005',
      severity: 'error',
      file: 'changeovers.csv',
      line: null,
      column: 'per_year',
      text: `${wanted} changeovers are asked for, but per_year is 0 for every machine, so there are no proportions to share them out by`,
      excerpt: null,
      help: 'Give each machine a per_year; only their proportions count.',
    },
  ];
}

function compute(cell: Cell, facts: StandingFacts | null, options: CostCaseOptions): CostCaseFound {
  const inputs = readCase(cell, facts, options.changeovers ?? null);
  const basis: TaxBasis = num(inputs, 'tax_pct') > 0 ? 'after tax' : 'before tax';
  const { ways, ...shown } = selectStations(inputs, costNumber(cell.costs, 'budget'), basis);
  const plans = plansCompared(inputs, { ...shown, ways }, basis);
  const alternatives = plans.map((plan) => alternativeResult(inputs, plan, shown.budget));
  const { increment, incrementAfterTax } = alternatives[1]!;
  const byStation = inputs.stations.map((_, k) => stationResult(inputs, k));
  const reach = plans.filter((_, k) => alternatives[k]!.withinBudget);
  const comparison = compare(inputs, reach, basis);
  const choice = plans.find((plan) => plan.name === comparison.best)!;
  const breakEven = breakEvens(inputs, choice, basis);
  const boxes = everywhere(inputs, 'own box');
  const items = drawnItems(cell.costs, options.changeovers !== undefined);
  const worthOf = (ways: readonly Way[]) => (at: CaseInputs) => incrementValue(at, ways, basis);
  const trials = {
    trials: options.trials ?? 10_000,
    seed: options.seed ?? 1,
    distribution:
      costWord(cell.costs, 'risk_distribution') === 'triangular'
        ? ('triangular' as const)
        : ('pert' as const),
    correlations: options.correlations ?? [],
  };
  const ownRisk = ![HARNESS, BOX_EVERYWHERE].includes(choice.name);
  const watched = ownRisk ? [boxes, choice.ways] : [boxes];
  const [risked, riskOfChoice = null] = risks(
    inputs,
    items,
    (at) => incrementValues(at, watched, basis),
    trials,
  ) as [Risk, Risk?];
  const bars = tornado(inputs, items, worthOf(boxes));
  const ownBars = ownRisk ? tornado(inputs, items, worthOf(choice.ways)) : null;
  const turns =
    options.turns === false || plannedCount(inputs) === 0
      ? []
      : choiceTurns(
          inputs,
          {
            planned: choice,
            best: (at) => bestPlan(at, basis),
            values: (at, of) => planValues(at, of, basis),
          },
          itemsOf(cell.costs),
        );
  const planned = plannedCount(inputs);
  const machines = byStation.map((s) => ({
    station: s.station,
    worth: (basis === 'after tax' ? s.npvAfterTax : null) ?? s.npv,
    capital: s.capital,
  }));
  const standing = standingResult(inputs, facts?.floor ?? null, choice.ways, basis, cell.parts);
  const currency = currencyOf(cell);
  const found: CaseFigures = {
    status: 'found',
    currency,
    horizonYears: num(inputs, 'horizon_years'),
    discountPct: num(inputs, 'discount_pct'),
    discount: {
      beforeTaxPct: ratePct(inputs, 'before tax'),
      afterTaxPct: basis === 'after tax' ? ratePct(inputs, 'after tax') : null,
      kind: discountKind(inputs),
    },
    taxPct: num(inputs, 'tax_pct'),
    plannedChangeovers: planned,
    alternatives,
    increment: increment!,
    incrementAfterTax,
    breakEvenChangeovers: breakEven,
    byStation,
    sharedNpv: increment!.npv - byStation.reduce((sum, station) => sum + station.npv, 0),
    selection: shown,
    comparison,
    standing,
    countedAsZero: countedAsZero(inputs),
    benefit: benefitOf(inputs, choice.name === HARNESS ? boxes : choice.ways, basis),
    tornado: bars,
    turns,
    nearestTurn: nearestTurn(turns),
    risk: risked,
    riskOfChoice,
    basis,
    tornadoOfChoice: ownBars,
    scenarios: scenarios(inputs, ownBars === null ? boxes : choice.ways, basis, ownBars ?? bars),
    cumulativeCost: cumulativeCost(
      inputs,
      breakEven.total,
      'before tax',
      ownRisk ? { ways: choice.ways, crossing: breakEven.ofChoice?.total ?? null } : null,
    ),
    decision: planned === 0 ? 'do nothing' : choice.name,
  };
  const increments = [increment, incrementAfterTax].filter((each) => each !== null);
  return {
    ...found,
    recommendation: recommendationText(found),
    costItems: caseItems(cell, inputs),
    audit: auditOf(cell, inputs, plans, found),
    assumptions: caseAssumptions(cell, inputs, facts, options.changeovers ?? null),
    warnings: [
      ...caseWarnings(cell, inputs, facts, increments),
      ...standingWarnings(standing, (money) => amountText(money, currency)),
      ...selectionWarnings(shown, machines, currency),
    ],
  };
}

/** Rounded to what a reader takes in: a rate that tax or prices change has no end of digits. */
function ratePct(inputs: CaseInputs, basis: TaxBasis): number {
  return Number((100 * discountRate(inputs, basis)).toFixed(6));
}

function breakEvens(
  inputs: CaseInputs,
  choice: NamedPlan,
  basis: TaxBasis,
): CostCaseFound['breakEvenChangeovers'] {
  const total = breakEvenTotal(inputs, 'before tax');
  const taxed = basis === 'after tax' ? breakEvenTotal(inputs, 'after tax') : null;
  const stations = inputs.stations.map((station, k): readonly [string, BreakEven] => [
    station.station,
    breakEvenStation(inputs, k, 'before tax'),
  ]);
  return {
    total: total.changeovers,
    byStation: Object.fromEntries(stations.map(([name, even]) => [name, even.changeovers])),
    atJump: [
      ...(total.atJump ? ['total'] : []),
      ...(taxed?.atJump ? ['total after tax'] : []),
      ...stations.flatMap(([name, even]) => (even.atJump ? [name] : [])),
    ],
    totalAfterTax: taxed?.changeovers ?? null,
    ofChoice:
      choice.name === HARNESS || choice.name === BOX_EVERYWHERE ? null : ofChoice(inputs, choice, basis),
    meaning:
      'changeovers over the horizon, spread evenly over its years, at which boxes and harness have the same present value before tax; of one machine: equipped alone, the others as planned; where connectors fall due the value jumps, and the count of the jump is given',
  };
}

function ofChoice(inputs: CaseInputs, { name, ways }: NamedPlan, basis: TaxBasis): BreakEvenOfChoice {
  const before = breakEvenTotal(inputs, 'before tax', ways);
  const after = basis === 'after tax' ? breakEvenTotal(inputs, 'after tax', ways) : null;
  return {
    name,
    total: before.changeovers,
    totalAfterTax: after?.changeovers ?? null,
    atJump: [...(before.atJump ? ['total'] : []), ...(after?.atJump ? ['total after tax'] : [])],
  };
}

function compare(
  inputs: CaseInputs,
  plans: readonly NamedPlan[],
  basis: TaxBasis,
): CostCaseFound['comparison'] {
  const rows = plans.map(({ name, ways }) => ({ name, flows: flowsOn(basis, planFlows(inputs, ways)) }));
  const { best, challenges } = incrementalAnalysis(rows, discountRate(inputs, basis));
  return {
    best,
    challenges: challenges.map(({ challenger, defender, npv, rates, winner }) => ({
      challenger,
      defender,
      npv,
      irrAll: rates.map((rate) => 100 * rate),
      winner,
    })),
  };
}
