/**
 * Cash flows of one plan: which machines get a box of their own, which share boxes, and which are served by the one
 * harness that is moved. Purchases fall in year 0, all else at year ends, salvage in the last year.
 */

import { boxesNeeded } from '../io/boxes-needed.js';
import { power } from '../numbers/functions.js';
import { boxOrderPrice } from './box-order-price.js';
import { type CaseInputs, type CaseStation, num } from './case-inputs.js';
import {
  boxMinutes,
  connectionMinutes,
  harnessCommonMinutes,
  lostPerHour,
  personMinute,
} from './changeover-minutes.js';
import { depreciation } from './finance/depreciation.js';
import { harnessMoves } from './harness-moves.js';
import { learningFactor } from './learning-factor.js';
import { setsWornOut } from './sets-worn-out.js';

/** How one machine is served. */
export type Way = 'harness' | 'own box' | 'shared box' | `connection ${string}`;

/** The named connection of a way; null for harness and boxes. */
export function connectionOf(way: Way): string | null {
  return way.startsWith('connection ') ? way.slice('connection '.length) : null;
}

/** How every machine is served, in the order of the case's machines, with the name of that. */
export interface NamedPlan {
  readonly name: string;
  readonly ways: readonly Way[];
}

export interface PlanFlows {
  /** Money spent in year 0. */
  readonly capital: number;
  /** Contribution lost in year 0 while machines stand to be fitted. */
  readonly startLoss: number;
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

/** Share of the quoted prices of boxes at which they are taken, as a factor. */
export function priceShare(inputs: CaseInputs): number {
  return num(inputs, 'box_price_pct') / 100;
}

/** Share that is added to all purchases and fitting, as a factor. */
export function contingencyFactor(inputs: CaseInputs): number {
  return 1 + num(inputs, 'contingency_pct') / 100;
}

/**
 * Cables, mounting, wiring, programming and commissioning on one machine with so many boxes, without contingency; hours
 * of mounting and wiring at `hoursFactor` of what the first takes.
 */
export function installCost(
  inputs: CaseInputs,
  station: CaseStation,
  boxes: number,
  hoursFactor: number,
): number {
  const wiringH = (station.signals * num(inputs, 'box_wire_min_per_signal')) / 60;
  const fitting = (boxes * num(inputs, 'box_mount_h') + wiringH) * hoursFactor;
  const hours = fitting + num(inputs, 'programming_h') + num(inputs, 'commissioning_h');
  return boxes * num(inputs, 'cable_set_price') + hours * num(inputs, 'install_per_h');
}

interface Tally {
  /** Bought on machines and once for named connections, with their fitting; a year's upkeep; resale. */
  connected: number;
  connectedUpkeep: number;
  connectedSalvage: number;
  /** Connections that are in use, with their matings a year. */
  matings: Map<string, number>;
  ownBoxes: number;
  poolBoxes: number;
  install: number;
  startLoss: number;
  /** A year: moves of the harness, and plugs put into boxes. */
  moves: number;
  plugs: number;
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
  const isChanged = boxes > 0 || tally.matings.size > 0;
  const once = isChanged ? num(inputs, 'engineering_price') + num(inputs, 'risk_assessment_price') : 0;
  const listed = boxOrderPrice(boxes, num(inputs, 'box_price'), inputs.priceBreaks).price;
  const order = listed * priceShare(inputs);
  const capital =
    (order + tally.install + tally.connected + once) * contingencyFactor(inputs) +
    (harnessUsed ? num(inputs, 'harness_price') : 0);
  const running = runningCosts(inputs, tally, boxes, years);
  const salvage =
    (boxes * num(inputs, 'box_salvage') + tally.connectedSalvage) *
    power(1 + num(inputs, 'inflation_pct') / 100, years);
  const { startLoss } = tally;
  const flows = [-capital - startLoss, ...running.map((cost) => -cost)];
  flows[years] = flows[years]! + salvage;
  const flowsAfterTax =
    num(inputs, 'tax_pct') > 0 ? afterTax(inputs, { capital, startLoss, running, salvage }) : null;
  return {
    capital,
    startLoss,
    boxes,
    changeoverCost: tally.changeoverCost,
    running,
    salvage,
    flows,
    flowsAfterTax,
  };
}

function tallyOf(inputs: CaseInputs, ways: readonly Way[]): Tally {
  const tally: Tally = {
    connected: 0,
    connectedUpkeep: 0,
    connectedSalvage: 0,
    matings: new Map(),
    ownBoxes: 0,
    poolBoxes: 0,
    install: 0,
    startLoss: 0,
    moves: 0,
    plugs: 0,
    changeoverCost: 0,
  };
  const fitted = ways.filter((way) => way !== 'harness').length;
  const practice = learningFactor(fitted, num(inputs, 'install_learning_pct') / 100);
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const fetched = movesFor(counts, ways, 'harness', num(inputs, 'harness_elsewhere_per_year'));
  const carried = movesFor(counts, ways, 'shared box', 0);
  const moving = harnessCommonMinutes(inputs);
  const perSignal = num(inputs, 'check_min_per_signal');
  const person = personMinute(inputs);
  inputs.stations.forEach((station, k) => {
    const way = ways[k] ?? 'harness';
    const count = counts[k]!;
    const lostPerH = lostPerHour(inputs, station);
    const cost = person * station.people + (lostPerH / 60) * station.internalShare;
    const connection = connectionOf(way);
    if (connection !== null) {
      connect(inputs, tally, station, { connection, count, cost, lostPerH, practice });
      return;
    }
    const boxes = way === 'harness' ? 0 : stationBoxes(inputs, station);
    if (way === 'own box') tally.ownBoxes += boxes;
    if (way === 'shared box') tally.poolBoxes = Math.max(tally.poolBoxes, boxes);
    if (way === 'harness') {
      tally.moves += fetched[k]!;
      tally.changeoverCost += fetched[k]! * (moving + station.signals * perSignal) * cost;
      return;
    }
    tally.plugs += count * boxes;
    tally.install += installCost(inputs, station, boxes, practice);
    tally.startLoss += num(inputs, 'box_fit_stand_h') * lostPerH;
    const carrying = way === 'shared box' ? carried[k]! * num(inputs, 'box_move_min') : 0;
    tally.changeoverCost += (count * boxMinutes(inputs, boxes) + carrying) * cost;
  });
  return tally;
}

interface Connected {
  readonly connection: string;
  /** Changeovers a year. */
  readonly count: number;
  /** Of one minute. */
  readonly cost: number;
  readonly lostPerH: number;
  readonly practice: number;
}

/** One machine with a named connection. */
function connect(
  inputs: CaseInputs,
  tally: Tally,
  station: CaseStation,
  { connection, count, cost, lostPerH, practice }: Connected,
): void {
  const n = (item: string) => num(inputs, `${connection}.${item}`);
  const used = tally.matings.get(connection);
  const wiringH = (station.signals * n('fit_min_per_signal')) / 60;
  const hours =
    (n('fit_h') + wiringH) * practice + num(inputs, 'programming_h') + num(inputs, 'commissioning_h');
  tally.connected +=
    n('price') + hours * num(inputs, 'install_per_h') + (used === undefined ? n('once_price') : 0);
  tally.startLoss += n('fit_stand_h') * lostPerH;
  tally.connectedUpkeep += n('upkeep_per_year');
  tally.connectedSalvage += n('salvage');
  tally.matings.set(connection, (used ?? 0) + count);
  tally.changeoverCost += count * connectionMinutes(inputs, station, connection) * cost;
}

/** Moves a year of the harness to each machine when it serves them all. */
export function movesEverywhere(inputs: CaseInputs): number[] {
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  return harnessMoves(counts, num(inputs, 'harness_elsewhere_per_year'));
}

/** Moves a year of what the machines of one way share; 0 for the others. */
export function movesFor(
  counts: readonly number[],
  ways: readonly Way[],
  shared: Way,
  elsewhere: number,
): number[] {
  return harnessMoves(
    counts.map((count, k) => (ways[k] === shared ? count : 0)),
    elsewhere,
  );
}

/** By year from 1. */
function runningCosts(inputs: CaseInputs, tally: Tally, boxes: number, years: number): number[] {
  const { connector_matings: matings = null, box_plug_matings: plugMatings = null } = inputs.numbers;
  const upkeep = boxes * num(inputs, 'box_upkeep_per_year') + tally.connectedUpkeep;
  const setPrice = num(inputs, 'connector_price');
  const plugPrice = num(inputs, 'box_plug_price');
  const yearly = 1 + num(inputs, 'inflation_pct') / 100;
  const costs: number[] = [];
  for (let year = 1; year <= years; year++) {
    const sets = setsWornOut(year, tally.moves, matings);
    const plugs = setsWornOut(year, tally.plugs, plugMatings);
    let real = tally.changeoverCost + upkeep + sets * setPrice + plugs * plugPrice;
    for (const [connection, matings] of tally.matings)
      real +=
        setsWornOut(year, matings, inputs.numbers[`${connection}.matings`] ?? null) *
        num(inputs, `${connection}.worn_price`);
    costs.push(real * power(yearly, year));
  }
  return costs;
}

/** By year from 1. */
export function writtenOff(inputs: CaseInputs, capital: number): number[] {
  const options = { years: num(inputs, 'depreciation_years'), halfYear: inputs.depreciationHalfYear };
  return depreciation(inputs.depreciation, capital, options);
}

/**
 * Running costs and depreciation lower the tax; in the last year the boxes are sold and the difference between
 * salvage and what is not yet written off is taxed or relieved. With no depreciation the purchases never touch the tax.
 */
function afterTax(
  inputs: CaseInputs,
  { capital, startLoss, running, salvage }: Pick<PlanFlows, 'capital' | 'startLoss' | 'running' | 'salvage'>,
): number[] {
  const tax = num(inputs, 'tax_pct') / 100;
  const written = writtenOff(inputs, capital);
  const last = running.length;
  const book = capital - written.slice(0, last).reduce((sum, amount) => sum + amount, 0);
  const onSale = inputs.depreciation === 'none' ? 0 : -tax * (salvage - book);
  const yearly = running.map((cost, k) => -cost * (1 - tax) + tax * (written[k] ?? 0));
  yearly[last - 1] = yearly[last - 1]! + salvage + onSale;
  return [-capital - startLoss * (1 - tax), ...yearly];
}
