/** The price of a standing hour side by side: by the steady cell, by the floor, and as it counts; the chosen set run once more. */

import { YEAR_WEEKS } from '../../calendar/year.js';
import type { Cell } from '../../model/cell.js';
import type { Place } from '../../model/place.js';
import { power } from '../../numbers/functions.js';
import { type CaseInputs, type LostPart, num, type TaxBasis, withNumbers } from '../case-inputs.js';
import { atCyclePct, contributionOf, lostPerHour } from '../changeover-minutes.js';
import { discountRate } from '../discount-rate.js';
import { incrementValue } from '../increment-value.js';
import { planFlows, type Way } from '../plan-flows.js';
import { connectingMinutes } from '../way-minutes.js';
import { type FloorModel, soldPerWeek, soldShare } from './standing-facts.js';

export type StandingSource = 'typed' | 'floor' | 'steady' | 'nothing';

export interface StandingResult {
  readonly source: StandingSource;
  /** Pattern of the floor; null where it was not run. */
  readonly pattern: string | null;
  readonly byStation: readonly {
    readonly station: string;
    /** Contribution lost by one standing hour; null where that model says nothing. */
    readonly steadyPerH: number | null;
    readonly floorPerH: number | null;
    readonly countedPerH: number;
  }[];
  /** What the parts lose in a year while the harness is moved to every machine, by the model that counts; empty where none does. */
  readonly parts: readonly PartLoss[];
  /** Contribution lost in a year while the harness is moved to every machine. */
  readonly harnessPerYear: {
    readonly steady: number | null;
    readonly floor: number | null;
    readonly counted: number;
  };
  /** The recommended set of boxes run on the floor as a set; null without a floor or without boxes. */
  readonly setOnFloor: SetOnFloor | null;
}

export interface PartLoss {
  readonly part: string;
  /** Of a good part, as it counts. */
  readonly contributionEach: number;
  /** Good parts a week; null = all that are made are sold. */
  readonly askedPerWeek: number | null;
  /** Good parts a week with no move of the harness, and with all of them. */
  readonly madeFreePerWeek: number;
  readonly madeMovedPerWeek: number;
  /** Contribution of what is not sold for it. */
  readonly lostPerYear: number;
  /** Its row of parts.csv. */
  readonly place: Place | null;
}

export interface SetOnFloor {
  /** Contribution a year that the set saves against the harness: machine by machine added up as it counts, and by the floor. */
  readonly countedPerYear: number;
  readonly floorPerYear: number;
  /** Present value of the set with each of them, on the basis that decides. */
  readonly npvCounted: number;
  readonly npvFloor: number;
}

/** Differences up to this share are not told. */
const NOTABLE = 0.25;

export function standingResult(
  inputs: CaseInputs,
  floor: FloorModel | null,
  ways: readonly Way[],
  basis: TaxBasis,
  parts: Cell['parts'],
): StandingResult {
  const harness = inputs.stations.map((): Way => 'harness');
  const by = (model: 'steady' | 'floor'): number | null =>
    inputs.stations.every((s) => s.standing[model] === null)
      ? null
      : contributionPerYear(pricedBy(inputs, model), harness);
  return {
    source: inputs.stations[0]?.standing.source ?? 'nothing',
    pattern: floor?.pattern ?? null,
    byStation: inputs.stations.map((s) => ({
      station: s.station,
      steadyPerH: perHour(inputs, s.standing.steady),
      floorPerH: perHour(inputs, s.standing.floor),
      countedPerH: lostPerHour(inputs, s),
    })),
    parts: partLosses(inputs, parts),
    harnessPerYear: {
      steady: by('steady'),
      floor: by('floor'),
      counted: contributionPerYear(inputs, harness),
    },
    setOnFloor:
      floor === null || ways.every((way) => way === 'harness')
        ? null
        : setOnFloor(inputs, floor, ways, basis),
  };
}

function partLosses(inputs: CaseInputs, rows: Cell['parts']): PartLoss[] {
  const [first] = inputs.stations;
  const asked = num(inputs, 'demand_pct') / 100;
  return (first?.standing.lost ?? []).map((planned) => {
    const row = { ...planned, ...atCyclePct(planned, num(inputs, 'cycle_pct')) };
    const each = (row.each * num(inputs, 'contribution_pct')) / 100;
    const share = row.allSold ? 1 : soldShare(row, asked);
    return {
      part: row.part,
      contributionEach: each,
      askedPerWeek: row.asked === null || row.allSold ? null : row.asked * asked,
      madeFreePerWeek: row.free,
      madeMovedPerWeek: row.moved,
      lostPerYear: YEAR_WEEKS * each * share * (row.free - row.moved),
      place: rows.find(({ part }) => part === row.part)?.at ?? null,
    };
  });
}

function perHour(inputs: CaseInputs, lost: readonly LostPart[] | null): number | null {
  return lost === null ? null : contributionOf(inputs, lost);
}

function pricedBy(inputs: CaseInputs, model: 'steady' | 'floor'): CaseInputs {
  const stations = inputs.stations.map((s) => ({
    ...s,
    standing: { ...s.standing, source: model, lost: s.standing[model] ?? [] },
  }));
  return { ...inputs, stations };
}

/** Contribution that the changeovers of a year lose in some ways. */
export function contributionPerYear(inputs: CaseInputs, ways: readonly Way[]): number {
  return planFlows(withNumbers(inputs, { labour_per_h: 0 }), ways).changeoverCost;
}

function setOnFloor(
  inputs: CaseInputs,
  floor: FloorModel,
  ways: readonly Way[],
  basis: TaxBasis,
): SetOnFloor {
  const harness = inputs.stations.map((): Way => 'harness');
  const sold = (plan: readonly Way[]) =>
    ((YEAR_WEEKS * num(inputs, 'contribution_pct')) / 100) *
    soldPerWeek(floor.parts, floor.week(connectingMinutes(inputs, plan)));
  const floorPerYear = sold(ways) - sold(harness);
  const countedPerYear = contributionPerYear(inputs, harness) - contributionPerYear(inputs, ways);
  const npvCounted = incrementValue(inputs, ways, basis);
  return {
    countedPerYear,
    floorPerYear,
    npvCounted,
    npvFloor: npvCounted + (floorPerYear - countedPerYear) * yearlyFactor(inputs, basis),
  };
}

/** Present value of one money a year over the horizon, with inflation, and after tax where that decides. */
function yearlyFactor(inputs: CaseInputs, basis: TaxBasis): number {
  const growth = (1 + num(inputs, 'inflation_pct') / 100) / (1 + discountRate(inputs, basis));
  const kept = basis === 'after tax' ? 1 - num(inputs, 'tax_pct') / 100 : 1;
  let sum = 0;
  for (let year = 1; year <= num(inputs, 'horizon_years'); year++) sum += power(growth, year);
  return kept * sum;
}

/** Where the two models, or the floor's run of the set and the sum of its machines, are far apart: that they are. */
export function standingWarnings(result: StandingResult, amount: (money: number) => string): string[] {
  const { harnessPerYear: year, setOnFloor: set, pattern, source } = result;
  const counted = source === 'typed' ? `; the typed figure counts, ${amount(year.counted)}` : '';
  return [
    ...(year.steady !== null && year.floor !== null && apart(year.steady, year.floor)
      ? [
          `Moving the harness loses ${amount(year.floor)} of contribution a year on the floor (pattern ${pattern}), ${amount(year.steady)} by the steady cell: more than a quarter apart${counted}. Check how the robot program passes a machine that is down.`,
        ]
      : []),
    ...(set !== null && apart(set.countedPerYear, set.floorPerYear)
      ? [
          `Run on the floor as a set, the recommended boxes save ${amount(set.floorPerYear)} of contribution a year, machine by machine ${amount(set.countedPerYear)}: more than a quarter apart; with the former the present value is ${amount(set.npvFloor)}.`,
        ]
      : []),
  ];
}

function apart(a: number, b: number): boolean {
  return Math.abs(a - b) > NOTABLE * Math.max(Math.abs(a), Math.abs(b));
}
