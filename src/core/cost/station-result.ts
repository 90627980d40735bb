/** One machine's line of the cost case. */
import { type CaseInputs, withNumbers } from './case-inputs.js';
import { boxLines, boxMinutes, harnessLines, harnessMinutes, minuteCost } from './changeover-minutes.js';
import { incrementValue } from './increment-value.js';
import { movesEverywhere, planFlows, stationBoxes, type Way, yearlyCount } from './plan-flows.js';
import type { StationResult } from './result.js';

export function stationResult(inputs: CaseInputs, index: number): StationResult {
  const station = inputs.stations[index]!;
  const ways: Way[] = inputs.stations.map((_, k) => (k === index ? 'own box' : 'harness'));
  const boxes = stationBoxes(inputs, station);
  const [harnessMin, boxMin] = [harnessMinutes(inputs, station), boxMinutes(inputs, boxes)];
  const cost = minuteCost(inputs, station);
  const count = yearlyCount(inputs, station);
  const moves = movesEverywhere(inputs)[index]!;
  const savedMinPerYear = moves * harnessMin - count * boxMin;
  const taxed = (inputs.numbers.tax_pct ?? 0) > 0;
  return {
    station: station.station,
    place: station.at,
    people: station.people,
    internalPct: 100 * station.internalShare,
    signals: station.signals,
    boxes,
    changeoversPerYear: count,
    movesPerYear: moves,
    harnessMin,
    boxMin,
    otherMin: station.minutesOther,
    harnessLines: harnessLines(inputs, station),
    boxLines: boxLines(inputs, boxes),
    labourPerMin: cost.labour,
    contributionPerMin: cost.contribution,
    savedMinPerYear,
    savingPerYear: savedMinPerYear * (cost.labour + cost.contribution),
    capital: planFlows(withNumbers(inputs, { harness_price: 0 }), ways).capital,
    npv: incrementValue(inputs, ways, 'before tax'),
    npvAfterTax: taxed ? incrementValue(inputs, ways, 'after tax') : null,
  };
}
