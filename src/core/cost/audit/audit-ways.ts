/** Where the figures of each way come from, year by year. */
import { type CaseStation, num } from '../case-inputs.js';
import { learningFactor } from '../learning-factor.js';
import { connectionOf, movesFor, planFlows, type Way, writtenOff, yearlyCount } from '../plan-flows.js';
import type { AlternativeResult } from '../result.js';
import { setsWornOut } from '../sets-worn-out.js';
import { type AuditedCase, discountFormula, modelInput, plusPct } from './audit-inputs.js';
import { connectedFormula, fittingFormula } from './audit-stations.js';
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
/** Machines with a box, own or shared. */
const fitted = ({ inputs, ways }: AuditedWay) =>
  inputs.stations.filter((_, k) => ways[k] === 'own box' || ways[k] === 'shared box');

/** Machines with a named connection: by its name. */
function connected({ inputs, ways }: AuditedWay): { connection: string; machines: CaseStation[] }[] {
  return inputs.connections.flatMap((connection) => {
    const machines = inputs.stations.filter((_, k) => connectionOf(ways[k]!) === connection);
    return machines.length === 0 ? [] : [{ connection, machines }];
  });
}

function capitalEntries(at: AuditedWay): void {
  const { inputs, result, ways, item, trail } = at;
  const { name } = result;
  const boxesOf = (way: Way) => served(at, way).map((s) => trail.figure(`${s.station}: boxes`));
  const shared = boxesOf('shared box');
  const pool = shared.length === 0 ? [] : [formula`max(0, ${joined(shared, ', ')})`];
  trail.add(`${name}: boxes`, result.boxes, sumOf([...boxesOf('own box'), ...pool]));
  const machines = fitted(at);
  const others = connected(at);
  const changed = machines.length + others.reduce((sum, each) => sum + each.machines.length, 0);
  const rate = num(inputs, 'install_learning_pct') / 100;
  const practice = trail.add(
    `${name}: hours of fitting a machine against the first one`,
    learningFactor(changed, rate),
    formula`max(1, ${changed}) ^ log2(${item('install_learning_pct')} / 100)`,
  );
  const fit = [
    ...machines.map((station) => fittingFormula(at, station, practice)),
    ...others.flatMap(({ connection, machines: of }) => [
      item(`${connection}.once_price`),
      ...of.map((station) => connectedFormula(at, station, connection, practice)),
    ]),
  ];
  const once = changed > 0 ? [item('engineering_price'), item('risk_assessment_price')] : [];
  const order = result.boxes > 0 ? [orderPriceEntry(at, result.boxes)] : [];
  const keeps = ways.includes('harness') || ways.length === 0 ? [item('harness_price')] : [];
  const bought = formula`(${sumOf([...order, ...fit, ...once])}) x ${plusPct(item('contingency_pct'))}`;
  trail.add(`${name}: capital`, result.capital, sumOf([bought, ...keeps]));
  const lost = (of: readonly CaseStation[]) =>
    sumOf(of.map((s) => trail.figure(`${s.station}: contribution lost per hour of downtime`)));
  trail.add(
    `${name}: lost while boxes are fitted`,
    planFlows(inputs, ways).startLoss,
    sumOf([
      formula`${item('box_fit_stand_h')} x (${lost(machines)})`,
      ...others.map(
        ({ connection, machines: of }) => formula`${item(`${connection}.fit_stand_h`)} x (${lost(of)})`,
      ),
    ]),
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
    const connection = connectionOf(ways[inputs.stations.indexOf(station)]!);
    if (connection !== null)
      return formula`${figure('changeovers per year')} x ${figure(`minutes with ${connection}`)} x ${cost}`;
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
  const others = connected(at);
  const upkeep = sumOf([
    formula`${trail.figure(`${name}: boxes`)} x ${item('box_upkeep_per_year')}`,
    ...others.map(
      ({ connection, machines }) => formula`${machines.length} x ${item(`${connection}.upkeep_per_year`)}`,
    ),
  ]);
  const matings = others.map(({ connection, machines }) => ({
    connection,
    events: trail.add(
      `${name}: matings of ${connection} per year`,
      machines.reduce((sum, station) => sum + yearlyCount(inputs, station), 0),
      sumOf(machines.map((s) => trail.figure(`${s.station}: changeovers per year`))),
    ),
  }));
  plan.running.forEach((running, k) => {
    const year = k + 1;
    const worn = [
      ...wearEntry(at, year, moved, CONNECTOR),
      ...wearEntry(at, year, plugs, BOX_PLUG),
      ...matings.flatMap(({ connection, events }) => wearEntry(at, year, events, wearOf(connection))),
    ];
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

function salvage(at: AuditedWay): Formula {
  const { result, item, trail } = at;
  const growth = formula`${plusPct(item('inflation_pct'))} ^ ${item('horizon_years')}`;
  const boxes = formula`${trail.figure(`${result.name}: boxes`)} x ${item('box_salvage')}`;
  const others = connected(at).map(
    ({ connection, machines }) => formula`${machines.length} x ${item(`${connection}.salvage`)}`,
  );
  return others.length === 0
    ? formula`${boxes} x ${growth}`
    : formula`(${sumOf([boxes, ...others])}) x ${growth}`;
}

/** What wears, with the items of its rating and its price. */
interface Worn {
  readonly what: string;
  readonly matings: string;
  readonly price: string;
}

const CONNECTOR: Worn = { what: 'connector sets', matings: 'connector_matings', price: 'connector_price' };
const BOX_PLUG: Worn = { what: 'plugs', matings: 'box_plug_matings', price: 'box_plug_price' };

function wearOf(connection: string): Worn {
  return {
    what: `worn parts of ${connection}`,
    matings: `${connection}.matings`,
    price: `${connection}.worn_price`,
  };
}

/** Sets of connectors or plugs bought in a year; nothing where none is rated. */
function wearEntry(at: AuditedWay, year: number, events: Formula, worn: Worn): Formula[] {
  const { inputs, result, trail } = at;
  const matings = inputs.numbers[worn.matings] ?? null;
  if (matings === null) return [];
  const perYear = Number(events.inputs[0]!.value);
  const rated = at.item(worn.matings);
  const bought = (by: number) => formula`max(0, roundup(${by} x ${events} / ${rated}) - 1)`;
  const entry = trail.add(
    `${result.name}: ${worn.what} bought in year ${year}`,
    setsWornOut(year, perYear, matings),
    formula`${bought(year)} - ${bought(year - 1)}`,
  );
  return [formula`${entry} x ${at.item(worn.price)}`];
}

function taxEntries(at: AuditedWay): void {
  const { inputs, result, item, trail } = at;
  const { name } = result;
  const flows = result.afterTax!.cashFlow;
  const last = flows.length - 1;
  const written = writtenOff(inputs, result.capital);
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
