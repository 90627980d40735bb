/** Name and version of the program, from its package. */
import { readFileSync } from 'node:fs';
import { packagePath } from './package-path.js';

export { PROGRAM } from '../render/result-json.js';

export function programVersion(): string {
  const text = readFileSync(packagePath('package.json'), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
