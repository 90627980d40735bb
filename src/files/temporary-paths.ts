/** Files and folders that are there only while something is written; a signal that ends the program takes them away. */
import { rmSync } from 'node:fs';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
const paths = new Set<string>();

/** From now on a signal that ends the program removes this path first. */
export function trackTemporary(path: string): void {
  if (paths.size === 0) for (const signal of SIGNALS) process.on(signal, removeAndEnd);
  paths.add(path);
}

/** Removes the path, if it is there, and forgets it. */
export function removeTemporary(path: string): void {
  rmSync(path, { recursive: true, force: true });
  paths.delete(path);
  if (paths.size === 0) for (const signal of SIGNALS) process.removeListener(signal, removeAndEnd);
}

/** Without this listener the signal ends the program as usual. */
function removeAndEnd(signal: NodeJS.Signals): void {
  for (const path of [...paths]) removeTemporary(path);
  process.kill(process.pid, signal);
}
