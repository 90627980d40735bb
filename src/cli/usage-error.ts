/** A wrong use of a command, found after its options were read one by one. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
