/** Readings that lie far from the others, by a named rule. They are named, never dropped unseen. */
import { quantile } from '../statistics/quantile.js';

export const OUTLIER_RULES = ['mad', 'fences'] as const;
export type OutlierRule = (typeof OUTLIER_RULES)[number];

/** Limits outside which a reading is named. */
export interface OutlierLimits {
  readonly low: number;
  readonly high: number;
}

/** Modified z-score above which a reading is named (B. Iglewicz, D. Hoaglin, 1993). */
const MOST_Z = 3.5;
/** Median absolute deviation of a standard normal, and mean absolute deviation: they make both into standard deviations. */
const MAD_OF_NORMAL = 0.6745;
const MEAN_DEVIATION_OF_NORMAL = 0.797885;
const FENCE = 1.5;
/** Below this the middle of a sample says too little about its ends. */
const FEWEST = 5;

/** The rule in words. */
export const outlierRuleText: Readonly<Record<OutlierRule, string>> = {
  mad: 'farther from the median than 3.5 robust standard deviations (modified z-score by the median absolute deviation; B. Iglewicz, D. Hoaglin, How to Detect and Handle Outliers, 1993; NIST/SEMATECH e-Handbook 1.3.5.17); where more than half of the readings are equal, by the mean absolute deviation',
  fences:
    'more than 1.5 interquartile ranges outside the quartiles (J. W. Tukey, Exploratory Data Analysis, 1977; quartiles of type 7)',
};

/**
 * @param values in any order
 * @returns null where there are fewer than five readings, or where all are equal: then nothing can be said
 */
export function outlierLimits(values: readonly number[], rule: OutlierRule): OutlierLimits | null {
  const sorted = Float64Array.from(values).sort();
  if (sorted.length < FEWEST || sorted[0] === sorted.at(-1)) return null;
  return rule === 'mad' ? robustLimits(sorted) : fences(sorted);
}

function robustLimits(sorted: Float64Array): OutlierLimits {
  const median = quantile(sorted, 0.5);
  const apart = sorted.map((v) => Math.abs(v - median));
  const mean = apart.reduce((sum, v) => sum + v, 0) / apart.length;
  const mad = quantile(apart.sort(), 0.5);
  const deviation = mad > 0 ? mad / MAD_OF_NORMAL : mean / MEAN_DEVIATION_OF_NORMAL;
  return { low: median - MOST_Z * deviation, high: median + MOST_Z * deviation };
}

function fences(sorted: Float64Array): OutlierLimits {
  const [first, third] = [quantile(sorted, 0.25), quantile(sorted, 0.75)];
  const reach = FENCE * (third - first);
  return { low: first - reach, high: third + reach };
}
