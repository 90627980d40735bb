/**
 * Linear programs through javascript-lp-solver, with every answer checked by our own code before it is believed: rows
 * recomputed, objective recomputed, and no column left that would improve it. An answer that fails a check, or a solve
 * that runs too long, is `unsure`, never a number. Its presolve, unrestricted variables and whole numbers are not used
 * (they have known faults); variables are 0 or more; names are prefixed so that none can collide with the library's own
 * fields.
 */
import * as library from 'javascript-lp-solver';
import { valueAt } from './terms.js';

export interface LinearRow {
  readonly name: string;
  /** Coefficient by variable. */
  readonly terms: Readonly<Record<string, number>>;
  readonly least?: number;
  readonly most?: number;
}

export interface LinearProgram {
  readonly sense: 'most' | 'least';
  readonly objective: Readonly<Record<string, number>>;
  readonly rows: readonly LinearRow[];
}

export interface MixedProgram extends LinearProgram {
  /** Variables that must be whole numbers. */
  readonly whole?: readonly string[];
}

export type LinearAnswer =
  | { readonly status: 'optimal'; readonly value: number; readonly at: Readonly<Record<string, number>> }
  | { readonly status: 'infeasible' | 'unbounded' }
  | { readonly status: 'unsure'; readonly why: string };

interface Tableau {
  readonly matrix: Float64Array;
  readonly width: number;
  readonly height: number;
}
interface SolverLibrary {
  Solve(model: unknown): Record<string, unknown>;
  readonly lastSolvedModel?: { readonly tableau?: Tableau };
  readonly Tableau: { readonly prototype: { pivot(row: number, column: number): unknown } };
}

const solver = ((library as unknown as { default?: SolverLibrary }).default ??
  library) as unknown as SolverLibrary;

const ROW_TOLERANCE = 1e-7;
/** Cells of the tableau that pivots may work through: some seconds; counted, so that a busy machine gives the same answer. */
const MOST_CELLS = 2e9;

/**
 * @param program variables are 0 or more; every coefficient finite
 * @param limitMs milliseconds by the clock after which the solve is given up, where the user gave a limit
 * @throws RangeError for a coefficient that is not finite, or a row without a bound
 */
export function solveLinearProgram(
  program: LinearProgram,
  limitMs: number = Number.POSITIVE_INFINITY,
): LinearAnswer {
  checkProgram(program);
  const names = variablesOf(program);
  const raw = solveWithin(toModel(program, names), limitMs);
  if (typeof raw === 'string') return { status: 'unsure', why: raw };
  if (raw.feasible !== true) return { status: 'infeasible' };
  if (raw.bounded === false) return { status: 'unbounded' };
  const at = Object.fromEntries(names.map((name) => [name, Number(raw[`v_${name}`] ?? 0)]));
  const fault =
    answerFault(program, at, Number(raw.result)) ?? (improvable() ? 'a better answer seems to exist' : null);
  if (fault !== null) return { status: 'unsure', why: fault };
  return { status: 'optimal', value: valueAt(program.objective, at), at };
}

function variablesOf(program: LinearProgram): string[] {
  const names = new Set(Object.keys(program.objective));
  for (const row of program.rows) for (const name of Object.keys(row.terms)) names.add(name);
  return [...names];
}

function toModel(program: LinearProgram, names: readonly string[]): unknown {
  const variables: Record<string, Record<string, number>> = {};
  for (const name of names) variables[`v_${name}`] = { goal: program.objective[name] ?? 0 };
  const constraints: Record<string, { min?: number; max?: number }> = {};
  for (const [index, row] of program.rows.entries()) {
    const key = `r_${index}`;
    constraints[key] = {
      ...(row.least === undefined ? {} : { min: row.least }),
      ...(row.most === undefined ? {} : { max: row.most }),
    };
    for (const [name, value] of Object.entries(row.terms))
      if (value !== 0) variables[`v_${name}`]![key] = value;
  }
  return {
    optimize: 'goal',
    opType: program.sense === 'most' ? 'max' : 'min',
    constraints,
    variables,
    options: { presolve: false },
  };
}

class OutOfWork extends Error {}

/** Runs the library with limits inside its pivoting, where it can loop for ever. */
function solveWithin(model: unknown, limitMs: number): Record<string, unknown> | string {
  const untilMs = Date.now() + limitMs;
  let cells = 0;
  const { prototype } = solver.Tableau;
  const pivot = prototype.pivot;
  prototype.pivot = function guarded(this: Tableau, row: number, column: number) {
    cells += this.width * this.height;
    if (cells > MOST_CELLS || Date.now() > untilMs) throw new OutOfWork();
    return pivot.call(this, row, column);
  };
  try {
    return solver.Solve(model);
  } catch (error) {
    if (error instanceof OutOfWork) return 'the solver did not finish within its limit';
    return `the solver failed: ${error instanceof Error ? error.message : String(error)}`;
  } finally {
    prototype.pivot = pivot;
  }
}

/** What is wrong with an answer by its own rows, whole numbers and objective; null where it holds. Says nothing of the best. */
export function answerFault(
  program: MixedProgram,
  at: Readonly<Record<string, number>>,
  result: number,
): string | null {
  for (const [name, value] of Object.entries(at)) {
    if (!Number.isFinite(value) || value < -ROW_TOLERANCE) return `variable ${name} came back as ${value}`;
  }
  for (const row of program.rows) {
    const sum = valueAt(row.terms, at);
    const slack = ROW_TOLERANCE * scaleOf(row, at);
    if (row.least !== undefined && sum < row.least - slack) return `row ${row.name} is broken`;
    if (row.most !== undefined && sum > row.most + slack) return `row ${row.name} is broken`;
  }
  for (const name of program.whole ?? []) {
    if (Math.abs(at[name]! - Math.round(at[name]!)) > 1e-6) return `${name} is not whole`;
  }
  const value = valueAt(program.objective, at);
  if (Math.abs(value - result) > 1e-6 * Math.max(1, Math.abs(value))) return 'the objective does not add up';
  return null;
}

/** True when the last tableau still has a column that would improve the objective. */
function improvable(): boolean {
  const tableau = solver.lastSolvedModel?.tableau;
  if (!tableau) return true;
  for (let column = 1; column < tableau.width; column++)
    if (tableau.matrix[column]! > ROW_TOLERANCE) return true;
  return false;
}

function scaleOf(row: LinearRow, at: Readonly<Record<string, number>>): number {
  let most = Math.max(1, Math.abs(row.least ?? 0), Math.abs(row.most ?? 0));
  for (const [name, value] of Object.entries(row.terms))
    most = Math.max(most, Math.abs(value * (at[name] ?? 0)));
  return most;
}

function checkProgram(program: LinearProgram): void {
  for (const row of program.rows) {
    if (row.least === undefined && row.most === undefined)
      throw new RangeError(`row ${row.name} has no bound`);
    for (const value of [...Object.values(row.terms), row.least ?? 0, row.most ?? 0])
      if (!Number.isFinite(value)) throw new RangeError(`row ${row.name} has a value that is not finite`);
  }
  for (const value of Object.values(program.objective))
    if (!Number.isFinite(value)) throw new RangeError('the objective has a value that is not finite');
}
