/** One machine's line of the cost case. */
import { type CaseInputs, num, withNumbers } from './case-inputs.js';
import { boxLines, boxMinutes, harnessLines, harnessMinutes, minuteCost } from './changeover-minutes.js';
import { everywhere, incrementValue } from './increment-value.js';
import { movesEverywhere, movesFor, planFlows, stationBoxes, type Way, yearlyCount } from './plan-flows.js';
import type { StationResult } from './result.js';

export function stationResult(inputs: CaseInputs, index: number): StationResult {
  const station = inputs.stations[index]!;
  const ways: Way[] = inputs.stations.map((_, k) => (k === index ? 'own box' : 'harness'));
  const boxes = stationBoxes(inputs, station);
  const [harnessMin, boxMin] = [harnessMinutes(inputs, station), boxMinutes(inputs, boxes)];
  const cost = minuteCost(inputs, station);
  const count = yearlyCount(inputs, station);
  const moves = movesEverywhere(inputs);
  const rested = restedMoves(inputs, index);
  const savedElsewhereMin = inputs.stations.reduce(
    (sum, other, k) => sum + rested[k]! * harnessMinutes(inputs, other),
    0,
  );
  const saved = planFlows(inputs, everywhere(inputs, 'harness')).changeoverCost;
  const taxed = (inputs.numbers.tax_pct ?? 0) > 0;
  return {
    station: station.station,
    place: station.at,
    people: station.people,
    internalPct: 100 * station.internalShare,
    signals: station.signals,
    boxes,
    changeoversPerYear: count,
    movesPerYear: moves[index]!,
    harnessMin,
    boxMin,
    otherMin: station.minutesOther,
    harnessLines: harnessLines(inputs, station),
    boxLines: boxLines(inputs, boxes),
    labourPerMin: cost.labour,
    contributionPerMin: cost.contribution,
    savedMinPerYear: moves[index]! * harnessMin - count * boxMin + savedElsewhereMin,
    savedElsewhereMinPerYear: savedElsewhereMin,
    savingPerYear: saved - planFlows(inputs, ways).changeoverCost,
    capital: planFlows(withNumbers(inputs, { harness_price: 0 }), ways).capital,
    npv: incrementValue(inputs, ways, 'before tax'),
    npvAfterTax: taxed ? incrementValue(inputs, ways, 'after tax') : null,
  };
}

/**
 * Moves a year that the harness is spared at each other machine by a box on this one: with fewer places to go to it may
 * rest where it was fetched away before.
 */
export function restedMoves(inputs: CaseInputs, index: number): number[] {
  const ways = inputs.stations.map((_, k): Way => (k === index ? 'own box' : 'harness'));
  const counts = inputs.stations.map((station) => yearlyCount(inputs, station));
  const alone = movesFor(counts, ways, 'harness', num(inputs, 'harness_elsewhere_per_year'));
  return movesEverywhere(inputs).map((moves, k) => (k === index ? 0 : moves - alone[k]!));
}
