/** A file that could not be written, in words for the user. */
export class WriteError extends Error {
  override readonly name = 'WriteError';

  constructor(
    readonly path: string,
    reason: string,
  ) {
    super(`\`${path}\` cannot be written: ${reason}`);
  }
}
