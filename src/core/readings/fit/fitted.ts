/** A distribution fitted to readings. */
import type { Distribution } from '../../model/cell.js';

export interface Fitted {
  readonly distribution: Distribution;
  /** As variation.csv takes them, in the unit of the readings. */
  readonly parameters: readonly number[];
  /** Numbers that were chosen to fit. */
  readonly freeParameters: number;
  /** Natural logarithm of the likelihood of the readings. */
  readonly logLikelihood: number;
  /** Share of outcomes below x. */
  readonly share: (x: number) => number;
}

/** @param sorted readings ascending, two or more, all above 0, not all equal @returns null where the form cannot fit them */
export type Fitter = (sorted: Float64Array) => Fitted | null;
