/**
 * The best order of a round with one hand and no longest waits, period by period: is there an order with this period?
 * Without longest waits every longer period is then possible too, so a few such questions, from a bound below and a
 * found order above, lead to the least one. Each is answered by deciding pair by pair which of two moves goes first,
 * the pair with the least freedom first (the idea of S. F. Smith and C.-C. Cheng, Slack-based heuristics for
 * constraint satisfaction scheduling, AAAI 1993), with all consequences drawn at once; where the
 * robot is busy most of the time, the least sum of its moves and ways must fit into the period too.
 *
 * Independent machines that are visited several times a round have little freedom once the first few pairs are
 * decided, so that this takes hundreds of nodes where an order built from its start takes millions.
 */

import { periodBound } from '../../bound/period-bound.js';
import { type TimedOrder, timeOrder } from '../../evaluate/evaluate-order.js';
import type { Plan } from '../../plan/plan.js';
import { PERIOD_TOLERANCE_S } from '../order/order-prefix.js';
import type { SearchLimits, SearchOutcome } from '../order/search-order.js';
import { MoveGaps } from './move-gaps.js';
import { RobotRound } from './robot-round.js';
import { type RoundMoves, roundMoves } from './round-moves.js';

/** Between a period that is impossible and one that is found the middle is asked while they differ by this share. */
const HALVING_SHARE = 0.004;
/** With no order found yet, how far above the bound the second question lies; twice as far each time. */
const FIRST_RISE = 0.01;
/** The robot's work is added up in every node where it takes more than this share of the period from the start. */
const BUSY_SHARE = 0.8;

/** @returns null where the plan is not of this kind (see {@link roundMoves}) */
export function searchGaps(plan: Plan, limits: SearchLimits): SearchOutcome | null {
  const moves = roundMoves(plan);
  return moves === null ? null : new GapSearch(plan, moves, limits).run();
}

class GapSearch {
  private readonly gaps: MoveGaps;
  private readonly robot: RobotRound;
  private periodS = 0;
  /** The robot is busy enough for its work to be a bound. */
  private isBusy = false;
  private best: TimedOrder | null = null;
  private bestS: number;
  /** No order has a period below this. */
  private lowS: number;
  private nodes = 0;
  private stopped = false;

  constructor(
    private readonly plan: Plan,
    private readonly moves: RoundMoves,
    private readonly limits: SearchLimits,
  ) {
    this.gaps = new MoveGaps(moves);
    this.robot = new RobotRound(moves);
    this.bestS = limits.belowS;
    this.lowS = periodBound(plan);
  }

  run(): SearchOutcome {
    let atBound = false;
    let riseS = FIRST_RISE * this.lowS;
    while (!this.stopped && this.lowS < this.belowBest()) {
      let periodS = this.belowBest();
      if (this.best !== null || periodS === Number.POSITIVE_INFINITY) {
        if (!atBound) {
          periodS = this.lowS;
          atBound = true;
        } else if (periodS === Number.POSITIVE_INFINITY) {
          periodS = this.lowS + riseS;
          riseS *= 2;
        } else if (periodS - this.lowS > HALVING_SHARE * periodS) periodS = (this.lowS + periodS) / 2;
      }
      if (!this.tryPeriod(periodS) && !this.stopped) this.lowS = periodS;
    }
    const complete = !this.stopped;
    return {
      best: this.best,
      boundS: complete ? this.bestS : Math.min(this.lowS, this.bestS),
      complete,
      nodes: this.nodes,
    };
  }

  /** The longest period that is shorter than the best one. */
  private belowBest(): number {
    return this.bestS * (1 - 1e-10) - PERIOD_TOLERANCE_S;
  }

  /** Looks for an order with this period or a shorter one; false when there is none, or a limit came first. */
  private tryPeriod(periodS: number): boolean {
    this.periodS = periodS;
    if (!this.gaps.begin(periodS)) return false;
    this.isBusy = this.robot.leastS(this.gaps, periodS, periodS, 0) > BUSY_SHARE * periodS;
    return this.descend(periodS, 1);
  }

  /** @param waitS the robot waits no longer than this in the whole round */
  private descend(waitS: number, depth: number): boolean {
    if (++this.nodes >= this.limits.nodes || Date.now() > this.limits.untilMs) this.stopped = true;
    if (this.stopped) return false;
    let leftS = waitS;
    if (this.isBusy) {
      leftS = Math.min(waitS, this.periodS - this.robot.leastS(this.gaps, this.periodS, waitS, depth));
      if (leftS < -1e-9 * this.periodS) return false;
    }
    const pair = this.gaps.tightestPair();
    if (pair < 0) return this.finish();
    const mark = this.gaps.mark();
    const wider = this.gaps.isLowerWider(pair);
    for (const lower of [wider, !wider]) {
      if (this.gaps.decide(pair, lower) && this.descend(leftS, depth + 1)) return true;
      this.gaps.takeBack(mark);
      if (this.stopped) return false;
    }
    return false;
  }

  /** Ways that need a detour may make an order slower than the bounds say; then the search goes on. */
  private finish(): boolean {
    const order = this.gaps.order().flatMap((move) => this.moves.units.events[this.moves.unit[move]!]!);
    const result = timeOrder(this.plan, order);
    if (result === null || result.periodS > this.belowBest()) return false;
    this.best = result;
    this.bestS = result.periodS;
    return true;
  }
}
