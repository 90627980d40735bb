/** The solver of mixed programs in a worker, where the page carries it: its script stands before the worker's own. */
import type { MixedSolver } from '../../core/lp/mixed-solver.js';
import { type Highs, solverOn } from '../../solver/solver-on-highs.js';

/** How its script is given the compiled program, which it would otherwise fetch. */
type LoadHighs = (given: {
  instantiateWasm(imports: WebAssembly.Imports, done: (instance: WebAssembly.Instance) => void): object;
}) => Promise<Highs>;

let compiled: Uint8Array<ArrayBuffer> | null = null;
let loaded: Promise<MixedSolver> | null = null;

export function takeSolver(program: Uint8Array<ArrayBuffer>): void {
  compiled = program;
}

/** True where mixes and jobs can be planned. */
export function hasTakenSolver(): boolean {
  return compiled !== null;
}

export function carriedSolver(): Promise<MixedSolver> {
  if (compiled === null) return Promise.reject(new Error('this page carries no solver of mixed programs'));
  loaded ??= solverFrom(compiled);
  return loaded;
}

async function solverFrom(program: Uint8Array<ArrayBuffer>): Promise<MixedSolver> {
  const compiledModule = await WebAssembly.compile(program);
  // The name under which its script leaves what loads it.
  const { Module: load } = globalThis as unknown as { readonly Module: LoadHighs };
  const highs = await load({
    instantiateWasm: (imports, done) => {
      void WebAssembly.instantiate(compiledModule, imports).then(done);
      return {};
    },
  });
  return solverOn(highs);
}
