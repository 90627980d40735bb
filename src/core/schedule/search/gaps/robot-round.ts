/**
 * The robot's work in a round, at least: from every move it goes on to one other, and to each from one. Which moves
 * can follow each other straight is known from the bounds of their starts and from how long the robot may still wait
 * in the whole round; of what is left the least assignment counts.
 */
import { RisingAssignment } from '../../../lp/least-assignment.js';
import type { MoveGaps } from './move-gaps.js';
import type { RoundMoves } from './round-moves.js';

export class RobotRound {
  private readonly rows: readonly Float64Array[];
  /** By depth of the search: bounds get closer there, so that each assignment goes on from the one above it. */
  private readonly assigned: RisingAssignment[] = [];

  constructor(private readonly moves: RoundMoves) {
    const { count } = moves;
    this.rows = Array.from({ length: count }, () => new Float64Array(count));
  }

  /**
   * @param waitS the robot may wait no longer than this in the whole round
   * @param depth 0 for a new period; else bounds at least as close, and no more waiting, than when the depth before it was
   *   asked for last
   * @returns seconds of moves and ways, a bound of every order within the gaps; above the period when there is none
   */
  leastS(gaps: MoveGaps, periodS: number, waitS: number, depth: number): number {
    const { count, leastS } = this.moves;
    for (const [a, row] of this.rows.entries())
      for (let b = 0; b < count; b++)
        row[b] =
          (a !== b || count === 1) && gaps.mayFollow(a, b, waitS) ? leastS[a * count + b]! : 2 * periodS;
    if (depth === this.assigned.length) this.assigned.push(new RisingAssignment(count));
    const assigned = this.assigned[depth]!;
    if (depth === 0) assigned.clear();
    else assigned.startFrom(this.assigned[depth - 1]!);
    return assigned.leastTotal(this.rows);
  }
}
