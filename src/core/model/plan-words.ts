/** Names of the options that a cost case compares, and the same in words, for sentences. */

export const HARNESS = 'move the harness';
export const BOX_EVERYWHERE = 'a box on every machine';
export const BOX_SOME = 'boxes on the best machines';
export const BOX_SHARED = 'shared boxes';

const EVERYWHERE = 'on every machine';
const BEST = 'on the best machines';
const CONNECTED = new RegExp(`^(.+) (${EVERYWHERE}|${BEST})$`);

/** Name of the option that puts a named connection on all machines or on some. */
export function connectionPlanName(connection: string, everywhere: boolean): string {
  return `${connection} ${everywhere ? EVERYWHERE : BEST}`;
}

/** The connection that an option puts on machines; null for harness and boxes. */
export function connectionOfPlan(name: string): string | null {
  if ([HARNESS, BOX_EVERYWHERE, BOX_SOME, BOX_SHARED].includes(name)) return null;
  return CONNECTED.exec(name)?.[1] ?? null;
}

/** @example planInWords({ name: 'boxes on the best machines', stations: ['saw_1'] }) // 'boxes on saw_1' */
export function planInWords({ name, stations }: { name: string; stations: readonly string[] }): string {
  if (name === HARNESS) return 'moving the harness';
  if (name === BOX_EVERYWHERE) return 'boxes on every machine';
  const machines = stations.join(', ');
  const connection = connectionOfPlan(name);
  if (connection !== null) return name.endsWith(EVERYWHERE) ? name : `${connection} on ${machines}`;
  return name === BOX_SHARED ? `boxes shared among ${machines}` : `boxes on ${machines}`;
}
