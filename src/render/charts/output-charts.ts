/** What is made, side by side: by shift pattern, by robot program, against the demand; and what a simulated shift loses. */
import type { PatternPerformance } from '../../core/performance/pattern-performance.js';
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import type { SimulationResult } from '../../core/simulate/simulation-result.js';
import type { SimulationStudy } from '../../core/simulate/study-cell.js';
import { upperFirst } from '../first-letter.js';
import { numberText, percentText } from '../numbers.js';
import { madePct, patternTable, taktTable } from '../result-tables/shift-tables.js';
import { shortened } from '../shortened.js';
import { barsChart } from './bars-chart.js';
import { type ChartOrReason, noChart } from './chart-of.js';

const short = (name: string): string => shortened(name, 28);

export function patternPartsChart(patterns: readonly ShiftYield[]): ChartOrReason {
  const [most] = [...patterns].sort((a, b) => b.partsPerWeek.total! - a.partsPerWeek.total!);
  if (most === undefined) return noChart('No shift pattern is given, so there is no week to compare.');
  return barsChart({
    title: `${upperFirst(short(most.pattern))}: ${numberText(most.partsPerWeek.total!)} good parts a week${patterns.length > 1 ? `, the most of ${patterns.length} patterns` : ''}`,
    unit: 'good parts a week',
    data: patternTable(patterns),
    rows: patterns.map(({ pattern, partsPerWeek, ceilingPerWeek }) => ({
      name: pattern,
      value: partsPerWeek.total!,
      most: ceilingPerWeek.total!,
    })),
    note: 'Frame: the steady rate in all open hours. Constant times, without random stops.',
    digits: 0,
  });
}

/** Each part of each pattern that has a demand; null where none has. */
export function demandChart(patterns: readonly PatternPerformance[]): ChartOrReason | null {
  const rows = patterns.flatMap(({ pattern, takt }) =>
    takt.map(({ part, taktS, actualS }) => ({
      name: `${part}, ${pattern}`,
      value: madePct({ taktS, actualS }),
    })),
  );
  if (rows.length === 0) return null;
  const missed = rows.filter(({ value }) => value < 100 - 1e-6).length;
  return barsChart({
    title:
      missed === 0
        ? 'Every demand is met in every pattern'
        : `${missed} of ${rows.length} demands are not met`,
    unit: 'good parts, % of the demand',
    rows,
    data: taktTable(patterns)!,
    note: 'Dashed line: the demand of parts.csv. Constant times, without random stops.',
    digits: 0,
    line: 100,
  });
}

/** Programs that lock the cell up make nothing and are left out. */
export function programPartsChart({ rules, result }: SimulationStudy): ChartOrReason {
  const rows = rules.flatMap(({ dispatch, partsPerShift }) => {
    const total = partsPerShift;
    return total === null
      ? []
      : [{ name: dispatch, value: total.mean, low: total.ciLow, high: total.ciHigh }];
  });
  const [best] = [...rows].sort((a, b) => b.value - a.value);
  if (best === undefined) return noChart('One robot program was simulated, so there is none to compare.');
  return barsChart({
    title: `Robot program ${best.name} makes the most: ${numberText(best.value, 1)} good parts a shift`,
    unit: 'good parts a shift',
    rows,
    note: `Simulated with the same random numbers; line: the mean at ${percentText(result.confidencePct).replace('.0', '')} confidence.`,
    digits: 1,
  });
}

export function simulatedLossChart(result: SimulationResult, where: string): ChartOrReason {
  const rows = result.losses.map(({ cause, partsPerShift, ciLow, ciHigh }) => ({
    name: cause,
    value: partsPerShift,
    low: ciLow,
    high: ciHigh,
  }));
  const [largest] = [...rows].sort((a, b) => b.value - a.value);
  if (largest === undefined) return noChart('Losses were not separated in these runs.');
  if (largest.value <= 0) return noChart('No cause loses parts in these runs.');
  return barsChart({
    title: `Most parts of a shift are lost to ${largest.name}: ${numberText(largest.value, 1)}`,
    unit: 'good parts a shift lost',
    rows,
    note: `Simulated ${where}; one cause at a time is added, in this order. Line: confidence interval.`,
    digits: 1,
  });
}
