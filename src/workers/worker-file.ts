/** Where a compiled worker lies: beside its pool, or, when the pool runs from its source as in tests, in the last build. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** @example workerFile('sweep-worker.js') */
export function workerFile(name: string): string {
  const beside = fileURLToPath(new URL(`./${name}`, import.meta.url));
  return existsSync(beside) ? beside : fileURLToPath(new URL(`../../dist/workers/${name}`, import.meta.url));
}
