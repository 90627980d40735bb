/** Paths inside the program's own package, the same from src/cli and from dist/cli. */
import { fileURLToPath } from 'node:url';

/** @example packagePath('data/starter') */
export function packagePath(relative: string): string {
  return fileURLToPath(new URL(`../../${relative}`, import.meta.url));
}
