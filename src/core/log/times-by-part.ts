/** A measured time over all parts, and by part where the log names them. */
import { Measure } from './measure.js';

/** Parts told apart at most; the tables hold no more. */
const MOST_PARTS = 200;

export class TimesByPart {
  readonly all = new Measure();
  readonly byPart = new Map<number, Measure>();

  /** The times to hold one of a part against: its own, or all where none of it were measured. */
  usualFor(part: number): Measure {
    return this.byPart.get(part) ?? this.all;
  }

  /** @param part -1 = not known */
  add(seconds: number, part: number): void {
    this.all.add(seconds);
    if (part < 0) return;
    let own = this.byPart.get(part);
    if (own === undefined) {
      if (this.byPart.size === MOST_PARTS) return;
      own = new Measure();
      this.byPart.set(part, own);
    }
    own.add(seconds);
  }
}
