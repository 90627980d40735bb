/** Heights of labels beside the ends of lines, moved apart where they would cover one another. */

/**
 * @param wanted heights at which the labels would best stand
 * @param gap least distance between two
 * @returns heights in the order of `wanted`, as near to them as the gap lets, none beyond `most`
 * @example spreadLabels([10, 12], 14, 100) // [10, 24]
 */
export function spreadLabels(wanted: readonly number[], gap: number, most: number): number[] {
  const order = wanted.map((_, k) => k).sort((a, b) => wanted[a]! - wanted[b]!);
  const heights = [...wanted];
  let last = Number.NEGATIVE_INFINITY;
  for (const k of order) last = heights[k] = Math.max(wanted[k]!, last + gap);
  let next = most + gap;
  for (const k of order.reverse()) next = heights[k] = Math.min(heights[k]!, next - gap);
  return heights;
}
