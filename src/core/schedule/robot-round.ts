/**
 * The robot's work in a round, at least: from every move it goes on to one other, and to each from one. Which moves
 * can follow each other straight is known from the bounds of their starts and from how long the robot may still wait
 * in the whole round; of what is left the least assignment counts.
 */
import { leastAssignment } from '../lp/least-assignment.js';
import type { MoveGaps } from './move-gaps.js';
import type { RoundMoves } from './round-moves.js';

export class RobotRound {
  private readonly rows: readonly Float64Array[];

  constructor(private readonly moves: RoundMoves) {
    const { count } = moves;
    this.rows = Array.from({ length: count }, () => new Float64Array(count));
  }

  /**
   * @param waitS the robot may wait no longer than this in the whole round
   * @returns seconds of moves and ways, a bound of every order within the gaps; above the period when there is none
   */
  leastS(gaps: MoveGaps, periodS: number, waitS: number): number {
    const { count, leastS } = this.moves;
    for (const [a, row] of this.rows.entries())
      for (let b = 0; b < count; b++)
        row[b] =
          (a !== b || count === 1) && gaps.mayFollow(a, b, waitS) ? leastS[a * count + b]! : 2 * periodS;
    return leastAssignment(this.rows).total;
  }
}
