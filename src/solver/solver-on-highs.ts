/**
 * Mixed-integer programs through HiGHS, wherever it was loaded. The answer is believed only after its rows, whole
 * numbers and objective have been worked out again by our own code.
 */
import type { MixedAnswer, MixedSolver } from '../core/lp/mixed-solver.js';
import { answerFault, type MixedProgram } from '../core/lp/solve-linear-program.js';

/** The part of the package that is used here; its own types do not fit this project's module settings. */
export interface Highs {
  createModel(data: object): Model;
}
interface Model {
  readonly options: { set(options: Record<string, unknown>): void };
  readonly info: { get(name: string): number };
  run(): void;
  getModelStatus(): number;
  getSolution(): { readonly colValue: ArrayLike<number> };
  dispose(): void;
}

/** Codes of HiGHS for the outcomes that can be used. */
const OPTIMAL = 7;
const INFEASIBLE = 8;
/** A program that presolve finds infeasible or unbounded; ours are never unbounded. */
const UNBOUNDED_OR_INFEASIBLE = 9;
const MODEL_EMPTY = 6;

/** Differences of less than this are no difference: of a part, or of a minute. */
const GAP = 1e-4;

const OPTIONS = {
  output_flag: false,
  mip_rel_gap: 0,
  mip_abs_gap: GAP,
  mip_feasibility_tolerance: 1e-9,
  random_seed: 1,
};

export function solverOn(highs: Highs): MixedSolver {
  return (program, nodes, seconds) => solve(highs, program, nodes, seconds);
}

function solve(highs: Highs, program: MixedProgram, nodes: number, seconds?: number): MixedAnswer {
  const names = [
    ...new Set([...Object.keys(program.objective), ...program.rows.flatMap((row) => Object.keys(row.terms))]),
  ];
  const model = highs.createModel(modelData(program, names));
  try {
    const time = seconds === undefined ? {} : { time_limit: Math.max(0.01, seconds) };
    model.options.set({ ...OPTIONS, mip_max_nodes: nodes, ...time });
    model.run();
    return answerOf(model, program, names);
  } finally {
    model.dispose();
  }
}

function answerOf(model: Model, program: MixedProgram, names: readonly string[]): MixedAnswer {
  const status = model.getModelStatus();
  if (status === INFEASIBLE || status === UNBOUNDED_OR_INFEASIBLE) return { status: 'infeasible' };
  const { colValue } = model.getSolution();
  const at = Object.fromEntries(names.map((name, i) => [name, colValue[i] ?? Number.NaN]));
  const value = names.reduce((sum, name) => sum + (program.objective[name] ?? 0) * at[name]!, 0);
  const fault = answerFault(program, at, value);
  if (fault !== null) return { status: 'unsure', why: fault };
  const isOptimal = status === OPTIMAL || status === MODEL_EMPTY;
  const sign = signOf(program);
  const isMixed = (program.whole ?? []).length > 0;
  const bound = isOptimal ? value : sign * (isMixed ? model.info.get('mip_dual_bound') : -Infinity);
  return { status: isOptimal ? 'optimal' : 'limit', value, bound, at };
}

/** The model is always to be made least of. */
function signOf(program: MixedProgram): 1 | -1 {
  return program.sense === 'least' ? 1 : -1;
}

/** Rows one after another, each with its columns. */
function modelData(program: MixedProgram, names: readonly string[]): object {
  const place = new Map(names.map((name, i) => [name, i]));
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  for (const row of program.rows) {
    for (const [name, value] of Object.entries(row.terms)) {
      if (value === 0) continue;
      indices.push(place.get(name)!);
      values.push(value);
    }
    starts.push(indices.length);
  }
  const whole = new Set(program.whole ?? []);
  const sign = signOf(program);
  return {
    numCols: names.length,
    numRows: program.rows.length,
    colCost: names.map((name) => sign * (program.objective[name] ?? 0)),
    colLower: names.map(() => 0),
    colUpper: names.map(() => Number.POSITIVE_INFINITY),
    rowLower: program.rows.map((row) => row.least ?? Number.NEGATIVE_INFINITY),
    rowUpper: program.rows.map((row) => row.most ?? Number.POSITIVE_INFINITY),
    matrix: { format: 'csr', numRows: program.rows.length, numCols: names.length, starts, indices, values },
    integrality: names.map((name) => (whole.has(name) ? 1 : 0)),
  };
}
