/** What one machine asks of interface boxes, and how many boxes that takes. */
import type { CostItem, Signal } from '../model/cell.js';
import { costNumber } from '../model/cost-value.js';

/** Points and current that one machine's signals take. */
export interface SignalDemand {
  readonly inputs: number;
  readonly outputs: number;
  /** Sum of the currents that signals.csv gives. */
  readonly loadA: number;
  /** Signals whose current is not given; they count as 0 A. */
  readonly withoutCurrent: number;
}

/** What one box offers, from its data sheet. */
export interface BoxRating {
  readonly inputs: number;
  readonly outputs: number;
  readonly amps: number;
}

export function signalDemand(signals: readonly Signal[]): SignalDemand {
  return {
    inputs: signals.filter((signal) => signal.direction === 'in').length,
    outputs: signals.filter((signal) => signal.direction === 'out').length,
    loadA: signals.reduce((sum, signal) => sum + (signal.milliamps ?? 0), 0) / 1000,
    withoutCurrent: signals.filter((signal) => signal.milliamps === null).length,
  };
}

/** The box of the cost table, or the names of the items that it lacks. */
export function boxRating(costs: readonly CostItem[]): BoxRating | { readonly missing: string[] } {
  const inputs = costNumber(costs, 'box_inputs');
  const outputs = costNumber(costs, 'box_outputs');
  const amps = costNumber(costs, 'box_amps');
  if (inputs !== null && outputs !== null && amps !== null) return { inputs, outputs, amps };
  const all = { box_inputs: inputs, box_outputs: outputs, box_amps: amps };
  return { missing: Object.entries(all).flatMap(([name, value]) => (value === null ? [name] : [])) };
}

/**
 * Boxes for one machine: enough for its inputs, its outputs and its current, whichever asks for most.
 *
 * @param demand what the machine's signals take
 * @param box what one box offers: every figure above 0
 * @returns whole number; 0 only for a machine without signals
 * @throws RangeError where the box offers 0 or less of anything
 * @example boxesNeeded({ inputs: 18, outputs: 6, loadA: 1, withoutCurrent: 0 }, { inputs: 16, outputs: 16, amps: 4 }) // 2
 */
export function boxesNeeded(demand: SignalDemand, box: BoxRating): number {
  if (!(box.inputs > 0 && box.outputs > 0 && box.amps > 0))
    throw new RangeError('a box must offer more than 0 inputs, outputs and amperes');
  const most = Math.max(demand.inputs / box.inputs, demand.outputs / box.outputs, demand.loadA / box.amps);
  // Currents are sums of decimals: a hair above a whole number is that whole number.
  return Math.max(0, Math.ceil(most - 1e-9));
}
