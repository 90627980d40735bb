/**
 * The one place that talks to the package javascript-lp-solver. It hands over programs in a single plain form
 * (largest sum of c x with A x <= b, x >= 0, every name prefixed) and takes back the point with the dual prices that
 * the final table holds. Known faults kept out: presolve (off), free variables and whole-number splits (never used),
 * silent name clashes (prefixes), endless pivoting (a deadline in every pivot). Callers check every answer.
 */
import * as library from 'javascript-lp-solver';

/** Largest c x subject to rows x <= bounds, x >= 0. */
export interface PlainProgram {
  readonly costs: readonly number[];
  readonly rows: readonly {
    readonly terms: readonly (readonly [number, number])[];
    readonly bound: number;
  }[];
  /** Which variables must be whole; none when not given. */
  readonly whole?: readonly boolean[];
}

export type PlainAnswer =
  | { readonly status: 'answered'; readonly x: number[]; readonly prices: number[] }
  | { readonly status: 'infeasible' }
  | { readonly status: 'unbounded' }
  | { readonly status: 'out of time' };

interface Engine {
  Solve(model: unknown): Record<string, unknown>;
  readonly Tableau: { readonly prototype: { pivot(row: number, column: number): void } };
  readonly lastSolvedModel: {
    readonly constraints: readonly { readonly slack: { readonly index: number } }[];
    readonly tableau: { readonly matrix: Float64Array; readonly varIndexByCol: readonly number[] };
  } | null;
}

const engine = ((library as { default?: unknown }).default ?? library) as unknown as Engine;

class OutOfTime extends Error {}

let deadline = Number.POSITIVE_INFINITY;
let guarded = false;

/** Runs the engine for at most timeLimitMs; the clock is the only thing read from outside. */
export function runSimplex(program: PlainProgram, timeLimitMs: number): PlainAnswer {
  guardPivots();
  deadline = Date.now() + timeLimitMs;
  try {
    const answer = engine.Solve(modelOf(program, timeLimitMs));
    if (Date.now() > deadline) return { status: 'out of time' };
    if (answer.feasible !== true) return { status: 'infeasible' };
    if (answer.bounded === false) return { status: 'unbounded' };
    return {
      status: 'answered',
      x: pointOf(answer, program.costs.length),
      prices: pricesOf(program.rows.length),
    };
  } catch (error) {
    if (error instanceof OutOfTime) return { status: 'out of time' };
    throw error;
  } finally {
    deadline = Number.POSITIVE_INFINITY;
  }
}

function modelOf(program: PlainProgram, timeLimitMs: number): unknown {
  const constraints: Record<string, { max: number }> = {};
  const variables: Record<string, Record<string, number>> = {};
  const ints: Record<string, 1> = {};
  program.costs.forEach((cost, j) => {
    variables[`v_${j}`] = { objective_: cost };
    if (program.whole?.[j]) ints[`v_${j}`] = 1;
  });
  program.rows.forEach(({ terms, bound }, i) => {
    constraints[`r_${i}`] = { max: bound };
    for (const [j, coefficient] of terms) {
      const column = variables[`v_${j}`]!;
      column[`r_${i}`] = (column[`r_${i}`] ?? 0) + coefficient;
    }
  });
  const options = { presolve: false, timeout: timeLimitMs, tolerance: 0 };
  return { optimize: 'objective_', opType: 'max', constraints, variables, ints, options };
}

function pointOf(answer: Record<string, unknown>, count: number): number[] {
  return Array.from({ length: count }, (_, j) => Number(answer[`v_${j}`] ?? 0));
}

/** The price of a row is minus the entry of row 0 in the column of its slack; a slack in the basis has price 0. */
function pricesOf(rows: number): number[] {
  const solved = engine.lastSolvedModel;
  const prices = Array.from({ length: rows }, () => 0);
  if (!solved) return prices;
  const rowOfSlack = new Map(solved.constraints.slice(0, rows).map((c, i) => [c.slack.index, i]));
  solved.tableau.varIndexByCol.forEach((index, column) => {
    const row = column === 0 ? undefined : rowOfSlack.get(index);
    if (row !== undefined) prices[row] = -solved.tableau.matrix[column]!;
  });
  return prices;
}

function guardPivots(): void {
  if (guarded) return;
  guarded = true;
  const prototype = engine.Tableau.prototype;
  const pivot = prototype.pivot;
  let count = 0;
  prototype.pivot = function guardedPivot(this: unknown, row: number, column: number): void {
    if ((++count & 15) === 0 && Date.now() > deadline) throw new OutOfTime('the time limit has passed');
    pivot.call(this, row, column);
  };
}
