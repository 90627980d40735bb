/**
 * All that the cost case computes with, as plain numbers: the cost items with their defaults filled in, and for each
 * machine its yearly changeovers, its signals and what an hour of it is worth.
 */

import type { SignalDemand } from '../io/boxes-needed.js';
import type { Place } from '../model/place.js';
import type { PriceBreak } from '../model/price-breaks.js';
import type { DepreciationMethod } from './finance/depreciation.js';
import type { PartWeek } from './standing/standing-facts.js';

/** Before tax, or after it. */
export type TaxBasis = 'before tax' | 'after tax';

/** Which flows discount_pct is meant for; both = one rate for both. */
export type DiscountTax = 'both' | 'before-tax' | 'after-tax';

/** nominal = the rate has the rise of prices in it. */
export type DiscountPrices = 'nominal' | 'real';

/** One machine that is changed over. */
export interface CaseStation {
  readonly station: string;
  /** Changeovers per year, before changeover_count_pct. */
  readonly perYear: number;
  readonly people: number;
  /** Share of the changeover in which the machine stands, 0 to 1. */
  readonly internalShare: number;
  /** Set-up minutes common to both ways; in neither way's money. */
  readonly minutesOther: number;
  /** Signals to check and wire. */
  readonly signals: number;
  /** From signals.csv; null where it names no signal of this machine. */
  readonly demand: SignalDemand | null;
  readonly standing: StandingPrice;
  readonly at: Place | null;
}

/** What an hour of downtime loses of a part with all cycle times at some share of the plan. */
export interface CyclePoint {
  readonly cyclePct: number;
  readonly perH: number;
  readonly free: number;
  readonly moved: number;
}

/** Parts that an hour of the machine standing loses. */
export interface LostPart extends PartWeek {
  /** Good parts not made. */
  readonly perH: number;
  /** The same at other cycle times, as a share of the plan in per cent, ascending; empty where they are not in doubt. */
  readonly atCycle: readonly CyclePoint[];
  /** All of them would have been sold, whatever is asked for. */
  readonly allSold: boolean;
}

/** Where the price of a standing hour of one machine comes from. */
export interface StandingPrice {
  /** Typed: contribution_per_machine_h. Nothing: said to lose nothing, or nothing is known. */
  readonly source: 'typed' | 'floor' | 'steady' | 'nothing';
  /** By the source; empty where it is typed or nothing. */
  readonly lost: readonly LostPart[];
  /** By each model, to hold against it; null where the model says nothing. */
  readonly steady: readonly LostPart[] | null;
  readonly floor: readonly LostPart[] | null;
}

/** Numeric cost items by name; null where an item has neither value nor default. */
export type CaseNumbers = Readonly<Record<string, number | null>>;

export interface CaseInputs {
  readonly numbers: CaseNumbers;
  /** Items that were not given and take another item's value: [item, whose value it takes]. */
  readonly followers: readonly (readonly [item: string, of: string])[];
  readonly depreciation: DepreciationMethod;
  readonly depreciationHalfYear: boolean;
  readonly discountTax: DiscountTax;
  readonly discountPrices: DiscountPrices;
  readonly priceBreaks: readonly PriceBreak[];
  /** Named ways of connecting beside harness and box. */
  readonly connections: readonly string[];
  readonly stations: readonly CaseStation[];
}

/**
 * A numeric item that the caller knows to be there.
 *
 * @throws RangeError where it is not: a fault of the program, since missing items are found before anything is computed
 */
export function num(inputs: Pick<CaseInputs, 'numbers'>, item: string): number {
  const value = inputs.numbers[item];
  if (value === null || value === undefined) throw new RangeError(`the cost item ${item} has no value`);
  return value;
}

/** Gives each item that follows another one that item's value, in place. */
export function follow(numbers: Record<string, number | null>, followers: CaseInputs['followers']): void {
  for (const [item, of] of followers) numbers[item] = numbers[of] ?? null;
}

/** The same case with some items at other values; items that follow another one follow it, unless they are set here. */
export function withNumbers(inputs: CaseInputs, changed: Readonly<Record<string, number>>): CaseInputs {
  const numbers: Record<string, number | null> = { ...inputs.numbers, ...changed };
  const followers = inputs.followers.filter(([item]) => !(item in changed));
  follow(numbers, followers);
  return { ...inputs, numbers, followers };
}
