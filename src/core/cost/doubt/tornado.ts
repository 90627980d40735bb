/** Each doubtful input alone at its low and its high, all others at their values: which matters most. */
import { type CaseInputs, type TaxBasis, withNumbers } from '../case-inputs.js';
import { incrementFor } from '../increment-result.js';
import type { Way } from '../plan-flows.js';
import type { Scenario } from '../result.js';
import type { RangedItem } from './ranged-items.js';

export interface TornadoBar {
  readonly item: string;
  readonly low: number;
  readonly high: number;
  readonly npvLow: number;
  readonly npvHigh: number;
}

/**
 * @param value the figure that is watched, such as the net present value of boxes against the harness
 * @returns bars by size of swing, largest first; equal swings in the order of the items
 */
export function tornado(
  inputs: CaseInputs,
  items: readonly RangedItem[],
  value: (inputs: CaseInputs) => number,
): TornadoBar[] {
  const bars = items.map(({ item, low, high }) => ({
    item,
    low,
    high,
    npvLow: value(withNumbers(inputs, { [item]: low })),
    npvHigh: value(withNumbers(inputs, { [item]: high })),
  }));
  const swing = (bar: TornadoBar) => Math.abs(bar.npvHigh - bar.npvLow);
  return bars.sort((a, b) => swing(b) - swing(a));
}

/**
 * @param ways that are held against moving the harness
 * @param bars of these ways: which end of an item is the worse one
 */
export function scenarios(
  inputs: CaseInputs,
  ways: readonly Way[],
  basis: TaxBasis,
  bars: readonly TornadoBar[],
): Scenario[] {
  const ends = (isWorse: boolean) =>
    Object.fromEntries(
      bars.map(({ item, low, high, npvLow, npvHigh }) => [item, npvLow < npvHigh === isWorse ? low : high]),
    );
  const at = (name: Scenario['name'], changed: Readonly<Record<string, number>>): Scenario => {
    const { npv, irrPct, paybackYears } = incrementFor(withNumbers(inputs, changed), ways, basis);
    return { name, npv, irrPct, paybackYears };
  };
  return [at('low', ends(true)), at('expected', {}), at('high', ends(false))];
}
