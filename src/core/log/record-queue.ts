/** Records waiting to be put in order: a ring of typed arrays, sorted by time as they come. */
import { comesBefore } from './signals.js';

/** Takes one record. @param clockS what the clock said, where timeS is put right; @param part -1 = none */
export type TakeRecord = (
  timeS: number,
  clockS: number,
  station: number,
  signal: number,
  part: number,
  line: number,
) => void;

/** Records held at most; beyond that the oldest goes on, so that memory stays fixed. */
const MOST = 1 << 16;

export class RecordQueue {
  size = 0;
  private capacity = 256;
  private first = 0;
  private timeS = new Float64Array(this.capacity);
  private clockS = new Float64Array(this.capacity);
  private station = new Int32Array(this.capacity);
  private signal = new Int32Array(this.capacity);
  private part = new Int32Array(this.capacity);
  private line = new Float64Array(this.capacity);

  constructor(private readonly take: TakeRecord) {}

  /** Time of the oldest record; Infinity where there is none. */
  get firstS(): number {
    return this.size === 0 ? Number.POSITIVE_INFINITY : this.timeS[this.first]!;
  }

  /** Puts a record in its place. @returns true where it came later than a record of a later time */
  add(timeS: number, clockS: number, station: number, signal: number, part: number, line: number): boolean {
    if (this.size === this.capacity) this.makeRoom();
    const mask = this.capacity - 1;
    let at = (this.first + this.size) & mask;
    let late = false;
    for (let left = this.size; left > 0; left--) {
      const before = (at - 1) & mask;
      const t = this.timeS[before]!;
      // At one time, a record goes before another of its station whose signal comes after its own.
      const swaps = this.station[before] === station && comesBefore(signal, this.signal[before]!);
      if (t < timeS || (t === timeS && !swaps)) break;
      late ||= t > timeS;
      this.copy(before, at);
      at = before;
    }
    this.timeS[at] = timeS;
    this.clockS[at] = clockS;
    this.station[at] = station;
    this.signal[at] = signal;
    this.part[at] = part;
    this.line[at] = line;
    this.size++;
    return late;
  }

  private copy(from: number, to: number): void {
    this.timeS[to] = this.timeS[from]!;
    this.clockS[to] = this.clockS[from]!;
    this.station[to] = this.station[from]!;
    this.signal[to] = this.signal[from]!;
    this.part[to] = this.part[from]!;
    this.line[to] = this.line[from]!;
  }

  private makeRoom(): void {
    if (this.capacity === MOST) {
      this.release();
      return;
    }
    this.capacity *= 2;
    for (const name of ['timeS', 'clockS', 'line'] as const)
      this[name] = unrolled(new Float64Array(this.capacity), this[name], this.first);
    for (const name of ['station', 'signal', 'part'] as const)
      this[name] = unrolled(new Int32Array(this.capacity), this[name], this.first);
    this.first = 0;
  }

  /** Hands on the oldest record. */
  private release(): void {
    const i = this.first;
    this.first = (i + 1) & (this.capacity - 1);
    this.size--;
    this.take(
      this.timeS[i]!,
      this.clockS[i]!,
      this.station[i]!,
      this.signal[i]!,
      this.part[i]!,
      this.line[i]!,
    );
  }

  /** Hands on all records before a time. */
  releaseBefore(timeS: number): void {
    while (this.size > 0 && this.timeS[this.first]! < timeS) this.release();
  }
}

/** The values of a ring from its first on, at the front of a wider array. */
function unrolled<T extends Float64Array | Int32Array>(wide: T, ring: T, first: number): T {
  wide.set(ring.subarray(first));
  wide.set(ring.subarray(0, first), ring.length - first);
  return wide;
}
