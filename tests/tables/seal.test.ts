/** The last line of a file that the program writes. */
import { expect, it } from 'vitest';
import { SEAL_CHARACTERS, sealLine, sealOf } from '../../src/tables/seal.js';

const DIGITS = '0123456789abcdef'.repeat(4);

it('holds 64 digits and is known by all of its words', () => {
  const line = sealLine(DIGITS);
  expect([line.length, line.at(-1)]).toEqual([SEAL_CHARACTERS, '\n']);
  expect(sealOf(line.trimEnd())).toBe(DIGITS);
  expect(line).toBe(`# end of what roundsman wrote; SHA-256 of the lines above: ${DIGITS}\n`);
  const others = [
    line,
    ` ${line.trimEnd()}`,
    line.trimEnd().slice(0, -1),
    `${line.trimEnd()}0`,
    line.trimEnd().toUpperCase(),
    '',
  ];
  expect(others.map(sealOf)).toEqual(others.map(() => null));
});
