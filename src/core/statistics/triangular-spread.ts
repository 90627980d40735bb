/** The triangular distribution between a low and a high, with its peak in between. */

export interface Spread {
  readonly mean: number;
  readonly variance: number;
  /** Value below which the share u of all outcomes lies, 0 < u < 1. */
  quantile(u: number): number;
}

/**
 * Mean (a + m + b)/3, variance (a2 + m2 + b2 - am - ab - mb)/18.
 *
 * @param low <= mode <= high, all finite
 */
export function triangularSpread(low: number, mode: number, high: number): Spread {
  const width = high - low;
  if (width === 0) return { mean: mode, variance: 0, quantile: () => mode };
  const turn = (mode - low) / width;
  return {
    mean: (low + mode + high) / 3,
    variance: (low * low + mode * mode + high * high - low * mode - low * high - mode * high) / 18,
    quantile: (u) =>
      u < turn
        ? low + Math.sqrt(u * width * (mode - low))
        : high - Math.sqrt((1 - u) * width * (high - mode)),
  };
}
