/** Counts the parts that are made, in all and by shift. */
import { Measure } from './measure.js';
import type { ShiftTurn, ShiftTurns } from './shift-turns.js';
import type { UnderWay } from './waiting-line.js';

export class PartCount {
  readonly byPart = new Map<number, number>();
  readonly byTurn = new Map<ShiftTurn, number>();
  /** Between two parts, seconds. */
  readonly interval = new Measure();
  private lastS = Number.NaN;
  private stretch = -1;
  total = 0;
  outside = 0;

  /**
   * @param turns null = no shifts are known
   * @param epochS moment of the part, seconds since 1970
   * @param now its time and part on the time line of the log
   */
  add(turns: ShiftTurns | null, epochS: number, { timeS, part, stretch }: UnderWay): void {
    this.total++;
    if (stretch === this.stretch) this.interval.add(timeS - this.lastS);
    this.lastS = timeS;
    this.stretch = stretch;
    this.byPart.set(part, (this.byPart.get(part) ?? 0) + 1);
    if (turns === null) return;
    const turn = turns.at(epochS);
    if (turn === null) this.outside++;
    else this.byTurn.set(turn, (this.byTurn.get(turn) ?? 0) + 1);
  }
}
