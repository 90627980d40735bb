/**
 * Several cells, or dispatch rules, or operators, side by side under the same luck: each variant's result, and the
 * paired difference of every one to the best. An interval that covers 0 shows no difference.
 */
import type { Cell } from '../model/cell.js';
import { pairedDifference } from '../statistics/mean-interval.js';
import { simulateCell } from './simulate-cell.js';
import type { SimulateContext, SimulateOptions } from './simulation-options.js';
import type { Estimate, SimulationResult } from './simulation-result.js';

export interface SimulationVariant {
  readonly name: string;
  readonly cell: Cell;
  readonly options: SimulateOptions;
}

export interface VariantDifference {
  readonly a: string;
  readonly b: string;
  /** Good parts per shift, a less b. */
  readonly partsPerShift: Estimate;
  readonly shown: boolean;
}

export interface SimulationComparison {
  readonly variants: readonly { readonly name: string; readonly result: SimulationResult }[];
  /** Variant with the most good parts per shift. */
  readonly best: string;
  /** Best less each of the others. */
  readonly differences: readonly VariantDifference[];
}

/**
 * @param variants two or more; replications, hours and seed should agree
 * @throws RangeError where the numbers of replications differ, so that there are no pairs
 */
export async function compareSimulations(
  variants: readonly SimulationVariant[],
  context: SimulateContext = {},
): Promise<SimulationComparison> {
  if (variants.length === 0) throw new RangeError('a comparison needs at least one variant');
  const done: { name: string; result: SimulationResult }[] = [];
  for (const v of variants)
    done.push({ name: v.name, result: await simulateCell(v.cell, v.options, context) });
  const best = done.reduce((a, b) => (meanOf(b.result) > meanOf(a.result) ? b : a));
  return {
    variants: done,
    best: best.name,
    differences: done.filter((v) => v !== best).map((v) => difference(best, v)),
  };
}

function meanOf(result: SimulationResult): number {
  return result.partsPerShift.total!.mean;
}

function difference(
  a: { name: string; result: SimulationResult },
  b: { name: string; result: SimulationResult },
): VariantDifference {
  const { mean, ciLow, ciHigh, n } = pairedDifference(
    a.result.meanByReplication,
    b.result.meanByReplication,
    a.result.confidencePct / 100,
  );
  const bounds = n === 1 ? { ciLow: null, ciHigh: null } : { ciLow, ciHigh };
  return {
    a: a.name,
    b: b.name,
    partsPerShift: { mean, ...bounds },
    shown: n > 1 && (ciLow > 0 || ciHigh < 0),
  };
}
