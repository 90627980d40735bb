/** Files and folders that are there only while something is written; a signal that ends the program takes them away. */
import { rmSync } from 'node:fs';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
const paths = new Set<string>();
let listening = false;

/** From now on a signal that ends the program removes this path first. */
export function trackTemporary(path: string): void {
  // The listeners stay: a signal that is caught while they go away would be heard by nobody, and the work would go on.
  if (!listening) for (const signal of SIGNALS) process.prependListener(signal, removeAndEnd);
  listening = true;
  paths.add(path);
}

/** Removes the path, if it is there, and forgets it. */
export function removeTemporary(path: string): void {
  rmSync(path, { recursive: true, force: true });
  paths.delete(path);
}

/**
 * To be awaited before long work: what was caught until now is heard first, and from then on a signal ends the program at
 * once. With a listener it would be heard only when the work lets go.
 */
export async function letSignalsEnd(): Promise<void> {
  // Twice: a turn that has heard its signals already goes on to the first at once.
  for (let turn = 0; turn < 2; turn++) await new Promise((done) => setImmediate(done));
  if (paths.size > 0) return;
  for (const signal of SIGNALS) process.removeListener(signal, removeAndEnd);
  listening = false;
}

/** With nothing to take away, another listener such as that of a sweep, which keeps its points, is left to answer. */
function removeAndEnd(signal: NodeJS.Signals): void {
  if (paths.size === 0 && process.listenerCount(signal) > 1) return;
  for (const path of [...paths]) removeTemporary(path);
  // Without a listener the signal ends the program as usual.
  process.removeAllListeners(signal);
  process.kill(process.pid, signal);
}
