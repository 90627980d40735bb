/** Names of the options that a cost case compares, and the same in words, for sentences. */

export const HARNESS = 'move the harness';
export const BOX_EVERYWHERE = 'a box on every machine';
export const BOX_SOME = 'boxes on the best machines';
export const BOX_SHARED = 'shared boxes';

/** @example planInWords({ name: 'boxes on the best machines', stations: ['saw_1'] }) // 'boxes on saw_1' */
export function planInWords({ name, stations }: { name: string; stations: readonly string[] }): string {
  if (name === HARNESS) return 'moving the harness';
  if (name === BOX_EVERYWHERE) return 'boxes on every machine';
  const machines = stations.join(', ');
  return name === BOX_SHARED ? `boxes shared among ${machines}` : `boxes on ${machines}`;
}
