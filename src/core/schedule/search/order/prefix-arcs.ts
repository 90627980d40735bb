/**
 * The arcs of a prefix on flat lists that are laid out once, and what the robot's own chain says of each arc as it comes.
 * An arc says: its end begins at least so much later than its start, less its periods times the period.
 */

export class PrefixArcs {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly weightS: Float64Array;
  readonly periods: Int32Array;
  count = 0;
  /** The greatest ratio of the circuits that one arc closes with the chain; Infinity where one is hopeless. */
  chainBoundS = 0;
  /** Robot time along the order from the first event to each position. */
  private readonly chainS: Float64Array;

  /** @param toleranceS a circuit of no period may be longer than 0 by so much */
  constructor(
    positions: number,
    most: number,
    private readonly toleranceS: number,
  ) {
    this.from = new Int32Array(most);
    this.to = new Int32Array(most);
    this.weightS = new Float64Array(most);
    this.periods = new Int32Array(most);
    this.chainS = new Float64Array(positions);
  }

  add(from: number, to: number, weightS: number, periods: number): void {
    if (to <= from) this.judgeBack(this.chainS[from]! - this.chainS[to]! + weightS, periods);
    const a = this.count++;
    this.from[a] = from;
    this.to[a] = to;
    this.weightS[a] = weightS;
    this.periods[a] = periods;
  }

  /** The robot's own chain: from the position before to `position`. */
  addStep(position: number, stepS: number): void {
    this.chainS[position] = this.chainS[position - 1]! + stepS;
    this.add(position - 1, position, stepS, 0);
  }

  /** An arc backwards closes a circuit with the robot's own chain; its ratio is a bound at once. */
  private judgeBack(weightS: number, periods: number): void {
    if (periods > 0) {
      const ratioS = weightS / periods;
      if (ratioS > this.chainBoundS) this.chainBoundS = ratioS;
    } else if (weightS > this.toleranceS) this.chainBoundS = Number.POSITIVE_INFINITY;
  }
}
