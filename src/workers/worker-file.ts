/** Where a compiled worker lies: beside its pool, or, when the pool runs from its source as in tests, in the last build. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** @example workerFile('sweep-worker.js') */
export function workerFile(name: string): string {
  const beside = fileURLToPath(new URL(`./${name}`, import.meta.url));
  const built = fileURLToPath(new URL(`../../dist/workers/${name}`, import.meta.url));
  const found = [beside, built].find((file) => existsSync(file));
  // Without this a pool would wait for its threads for ever.
  if (found === undefined) throw new Error(`a file of the program is missing: ${beside}`);
  return found;
}
