/** The step in which a watch was read. */

const STEPS = [1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001];

/**
 * @param values in seconds
 * @returns the largest of 1, 0.5, 0.2, 0.1, … 0.001 s of which all values are multiples; 0 where none is
 * @example resolution([12.2, 12.4, 13]) // 0.2
 */
export function resolution(values: ArrayLike<number>): number {
  const list = Array.from(values);
  const isStep = (step: number): boolean =>
    list.every((v) => Math.abs(v / step - Math.round(v / step)) < 1e-6);
  return STEPS.find(isStep) ?? 0;
}
