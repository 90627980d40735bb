/** What the core asks of a solver of mixed-integer programs, so that it can be handed in where it runs. */
import type { MixedProgram } from './solve-linear-program.js';

export type MixedAnswer =
  | {
      /** `optimal`: proven; `limit`: the best found when the work ended. */
      readonly status: 'optimal' | 'limit';
      readonly value: number;
      /** No answer is better than this. */
      readonly bound: number;
      readonly at: Readonly<Record<string, number>>;
    }
  | { readonly status: 'infeasible' }
  | { readonly status: 'unsure'; readonly why: string };

/**
 * @param nodes most nodes that the search may look at
 * @param seconds most seconds by the clock, where the user gave a limit
 */
export type MixedSolver = (program: MixedProgram, nodes: number, seconds?: number) => MixedAnswer;
