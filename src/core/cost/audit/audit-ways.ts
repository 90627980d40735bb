/** Where the figures of each way come from, year by year. */
import { type CaseInputs, num } from '../case-inputs.js';
import { depreciation } from '../finance/depreciation.js';
import { learningFactor } from '../learning-factor.js';
import { movesFor, planFlows, type Way, yearlyCount } from '../plan-flows.js';
import type { AlternativeResult } from '../result.js';
import { setsWornOut } from '../sets-worn-out.js';
import { type AuditedCase, discountFormula, modelInput, plusPct } from './audit-inputs.js';
import { fittingFormula } from './audit-stations.js';
import { type Formula, formula, joined, sumOf } from './formula.js';
import { orderPriceEntry } from './order-price-entry.js';

export interface AuditedWay extends AuditedCase {
  readonly result: AlternativeResult;
  readonly ways: readonly Way[];
}

export function wayEntries(at: AuditedWay): void {
  capitalEntries(at);
  yearEntries(at);
  if (at.result.afterTax !== null) taxEntries(at);
  worthEntries(at);
}

const served = ({ inputs, ways }: AuditedWay, way: Way) => inputs.stations.filter((_, k) => ways[k] === way);
const fitted = ({ inputs, ways }: AuditedWay) => inputs.stations.filter((_, k) => ways[k] !== 'harness');

function capitalEntries(at: AuditedWay): void {
  const { inputs, result, ways, item, trail } = at;
  const { name } = result;
  const boxesOf = (way: Way) => served(at, way).map((s) => trail.figure(`${s.station}: boxes`));
  const shared = boxesOf('shared box');
  const pool = shared.length === 0 ? [] : [formula`max(0, ${joined(shared, ', ')})`];
  trail.add(`${name}: boxes`, result.boxes, sumOf([...boxesOf('own box'), ...pool]));
  const machines = fitted(at);
  const rate = num(inputs, 'install_learning_pct') / 100;
  const practice = trail.add(
    `${name}: hours of fitting a machine against the first one`,
    learningFactor(machines.length, rate),
    formula`max(1, ${machines.length}) ^ log2(${item('install_learning_pct')} / 100)`,
  );
  const fit = machines.map((station) => fittingFormula(at, station, practice));
  const once = result.boxes > 0 ? [item('engineering_price'), item('risk_assessment_price')] : [];
  const order = result.boxes > 0 ? [orderPriceEntry(at, result.boxes)] : [];
  const keeps = ways.includes('harness') || ways.length === 0 ? [item('harness_price')] : [];
  const bought = formula`(${sumOf([...order, ...fit, ...once])}) x ${plusPct(item('contingency_pct'))}`;
  trail.add(`${name}: capital`, result.capital, sumOf([bought, ...keeps]));
  const lost = machines.map((s) => trail.figure(`${s.station}: contribution lost per hour of downtime`));
  trail.add(
    `${name}: lost while boxes are fitted`,
    planFlows(inputs, ways).startLoss,
    formula`${item('box_fit_stand_h')} x (${sumOf(lost)})`,
  );
}

/** Moves a year to each machine of one way. */
function moveEntries(at: AuditedWay, way: Way, what: string): Map<string, Formula> {
  const { inputs, result, ways, item, trail } = at;
  const elsewhere = way === 'harness' ? [item('harness_elsewhere_per_year')] : [];
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const moves = movesFor(
    counts,
    ways,
    way,
    way === 'harness' ? num(inputs, 'harness_elsewhere_per_year') : 0,
  );
  const sharers = served(at, way);
  return new Map(
    sharers.map((station) => {
      const others = sharers
        .filter((other) => other !== station)
        .map((other) => trail.figure(`${other.station}: changeovers per year`));
      const count = trail.figure(`${station.station}: changeovers per year`);
      const entry = trail.add(
        `${result.name}: ${what} to ${station.station} per year`,
        moves[inputs.stations.indexOf(station)]!,
        formula`min(${count}, ${sumOf([...others, ...elsewhere])})`,
      );
      return [station.station, entry];
    }),
  );
}

function yearEntries(at: AuditedWay): void {
  const { inputs, result, ways, item, trail } = at;
  const { name } = result;
  const plan = planFlows(inputs, ways);
  const moves = moveEntries(at, 'harness', 'moves of the harness');
  const carried = moveEntries(at, 'shared box', 'moves of the shared boxes');
  const work = inputs.stations.map((station) => {
    const figure = (what: string) => trail.figure(`${station.station}: ${what}`);
    const cost = figure('cost of a minute');
    const moved = moves.get(station.station);
    if (moved !== undefined) return formula`${moved} x ${figure('minutes of moving the harness')} x ${cost}`;
    const plugged = formula`${figure('changeovers per year')} x ${figure('minutes with a box')} x ${cost}`;
    const carrying = carried.get(station.station);
    return carrying === undefined
      ? plugged
      : formula`${plugged} + ${carrying} x ${item('box_move_min')} x ${cost}`;
  });
  const changeovers = trail.add(`${name}: changeovers of a year`, plan.changeoverCost, sumOf(work));
  const plugs = trail.add(
    `${name}: plugs put into boxes per year`,
    fitted(at).reduce(
      (sum, s) => sum + yearlyCount(inputs, s) * Number(trail.figure(`${s.station}: boxes`).inputs[0]!.value),
      0,
    ),
    sumOf(
      fitted(at).map(
        (s) =>
          formula`${trail.figure(`${s.station}: changeovers per year`)} x ${trail.figure(`${s.station}: boxes`)}`,
      ),
    ),
  );
  const moved = trail.add(
    `${name}: moves of the harness per year`,
    [...moves.values()].reduce((sum, entry) => sum + Number(entry.inputs[0]!.value), 0),
    sumOf([...moves.values()]),
  );
  const upkeep = formula`${trail.figure(`${name}: boxes`)} x ${item('box_upkeep_per_year')}`;
  plan.running.forEach((running, k) => {
    const year = k + 1;
    const worn = [...wearEntry(at, year, moved, 'connector'), ...wearEntry(at, year, plugs, 'box_plug')];
    trail.add(
      `${name}: running cost of year ${year}`,
      running,
      formula`(${sumOf([changeovers, upkeep, ...worn])}) x ${plusPct(item('inflation_pct'))} ^ ${year}`,
    );
  });
  const years = plan.running.length;
  trail.add(
    `${name}: mean running cost of a year`,
    result.annualCost,
    formula`sum(${trail.years(`${name}: running cost`, 1, years)}, y = 1 to ${item('horizon_years')}) / ${item('horizon_years')}`,
  );
  const start = formula`0 - ${trail.figure(`${name}: capital`)} - ${trail.figure(`${name}: lost while boxes are fitted`)}`;
  trail.add(`${name}: cash flow of year 0`, result.cashFlow[0]!, start);
  for (let year = 1; year <= years; year++) {
    const cost = trail.figure(`${name}: running cost of year ${year}`);
    trail.add(
      `${name}: cash flow of year ${year}`,
      result.cashFlow[year]!,
      year < years ? formula`0 - ${cost}` : formula`0 - ${cost} + ${salvage(at)}`,
    );
  }
}

function salvage({ result, item, trail }: AuditedWay): Formula {
  return formula`${trail.figure(`${result.name}: boxes`)} x ${item('box_salvage')} x ${plusPct(item('inflation_pct'))} ^ ${item('horizon_years')}`;
}

/** Sets of connectors or plugs bought in a year; nothing where none is rated. */
function wearEntry(at: AuditedWay, year: number, events: Formula, item: 'connector' | 'box_plug'): Formula[] {
  const { inputs, result, trail } = at;
  const matings = inputs.numbers[`${item}_matings`] ?? null;
  if (matings === null) return [];
  const perYear = Number(events.inputs[0]!.value);
  const rated = at.item(`${item}_matings`);
  const bought = (by: number) => formula`max(0, roundup(${by} x ${events} / ${rated}) - 1)`;
  const what = item === 'connector' ? 'connector sets' : 'plugs';
  const entry = trail.add(
    `${result.name}: ${what} bought in year ${year}`,
    setsWornOut(year, perYear, matings),
    formula`${bought(year)} - ${bought(year - 1)}`,
  );
  return [formula`${entry} x ${at.item(`${item}_price`)}`];
}

function taxEntries(at: AuditedWay): void {
  const { inputs, result, item, trail } = at;
  const { name } = result;
  const flows = result.afterTax!.cashFlow;
  const last = flows.length - 1;
  const written = depreciation(inputs.depreciation, result.capital, depreciationOptions(inputs));
  const kept = formula`(1 - ${item('tax_pct')} / 100)`;
  const capital = trail.figure(`${name}: capital`);
  for (let year = 1; year <= last; year++) {
    const share = result.capital > 0 ? (100 * (written[year - 1] ?? 0)) / result.capital : 0;
    const words = `per cent written off in year ${year} by ${inputs.depreciation}`;
    trail.add(
      `${name}: written off in year ${year}`,
      written[year - 1] ?? 0,
      formula`${capital} x ${modelInput(words, share)} / 100`,
    );
  }
  trail.add(
    `${name}: cash flow after tax of year 0`,
    flows[0]!,
    formula`0 - ${capital} - ${trail.figure(`${name}: lost while boxes are fitted`)} x ${kept}`,
  );
  const off = Array.from({ length: last }, (_, k) => trail.figure(`${name}: written off in year ${k + 1}`));
  for (let year = 1; year <= last; year++) {
    const running = formula`0 - ${trail.figure(`${name}: running cost of year ${year}`)} x ${kept} + ${item('tax_pct')} / 100 x ${off[year - 1]!}`;
    const left = formula`(${capital} - (${sumOf(off)}))`;
    const sold = formula`${salvage(at)}`;
    const atEnd =
      inputs.depreciation === 'none'
        ? formula`${running} + ${sold}`
        : formula`${running} + ${sold} - ${item('tax_pct')} / 100 x (${sold} - ${left})`;
    trail.add(`${name}: cash flow after tax of year ${year}`, flows[year]!, year < last ? running : atEnd);
  }
}

function depreciationOptions(inputs: CaseInputs) {
  return { years: num(inputs, 'depreciation_years'), halfYear: inputs.depreciationHalfYear };
}

function worthEntries(at: AuditedWay): void {
  const { result, item, trail } = at;
  const { name } = result;
  const years = trail.years(`${name}: cash flow`, 0, result.cashFlow.length - 1);
  const rate = discountFormula(at, 'before tax');
  const worth = trail.add(
    `${name}: present value of the cost`,
    result.npvCost,
    formula`0 - sum(${years} / ${plusPct(rate)} ^ y, y = 0 to ${item('horizon_years')})`,
  );
  trail.add(
    `${name}: the same cost every year`,
    result.annualEquivalent,
    levelFormula(worth, rate, item('horizon_years')),
  );
}

/** A present value as a level yearly amount. */
export function levelFormula(worth: Formula, rate: Formula, years: Formula): Formula {
  return Number(rate.inputs[0]!.value) === 0
    ? formula`${worth} / ${years}`
    : formula`${worth} x ${rate} / 100 / (1 - ${plusPct(rate)} ^ (0 - ${years}))`;
}
