/** How a command ends, as other programs see it. */
export const EXIT = {
  done: 0,
  /** The input is wrong: all complaints stand on standard error. Also a fault of the program itself. */
  wrongInput: 1,
  wrongUse: 2,
  /** No feasible answer exists; the reason is told. */
  infeasible: 3,
  /** A limit ended the work: one that the user set, with the best so far, or one of the program before there was an answer. */
  limitReached: 4,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];
