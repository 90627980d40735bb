/** A fault of the program itself, in words: no trace, but enough to report it by. */
import { visibleText } from '../render/visible-text.js';
import { PROGRAM, programVersion } from './version.js';

export function faultText(error: unknown): string {
  const message = visibleText(error instanceof Error ? error.message : String(error)).replace(/\.?$/, '.');
  if (isMissingPart(error))
    return `A part of the program is missing: ${message}
Install it anew, in its own folder with \`npm ci\`. Your tables are untouched.
`;
  return `The program met a fault of its own and stopped: ${message}
Your tables are untouched. Please report this sentence, the command and the tables to the makers of ${PROGRAM} ${programVersion()} (Node ${process.version}).
`;
}

/** On the way between threads an error loses its code, but not its words. */
function isMissingPart(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const code = 'code' in error ? error.code : '';
  return (
    code === 'ERR_MODULE_NOT_FOUND' ||
    /^(Cannot find (package|module)|a file of the program is missing)/i.test(error.message)
  );
}
