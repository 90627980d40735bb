/**
 * Where a part goes next: over held steps and steps that only one part in n makes, to the next station that takes it
 * out of the hand.
 */
import { type CompiledCell, HELD } from './compiled-cell.js';

export class RoutePath {
  /** Held operations on the way found last. */
  readonly held: Int32Array;
  heldCount = 0;
  /** By operation: parts that have come to a step with `every`. */
  private readonly passed: Int32Array;

  constructor(private readonly cell: CompiledCell) {
    this.held = new Int32Array(cell.opCount);
    this.passed = new Int32Array(cell.opCount);
  }

  /** Next operation after op that is not held; fills `held`. Counts nothing. */
  next(op: number): number {
    const plain = this.cell.opPlainNext[op]!;
    this.heldCount = 0;
    if (plain >= 0) return plain;
    const { opKind, opEvery } = this.cell;
    let n = op + 1;
    for (; ; n++) {
      const every = opEvery[n]!;
      if (every > 1 && (this.passed[n]! + 1) % every !== 0) continue;
      if (opKind[n] !== HELD) return n;
      this.held[this.heldCount++] = n;
    }
  }

  /** Where each step with `every` is in its turn. */
  signature(push: (value: number) => void): void {
    for (const passed of this.passed) push(passed);
  }

  /**
   * The part goes this way for good: steps with `every` count it.
   *
   * @param dest what next(op) gives
   * @returns how many held operations lie on the way; they stand in `held`
   */
  take(op: number, dest: number): number {
    if (this.cell.opPlainNext[op]! >= 0) return 0;
    if (this.next(op) !== dest) throw new RangeError('a part must follow the route that was found for it');
    for (let n = op + 1; n <= dest; n++)
      if (this.cell.opEvery[n]! > 1) this.passed[n] = (this.passed[n]! + 1) % this.cell.opEvery[n]!;
    return this.heldCount;
  }
}
