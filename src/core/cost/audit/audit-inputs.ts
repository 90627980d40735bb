/** Inputs of an audited figure: a cost item, a row of a table, the signals of a machine, or another figure. */
import type { Cell } from '../../model/cell.js';
import { costItemFormat } from '../../model/cost-items.js';
import { givenCost } from '../../model/cost-value.js';
import type { CaseInputs, CaseStation, TaxBasis } from '../case-inputs.js';
import { discountRate } from '../discount-rate.js';
import type { AuditEntry, AuditInput } from '../result.js';
import { type Formula, formula, named } from './formula.js';

export type ItemReader = (name: string) => Formula;

/** Items with the value that counts (options and defaults included) and where it was given. */
export function itemReader(cell: Pick<Cell, 'costs'>, inputs: CaseInputs): ItemReader {
  return (name) => {
    const given = givenCost(cell.costs, name);
    const fallback = costItemFormat(name)?.default ?? 'not given';
    const value = inputs.numbers[name] ?? given?.value ?? fallback;
    return named({ item: given ? name : `${name} (default)`, value, place: given?.at ?? null });
  };
}

/** A column of the machine's row in changeovers.csv. */
export function rowInput(station: CaseStation, column: string, value: number): Formula {
  return named({ item: `${column} of ${station.station}`, value, place: station.at });
}

/** A figure that a model of the cell gives, such as the floor. */
export function modelInput(item: string, value: number): Formula {
  return named({ item, value, place: null });
}

/** Something counted over the machine's rows in signals.csv; without such rows, signals_per_machine gives it. */
export function signalInput(
  cell: Pick<Cell, 'costs' | 'signals'>,
  station: CaseStation,
  what: string,
  value: number,
): Formula {
  const places = cell.signals.flatMap((s) => (s.station === station.station && s.at ? [s.at] : []));
  const item = `${what} of ${station.station}`;
  if (station.demand === null) {
    const place = givenCost(cell.costs, 'signals_per_machine')?.at ?? null;
    return named({ item: `${item} (signals_per_machine)`, value, place });
  }
  const first = places[0] ?? null;
  return named(
    first === null
      ? { item, value, place: null }
      : { item, value, place: first, lines: places.map((place) => place.line) },
  );
}

/** The list of figures as it grows; each one that was added can be named by those after it. */
export class Trail {
  private readonly all = new Map<string, AuditEntry>();

  /** Adds a figure and returns its name. */
  add(result: string, value: number | null, by: Formula): Formula {
    this.all.set(result, { result, value, how: 'formula', formula: by.text, inputs: by.inputs });
    return this.figure(result);
  }

  /** A figure that no formula gives. */
  found(
    how: 'search' | 'trials',
    result: string,
    value: number | null,
    words: string,
    inputs: readonly Formula[],
  ): void {
    const all = inputs.flatMap((input) => input.inputs);
    this.all.set(result, { result, value, how, formula: words, inputs: all });
  }

  figure(result: string): Formula {
    return named({ item: result, value: this.all.get(result)?.value ?? 0, place: null, from: result });
  }

  /** `name of year y`, with the figures of all years from one on. */
  years(name: string, from: number, to: number): Formula {
    const inputs: AuditInput[] = [];
    for (let year = from; year <= to; year++) inputs.push(...this.figure(`${name} of year ${year}`).inputs);
    return { text: `${name} of year y`, inputs };
  }

  entries(): AuditEntry[] {
    return [...this.all.values()];
  }
}

/** 1 + a percentage, as it stands in formulas. */
export function plusPct(pct: Formula): Formula {
  return formula`(1 + ${pct} / 100)`;
}

/** The discount rate in per cent, as it counts before or after tax. */
export function discountFormula({ inputs, item, trail }: AuditedCase, basis: TaxBasis): Formula {
  const rate = 100 * discountRate(inputs, basis);
  const { discountPrices, discountTax } = inputs;
  if (discountPrices === 'nominal' && discountTax === 'both') return item('discount_pct');
  const nominal =
    discountPrices === 'real'
      ? formula`(${plusPct(item('discount_pct'))} x ${plusPct(item('inflation_pct'))} - 1) x 100`
      : item('discount_pct');
  const kept = formula`(1 - ${item('tax_pct')} / 100)`;
  const by =
    discountTax === 'before-tax' && basis === 'after tax'
      ? formula`${nominal} x ${kept}`
      : discountTax === 'after-tax' && basis === 'before tax'
        ? formula`${nominal} / ${kept}`
        : nominal;
  return trail.add(`discount rate ${basis}, % a year`, rate, by);
}

/** A rate that is the discount rate unless it is given. */
export function rateOrDiscount(at: AuditedCase, name: string, basis: TaxBasis): Formula {
  const follows = at.inputs.followers.some(([follower]) => follower === name);
  return follows && (at.inputs.discountPrices === 'real' || at.inputs.discountTax !== 'both')
    ? discountFormula(at, basis)
    : at.item(name);
}

/** What every figure is traced with. */
export interface AuditedCase {
  readonly cell: Cell;
  readonly inputs: CaseInputs;
  readonly item: ItemReader;
  readonly trail: Trail;
}
