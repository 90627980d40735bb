/** From the cell's tables to the plain numbers that the cost case computes with. */
import type { Cell, Changeover } from '../model/cell.js';
import { costItems } from '../model/cost-items.js';
import { costNumber, costWord, givenCost } from '../model/cost-value.js';
import { signalDemand } from '../points/boxes-needed.js';
import type { CaseInputs, CaseNumbers, CaseStation, PriceBreak } from './case-inputs.js';
import { DEPRECIATION_METHODS, type DepreciationMethod } from './finance/depreciation.js';
import type { ContributionFacts } from './lost-contribution.js';

const numericItems = costItems.filter((format) => format.kind === 'number');

/** Every numeric item of the cost case, defaults filled in; null where there is neither value nor default. */
export function caseNumbers(costs: Cell['costs']): CaseNumbers {
  return Object.fromEntries(numericItems.map(({ name }) => [name, costNumber(costs, name)]));
}

/** Signals to check at a machine: its rows of signals.csv, else what costs.csv takes for every machine. */
export function signalCount(cell: Pick<Cell, 'costs' | 'signals'>, station: string): number {
  const listed = cell.signals.filter((signal) => signal.station === station).length;
  return listed > 0 ? listed : (costNumber(cell.costs, 'signals_per_machine') ?? 0);
}

/**
 * @param cell a cell whose cost items are complete and within their ranges
 * @param facts what the schedule says; null = not scheduled, so no contribution is lost unless it is typed
 * @param changeovers count over the horizon over all machines, in the proportions of the table; null = the table's own
 */
export function readCase(
  cell: Cell,
  facts: ContributionFacts | null,
  changeovers: number | null,
): CaseInputs {
  const numbers = caseNumbers(cell.costs);
  const followers = numericItems.flatMap(({ name, default: fallback }) =>
    typeof fallback === 'string' && !givenCost(cell.costs, name) ? [[name, fallback] as const] : [],
  );
  const scale = changeovers === null ? 1 : countScale(cell.changeovers, changeovers, numbers);
  return {
    numbers: changeovers === null ? numbers : { ...numbers, changeover_count_pct: 100 },
    followers,
    depreciation: depreciationOf(costWord(cell.costs, 'depreciation')),
    depreciationHalfYear: costWord(cell.costs, 'depreciation_half_year') === 'yes',
    priceBreaks: priceBreaksOf(costWord(cell.costs, 'box_price_breaks')),
    stations: cell.changeovers.map((row) => caseStation(cell, row, facts, scale)),
  };
}

function countScale(
  rows: readonly Changeover[],
  wanted: number,
  numbers: Readonly<Record<string, number | null>>,
): number {
  const perYear = rows.reduce((sum, row) => sum + row.perYear, 0);
  if (perYear === 0) return 0;
  return wanted / (perYear * (numbers.horizon_years ?? 1));
}

function caseStation(
  cell: Cell,
  row: Changeover,
  facts: ContributionFacts | null,
  scale: number,
): CaseStation {
  const signals = cell.signals.filter((signal) => signal.station === row.station);
  return {
    station: row.station,
    perYear: row.perYear * scale,
    people: row.people,
    internalShare: row.internalPct / 100,
    minutesOther: row.minutesOther,
    signals: signalCount(cell, row.station),
    demand: signals.length > 0 ? signalDemand(signals) : null,
    losesContribution: losesContribution(cell, row.station, facts),
    scheduleContributionPerH: facts?.contributionPerMachineHByStation[row.station] ?? 0,
    at: row.at ?? null,
  };
}

function losesContribution(cell: Cell, station: string, facts: ContributionFacts | null): boolean {
  const asked = costWord(cell.costs, 'machine_constrained');
  if (asked === 'yes') return true;
  if (asked === 'no' || facts === null || !facts.orderBookFull) return false;
  return facts.robotIsBottleneck || facts.bottleneckStations.includes(station);
}

/** Reads `1:900;4:820`; the reader of the tables has checked its form. */
export function priceBreaksOf(text: string | null): PriceBreak[] {
  if (text === null || text.trim() === '') return [];
  return text.split(';').map((part) => {
    const [from = '', each = ''] = part.split(':');
    const step = { from: Number(from), each: Number(each) };
    if (!(Number.isInteger(step.from) && step.from >= 1 && Number.isFinite(step.each) && step.each >= 0))
      throw new RangeError(`box_price_breaks holds \`${part}\`: expected boxes:price such as 4:820`);
    return step;
  });
}

function depreciationOf(word: string | null): DepreciationMethod {
  const found = DEPRECIATION_METHODS.find((method) => method === word);
  if (!found)
    throw new RangeError(`depreciation is \`${word}\`: expected one of ${DEPRECIATION_METHODS.join(', ')}`);
  return found;
}
