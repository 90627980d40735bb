/**
 * Where a part goes next: over held steps and steps that only one part in n makes, to the next station that takes it
 * out of the hand.
 */
import { type CompiledCell, HELD } from './compiled-cell.js';

export class RoutePath {
  /** Held operations on the way taken last. */
  readonly held: Int32Array;
  /** By operation: parts that have come by since it was made last. */
  private readonly passed: Int32Array;

  constructor(private readonly cell: CompiledCell) {
    this.held = new Int32Array(cell.opCount);
    this.passed = new Int32Array(cell.opCount);
  }

  /** Next operation after op that is not held. */
  next(op: number): number {
    const plain = this.cell.opPlainNext[op]!;
    return plain >= 0 ? plain : this.nextInTurn(op);
  }

  private nextInTurn(op: number): number {
    const { opKind, opEvery } = this.cell;
    for (let n = op + 1; ; n++) {
      const isLeftOut = (this.passed[n]! + 1) % opEvery[n]! !== 0;
      if (!isLeftOut && opKind[n] !== HELD) return n;
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
    return this.cell.opPlainNext[op]! >= 0 ? 0 : this.takeInTurn(op, dest);
  }

  private takeInTurn(op: number, dest: number): number {
    const { opEvery } = this.cell;
    if (this.next(op) !== dest) throw new RangeError('a part must follow the route that was found for it');
    let held = 0;
    for (let n = op + 1; n <= dest; n++) {
      this.passed[n] = (this.passed[n]! + 1) % opEvery[n]!;
      if (n < dest && this.passed[n] === 0) this.held[held++] = n;
    }
    return held;
  }
}
