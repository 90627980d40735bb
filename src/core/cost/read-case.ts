/** From the cell's tables to the plain numbers that the cost case computes with. */

import { signalDemand } from '../io/boxes-needed.js';
import type { Cell, Changeover } from '../model/cell.js';
import { connectionsOf } from '../model/connection-items.js';
import { itemsOf } from '../model/cost-items.js';
import { costNumber, costWord, givenCost } from '../model/cost-value.js';
import { priceBreaksOf } from '../model/price-breaks.js';
import type {
  CaseInputs,
  CaseNumbers,
  CaseStation,
  DiscountPrices,
  DiscountTax,
  LostPart,
  StandingPrice,
} from './case-inputs.js';
import { DEPRECIATION_METHODS, type DepreciationMethod } from './finance/depreciation.js';
import type { StandingFacts, StandingModel } from './standing/standing-facts.js';

const numericItems = (costs: Cell['costs']) => itemsOf(costs).filter((format) => format.kind === 'number');

/** Every numeric item of the cost case, defaults filled in; null where there is neither value nor default. */
export function caseNumbers(costs: Cell['costs']): CaseNumbers {
  return Object.fromEntries(numericItems(costs).map(({ name }) => [name, costNumber(costs, name)]));
}

/** Signals to check at a machine: its rows of signals.csv, else what costs.csv takes for every machine. */
export function signalCount(cell: Pick<Cell, 'costs' | 'signals'>, station: string): number {
  const listed = cell.signals.filter((signal) => signal.station === station).length;
  return listed > 0 ? listed : (costNumber(cell.costs, 'signals_per_machine') ?? 0);
}

/**
 * @param cell a cell whose cost items are complete and within their ranges
 * @param facts what machines standing costs (`standingHours`); null = not known, so nothing is lost unless it is typed
 * @param changeovers count over the horizon over all machines, in the proportions of the table; null = the table's own
 */
export function readCase(cell: Cell, facts: StandingFacts | null, changeovers: number | null): CaseInputs {
  const numbers = caseNumbers(cell.costs);
  const followers = numericItems(cell.costs).flatMap(({ name, default: fallback }) =>
    typeof fallback === 'string' && !givenCost(cell.costs, name) ? [[name, fallback] as const] : [],
  );
  const perYear = cell.changeovers.reduce((sum, row) => sum + row.perYear, 0);
  const asked = perYear === 0 ? 0 : (changeovers ?? 0) / (perYear * (numbers.horizon_years ?? 1));
  const scale = changeovers === null ? 1 : asked;
  return {
    numbers: changeovers === null ? numbers : { ...numbers, changeover_count_pct: 100 },
    followers,
    depreciation: depreciationOf(costWord(cell.costs, 'depreciation')),
    depreciationHalfYear: costWord(cell.costs, 'depreciation_half_year') === 'yes',
    discountTax: costWord(cell.costs, 'discount_tax') as DiscountTax,
    discountPrices: costWord(cell.costs, 'discount_prices') as DiscountPrices,
    priceBreaks: priceBreaksOf(costWord(cell.costs, 'box_price_breaks')),
    connections: connectionsOf(cell.costs),
    stations: cell.changeovers.map((row) => caseStation(cell, row, facts, scale)),
  };
}

function caseStation(cell: Cell, row: Changeover, facts: StandingFacts | null, scale: number): CaseStation {
  const signals = cell.signals.filter((signal) => signal.station === row.station);
  return {
    station: row.station,
    perYear: row.perYear * scale,
    people: row.people,
    internalShare: row.internalPct / 100,
    minutesOther: row.minutesOther,
    signals: signalCount(cell, row.station),
    demand: signals.length > 0 ? signalDemand(signals) : null,
    standing: standingPrice(cell, row.station, facts),
    at: row.at ?? null,
  };
}

/** A typed figure wins over a computed one, and what is said to lose nothing over both. */
function standingPrice(cell: Cell, station: string, facts: StandingFacts | null): StandingPrice {
  const constrained = costWord(cell.costs, 'machine_constrained');
  const book = costWord(cell.costs, 'order_book_full');
  const allSold = constrained === 'yes' || book === 'yes';
  const by = (which: 'steady' | 'floor') => {
    const model = facts?.[which] ?? null;
    return facts === null || model === null ? null : lostParts(facts, which, model, station, allSold);
  };
  const models = { steady: by('steady'), floor: by('floor') };
  if (constrained === 'no') return { source: 'nothing', lost: [], ...models };
  if (costNumber(cell.costs, 'contribution_per_machine_h') !== null)
    return { source: 'typed', lost: [], ...models };
  if (book === 'no' || models.steady === null) return { source: 'nothing', lost: [], ...models };
  return models.floor === null
    ? { source: 'steady', lost: models.steady, ...models }
    : { source: 'floor', lost: models.floor, ...models };
}

function lostParts(
  { atCycle }: StandingFacts,
  which: 'steady' | 'floor',
  model: StandingModel,
  station: string,
  allSold: boolean,
): LostPart[] {
  const perH = (of: StandingModel, part: string) => of.lostPerH[station]?.[part] ?? 0;
  return model.parts.map((row, k) => ({
    ...row,
    perH: perH(model, row.part),
    allSold,
    atCycle: atCycle.map(({ cyclePct, ...models }) => {
      const other = models[which] ?? model;
      const { free, moved } = other.parts[k] ?? row;
      return { cyclePct, perH: perH(other, row.part), free, moved };
    }),
  }));
}

function depreciationOf(word: string | null): DepreciationMethod {
  const found = DEPRECIATION_METHODS.find((method) => method === word);
  if (!found)
    throw new RangeError(`depreciation is \`${word}\`: expected one of ${DEPRECIATION_METHODS.join(', ')}`);
  return found;
}
