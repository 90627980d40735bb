/** The script of the report's page as it was compiled with the last build. */
import { readFileSync } from 'node:fs';
import { packagePath } from './package-path.js';

export function pageScript(): string {
  return readFileSync(packagePath('dist/page/walk-moves.js'), 'utf8').trim();
}
