/** Moves a fitted distribution onto the mean of the readings, so that estimate and simulation rest on one mean. */
import type { Distribution } from '../../model/cell.js';

/**
 * Times scale with the mean and shapes stay, as do coefficients of variation; distributions with ends are shifted, or
 * scaled where a shift would lead below 0.
 *
 * @param parameters as variation.csv takes them
 * @param from mean of the distribution, above 0
 * @param to mean wanted, above 0
 */
export function withMean(
  distribution: Distribution,
  parameters: readonly number[],
  from: number,
  to: number,
): readonly number[] {
  switch (distribution) {
    case 'lognormal':
      return scaled(parameters, from, to);
    case 'triangular':
    case 'pert':
      return shifted(parameters, from, to);
    case 'readings':
      return parameters;
    default:
      return [to, ...parameters.slice(1)];
  }
}

function shifted(parameters: readonly number[], from: number, to: number): readonly number[] {
  const moved = parameters.map((value) => value + to - from);
  return moved.every((value) => value >= 0) ? moved : scaled(parameters, from, to);
}

function scaled(parameters: readonly number[], from: number, to: number): readonly number[] {
  return parameters.map((value) => (value * to) / from);
}
