/**
 * Which of several things to choose, each wholly or not at all: depth-first branch and bound, exact.
 *
 * The bound of a partial choice is the fractional knapsack of what is left (Dantzig, "Discrete-variable extremum
 * problems", *Operations Research* 5, 1957), taken for each row by itself; the tightest row counts.
 */

export interface ZeroOneRow {
  /** One weight for each thing; may be negative, as in `x2 - x1 <= 0` (2 only with 1). */
  readonly weights: readonly number[];
  readonly limit: number;
}

export interface ZeroOneProblem {
  /** What each thing adds, at most. */
  readonly values: readonly number[];
  readonly rows: readonly ZeroOneRow[];
  /** True worth of a choice, at most the sum of its values plus `bonus`; null = not allowed. The sum when not given. */
  readonly worth?: (chosen: readonly boolean[]) => number | null;
  /** Most that any completion of a partial choice can be worth beyond its values; null = undecided. 0 when not given. */
  readonly bonus?: (partial: readonly (boolean | null)[]) => number;
  /** A choice to start from. */
  readonly start?: readonly boolean[];
  /** Most nodes; 500,000 when not given. */
  readonly nodeLimit?: number;
}

export interface ZeroOneAnswer {
  readonly chosen: readonly boolean[];
  readonly value: number;
  /** No choice is worth more than this. */
  readonly bound: number;
  readonly proven: boolean;
  readonly nodes: number;
}

/**
 * @returns the best choice; null where no choice keeps the rows
 * @throws RangeError where a number is not finite or a row has too few or too many weights
 */
export function bestZeroOne(problem: ZeroOneProblem): ZeroOneAnswer | null {
  requireProblem(problem);
  const search = new Search(problem);
  if (problem.start) search.offer(problem.start);
  search.descend(0, 0);
  return search.answer();
}

/** The kernel: one array of decisions, changed in place while the search goes down and up. */
class Search {
  private readonly order: number[];
  private readonly byRatio: number[][];
  private readonly partial: (boolean | null)[];
  private readonly room: number[];
  private best: { chosen: boolean[]; value: number } | null = null;
  private nodes = 0;
  private missed = Number.NEGATIVE_INFINITY;

  constructor(private readonly problem: ZeroOneProblem) {
    const { values, rows } = problem;
    this.partial = values.map(() => null);
    this.room = rows.map((row) => row.limit);
    const heaviness = values.map((_, j) =>
      rows.reduce((sum, row) => sum + Math.max(0, row.weights[j]!) / (Math.abs(row.limit) || 1), 1e-12),
    );
    this.order = values
      .map((_, j) => j)
      .sort((a, b) => values[b]! / heaviness[b]! - values[a]! / heaviness[a]!);
    this.byRatio = rows.map((row) =>
      values
        .map((_, j) => j)
        .sort((a, b) => ratio(values[b]!, row.weights[b]!) - ratio(values[a]!, row.weights[a]!)),
    );
  }

  answer(): ZeroOneAnswer | null {
    if (!this.best) return null;
    const bound = Math.max(this.best.value, this.missed);
    const proven = this.missed <= this.best.value + slack(this.best.value);
    return { ...this.best, bound, proven, nodes: this.nodes };
  }

  offer(choice: readonly boolean[]): void {
    const { rows, values, worth } = this.problem;
    const chosen = [...choice];
    const kept = rows.every((row) => dot(row.weights, chosen) <= row.limit + slack(row.limit));
    if (!kept) return;
    const value = worth ? worth(chosen) : dot(values, chosen);
    if (value === null || (this.best && value <= this.best.value)) return;
    this.best = { chosen, value };
  }

  descend(depth: number, sum: number): void {
    const bound = sum + this.mostOfRest() + (this.problem.bonus?.(this.partial) ?? 0);
    if (this.best && bound <= this.best.value + slack(this.best.value)) return;
    // Even with every helpful (negative) weight still to come, a row would be broken.
    if (!this.problem.rows.every((row, i) => this.roomWithHelp(row, i) >= -slack(row.limit))) return;
    if (this.nodes >= (this.problem.nodeLimit ?? 500_000)) {
      this.missed = Math.max(this.missed, bound);
      return;
    }
    this.nodes++;
    if (depth === this.order.length) {
      this.offer(this.partial.map((decided) => decided === true));
      return;
    }
    const j = this.order[depth]!;
    for (const take of [true, false]) {
      this.decide(j, take);
      this.descend(depth + 1, take ? sum + this.problem.values[j]! : sum);
      this.undo(j, take);
    }
  }

  private decide(j: number, take: boolean): void {
    this.partial[j] = take;
    if (take)
      this.problem.rows.forEach((row, i) => {
        this.room[i] = this.room[i]! - row.weights[j]!;
      });
  }

  private undo(j: number, take: boolean): void {
    this.partial[j] = null;
    if (take)
      this.problem.rows.forEach((row, i) => {
        this.room[i] = this.room[i]! + row.weights[j]!;
      });
  }

  private roomWithHelp(row: ZeroOneRow, i: number): number {
    let room = this.room[i]!;
    for (let j = 0; j < row.weights.length; j++)
      if (this.partial[j] === null && row.weights[j]! < 0) room -= row.weights[j]!;
    return room;
  }

  private mostOfRest(): number {
    const { values, rows } = this.problem;
    let most = 0;
    for (let j = 0; j < values.length; j++)
      if (this.partial[j] === null && values[j]! > 0) most += values[j]!;
    rows.forEach((row, i) => {
      most = Math.min(most, this.fractionalMost(row, i));
    });
    return most;
  }

  private fractionalMost(row: ZeroOneRow, i: number): number {
    let room = Math.max(0, this.roomWithHelp(row, i));
    let most = 0;
    for (const j of this.byRatio[i]!) {
      const value = this.problem.values[j]!;
      if (this.partial[j] !== null || value <= 0) continue;
      const weight = Math.max(0, row.weights[j]!);
      if (weight <= room) {
        most += value;
        room -= weight;
      } else {
        return most + (value * room) / weight;
      }
    }
    return most;
  }
}

function ratio(value: number, weight: number): number {
  return weight > 0 ? value / weight : Number.MAX_VALUE;
}

function slack(size: number): number {
  return 1e-9 * Math.max(1, Math.abs(size));
}

function dot(numbers: readonly number[], chosen: readonly boolean[]): number {
  return numbers.reduce((sum, value, j) => (chosen[j] ? sum + value : sum), 0);
}

function requireProblem({ values, rows }: ZeroOneProblem): void {
  if (values.some((value) => !Number.isFinite(value)))
    throw new RangeError('every value must be a finite number');
  for (const row of rows) {
    if (row.weights.length !== values.length)
      throw new RangeError(`a row holds ${row.weights.length} weights for ${values.length} things`);
    if (row.weights.some((weight) => !Number.isFinite(weight)) || Number.isNaN(row.limit))
      throw new RangeError('every weight must be a finite number, and every limit a number');
  }
}
