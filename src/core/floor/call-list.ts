/**
 * Slots that call the robot, in the order of their calls: finished ones to be unloaded, empty ones to be loaded. A
 * slot that is emptied and can be filled from an infeed keeps its place. Doubly linked over typed arrays.
 */
export class CallList {
  readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly listed: Uint8Array;
  head = -1;
  private tail = -1;

  constructor(slots: number) {
    this.next = new Int32Array(slots).fill(-1);
    this.previous = new Int32Array(slots).fill(-1);
    this.listed = new Uint8Array(slots);
  }

  /** Puts a slot at the end; a slot that is listed already moves there. */
  add(slot: number): void {
    if (this.listed[slot] === 1) this.remove(slot);
    this.listed[slot] = 1;
    this.next[slot] = -1;
    this.previous[slot] = this.tail;
    if (this.tail >= 0) this.next[this.tail] = slot;
    else this.head = slot;
    this.tail = slot;
  }

  remove(slot: number): void {
    if (this.listed[slot] === 0) return;
    this.listed[slot] = 0;
    const before = this.previous[slot]!;
    const after = this.next[slot]!;
    if (before >= 0) this.next[before] = after;
    else this.head = after;
    if (after >= 0) this.previous[after] = before;
    else this.tail = before;
  }
}
