/** A linear or 0-1 program as data, the answers to it, and the check of its shape. */

export interface ProgramVariable {
  readonly name: string;
  /** Worth of one unit in the objective. */
  readonly cost: number;
  /** Least value, finite; 0 when not given. */
  readonly lower?: number;
  /** Largest value; unlimited when not given. */
  readonly upper?: number;
  /** Whole numbers only; heeded by `solveWholeProgram`. */
  readonly whole?: boolean;
}

export interface ProgramRow {
  readonly name: string;
  /** Pairs of the variable's place in the list (from 0) and its coefficient. */
  readonly terms: readonly (readonly [variable: number, coefficient: number])[];
  readonly relation: '<=' | '>=' | '=';
  readonly bound: number;
}

export interface LinearProgram {
  readonly goal: 'largest' | 'least';
  readonly variables: readonly ProgramVariable[];
  readonly rows: readonly ProgramRow[];
}

/** `optimal` carries a certificate checked by our own arithmetic; nothing unchecked is ever called optimal. */
export type ProgramOutcome =
  | {
      readonly status: 'optimal';
      readonly value: number;
      /** Values in the order of the variables. */
      readonly x: readonly number[];
      /** Change of the value for one unit more on a row's bound, in the order of the rows. */
      readonly rowPrices: readonly number[];
    }
  | { readonly status: 'infeasible'; readonly reason: string }
  | { readonly status: 'unbounded'; readonly reason: string }
  | { readonly status: 'unsettled'; readonly reason: string };

/** @throws RangeError where a number is not finite, bounds cross, or a row names a variable that is not there */
export function requireProgram(program: LinearProgram): void {
  for (const { name, cost, lower = 0, upper = Number.POSITIVE_INFINITY } of program.variables) {
    if (!Number.isFinite(cost)) throw new RangeError(`the cost of ${name} is ${cost}: it must be finite`);
    if (!Number.isFinite(lower)) throw new RangeError(`the least value of ${name} must be finite`);
    if (Number.isNaN(upper) || upper < lower)
      throw new RangeError(`the largest value of ${name}, ${upper}, must not be below its least, ${lower}`);
  }
  for (const { name, terms, bound } of program.rows) {
    if (!Number.isFinite(bound))
      throw new RangeError(`the bound of row ${name} is ${bound}: it must be finite`);
    for (const [variable, coefficient] of terms) {
      if (program.variables[variable] === undefined)
        throw new RangeError(`row ${name} names variable number ${variable}, which is not in the list`);
      if (!Number.isFinite(coefficient))
        throw new RangeError(`row ${name} holds the coefficient ${coefficient}: it must be finite`);
    }
  }
}

/** Objective of a point, by our own arithmetic. */
export function programValue(program: LinearProgram, x: readonly number[]): number {
  return program.variables.reduce((sum, variable, j) => sum + variable.cost * x[j]!, 0);
}

/**
 * Largest breach of any row or bound by a point, each measured against the size of its row's numbers (so that 1e-9
 * means nine digits right whatever the scale). 0 = all kept.
 */
export function largestBreach(program: LinearProgram, x: readonly number[]): number {
  const rows = program.rows.map((row) => {
    let sum = 0;
    let size = Math.abs(row.bound);
    for (const [j, coefficient] of row.terms) {
      sum += coefficient * x[j]!;
      size = Math.max(size, Math.abs(coefficient), Math.abs(coefficient * x[j]!));
    }
    const over = row.relation === '>=' ? row.bound - sum : sum - row.bound;
    return (row.relation === '=' ? Math.abs(over) : Math.max(0, over)) / (size || 1);
  });
  const bounds = program.variables.map(({ lower = 0, upper = Number.POSITIVE_INFINITY }, j) => {
    const value = x[j]!;
    const over = Math.max(0, lower - value, value - upper);
    return over / Math.max(1, Math.abs(value));
  });
  return Math.max(0, ...rows, ...bounds);
}
