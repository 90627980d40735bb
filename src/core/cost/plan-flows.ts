/**
 * Cash flows of one plan: which machines get a box of their own, which share boxes, and which are served by the one
 * harness that is moved. Purchases fall in year 0, all else at year ends, salvage in the last year.
 */
import { boxesNeeded } from '../points/boxes-needed.js';
import { boxOrderPrice } from './box-order-price.js';
import { type CaseInputs, type CaseStation, num } from './case-inputs.js';
import { boxMinutes, harnessCommonMinutes, lostPerHour, personMinute } from './changeover-minutes.js';
import { depreciation } from './finance/depreciation.js';
import { learningFactor } from './learning-factor.js';
import { setsWornOut } from './sets-worn-out.js';

/** How one machine is served. */
export type Way = 'harness' | 'own box' | 'shared box';

export interface PlanFlows {
  /** Money spent in year 0. */
  readonly capital: number;
  readonly boxes: number;
  /** Labour and lost contribution of one year, in money of year 0. */
  readonly changeoverCost: number;
  /** Yearly costs by year from 1, inflated: changeovers, upkeep, worn connectors. */
  readonly running: readonly number[];
  readonly salvage: number;
  /** Money in less money out by year from 0, before tax. */
  readonly flows: readonly number[];
  /** The same after tax; null where no tax is asked for. */
  readonly flowsAfterTax: readonly number[] | null;
}

/** Boxes that one machine needs. */
export function stationBoxes(inputs: CaseInputs, station: CaseStation): number {
  if (station.demand === null) return num(inputs, 'boxes_per_machine');
  const box = {
    inputs: num(inputs, 'box_inputs'),
    outputs: num(inputs, 'box_outputs'),
    amps: num(inputs, 'box_amps'),
  };
  return boxesNeeded(station.demand, box);
}

/** Changeovers of one machine in a year. */
export function yearlyCount(inputs: CaseInputs, station: CaseStation): number {
  return (station.perYear * num(inputs, 'changeover_count_pct')) / 100;
}

/** Cables, mounting and wiring on one machine with so many boxes; hours at `hoursFactor` of what the first takes. */
export function installCost(
  inputs: CaseInputs,
  station: CaseStation,
  boxes: number,
  hoursFactor: number,
): number {
  const wiringH = (station.signals * num(inputs, 'box_wire_min_per_signal')) / 60;
  const hours = (boxes * num(inputs, 'box_mount_h') + wiringH) * hoursFactor;
  return boxes * num(inputs, 'cable_set_price') + hours * num(inputs, 'install_per_h');
}

interface Tally {
  ownBoxes: number;
  poolBoxes: number;
  sharers: number;
  install: number;
  harnessCount: number;
  plugCount: number;
  changeoverCost: number;
}

/**
 * @param inputs the case's numbers, complete and within their ranges
 * @param ways how each machine is served, in the order of inputs.stations
 */
export function planFlows(inputs: CaseInputs, ways: readonly Way[]): PlanFlows {
  const tally = tallyOf(inputs, ways);
  const years = num(inputs, 'horizon_years');
  const boxes = tally.ownBoxes + tally.poolBoxes;
  const harnessUsed = ways.some((way) => way === 'harness') || ways.length === 0;
  const capital =
    boxOrderPrice(boxes, num(inputs, 'box_price'), inputs.priceBreaks).price +
    tally.install +
    (harnessUsed ? num(inputs, 'harness_price') : 0);
  const running = runningCosts(inputs, tally, boxes, years);
  const salvage = boxes * num(inputs, 'box_salvage') * inflation(inputs, years);
  const flows = [-capital, ...running.map((cost) => -cost)];
  flows[years] = flows[years]! + salvage;
  const flowsAfterTax = num(inputs, 'tax_pct') > 0 ? afterTax(inputs, capital, running, salvage) : null;
  return { capital, boxes, changeoverCost: tally.changeoverCost, running, salvage, flows, flowsAfterTax };
}

function tallyOf(inputs: CaseInputs, ways: readonly Way[]): Tally {
  const sharers = ways.filter((way) => way === 'shared box').length;
  const tally: Tally = {
    ownBoxes: 0,
    poolBoxes: 0,
    sharers,
    install: 0,
    harnessCount: 0,
    plugCount: 0,
    changeoverCost: 0,
  };
  const fitted = ways.filter((way) => way !== 'harness').length;
  const practice = learningFactor(fitted, num(inputs, 'install_learning_pct') / 100);
  const plugged = boxMinutes(inputs);
  const moving = harnessCommonMinutes(inputs);
  const perSignal = num(inputs, 'check_min_per_signal');
  const person = personMinute(inputs);
  inputs.stations.forEach((station, k) => {
    const way = ways[k] ?? 'harness';
    const count = yearlyCount(inputs, station);
    const cost = person * station.people + (lostPerHour(inputs, station) / 60) * station.internalShare;
    const boxes = way === 'harness' ? 0 : stationBoxes(inputs, station);
    if (way === 'own box') tally.ownBoxes += boxes;
    if (way === 'shared box') tally.poolBoxes = Math.max(tally.poolBoxes, boxes);
    if (way === 'harness') tally.harnessCount += count;
    else tally.plugCount += count;
    if (way !== 'harness') tally.install += installCost(inputs, station, boxes, practice);
    const moved = way === 'shared box' && sharers > 1 ? num(inputs, 'box_move_min') : 0;
    const minutes = way === 'harness' ? moving + station.signals * perSignal : plugged + moved;
    tally.changeoverCost += count * minutes * cost;
  });
  return tally;
}

/** By year from 1. */
function runningCosts(inputs: CaseInputs, tally: Tally, boxes: number, years: number): number[] {
  const { connector_matings: matings = null, box_plug_matings: plugMatings = null } = inputs.numbers;
  const upkeep = boxes * num(inputs, 'box_upkeep_per_year');
  const setPrice = num(inputs, 'connector_price');
  const plugPrice = num(inputs, 'box_plug_price');
  const yearly = 1 + num(inputs, 'inflation_pct') / 100;
  const costs: number[] = [];
  for (let year = 1; year <= years; year++) {
    const sets = setsWornOut(year, tally.harnessCount, matings);
    const plugs = setsWornOut(year, tally.plugCount, plugMatings);
    const real = tally.changeoverCost + upkeep + sets * setPrice + plugs * plugPrice;
    costs.push(real * yearly ** year);
  }
  return costs;
}

function inflation(inputs: CaseInputs, year: number): number {
  return (1 + num(inputs, 'inflation_pct') / 100) ** year;
}

/**
 * Running costs and depreciation lower the tax; in the last year the boxes are sold and the difference between
 * salvage and what is not yet written off is taxed or relieved. With no depreciation the purchases never touch the tax.
 */
function afterTax(
  inputs: CaseInputs,
  capital: number,
  running: readonly number[],
  salvage: number,
): number[] {
  const tax = num(inputs, 'tax_pct') / 100;
  const written = depreciation(inputs.depreciation, capital, {
    years: num(inputs, 'depreciation_years'),
    halfYear: inputs.depreciationHalfYear,
  });
  const last = running.length;
  const book = capital - written.slice(0, last).reduce((sum, amount) => sum + amount, 0);
  const onSale = inputs.depreciation === 'none' ? 0 : -tax * (salvage - book);
  const yearly = running.map((cost, k) => -cost * (1 - tax) + tax * (written[k] ?? 0));
  yearly[last - 1] = yearly[last - 1]! + salvage + onSale;
  return [-capital, ...yearly];
}
