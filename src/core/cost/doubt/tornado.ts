/** Each doubtful input alone at its low and its high, all others at their values: which matters most. */
import { type CaseInputs, withNumbers } from '../case-inputs.js';
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
