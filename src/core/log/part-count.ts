/** Counts the parts that are made, in all and by shift. */
import type { ShiftTurn, ShiftTurns } from './shift-turns.js';

export class PartCount {
  readonly byPart = new Map<number, number>();
  readonly byTurn = new Map<ShiftTurn, number>();
  total = 0;
  outside = 0;

  /**
   * @param turns null = no shifts are known
   * @param epochS moment of the part, seconds since 1970
   * @param part -1 = not named
   */
  add(turns: ShiftTurns | null, epochS: number, part: number): void {
    this.total++;
    this.byPart.set(part, (this.byPart.get(part) ?? 0) + 1);
    if (turns === null) return;
    const turn = turns.at(epochS);
    if (turn === null) this.outside++;
    else this.byTurn.set(turn, (this.byTurn.get(turn) ?? 0) + 1);
  }
}
