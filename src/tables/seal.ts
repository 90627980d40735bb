/**
 * The last line of a single file that the program writes: the SHA-256 of all before it. It shows that the program wrote
 * the file and that nobody has changed it since, so that it may be written over; readers of tables pass over it.
 */
const SEAL = /^# end of what roundsman wrote; SHA-256 of the lines above: ([0-9a-f]{64})$/;

/** @param sha256 of all text above, in hexadecimal digits */
export function sealLine(sha256: string): string {
  return `# end of what roundsman wrote; SHA-256 of the lines above: ${sha256}\n`;
}

/** Length of the line with its end. */
export const SEAL_CHARACTERS = sealLine('0'.repeat(64)).length;

/** @returns the digits of a seal; null where the line is none */
export function sealOf(line: string): string | null {
  return SEAL.exec(line)?.[1] ?? null;
}
