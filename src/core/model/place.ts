/** Where a value came from: a table, and the line in it. Rows carry it so that every figure can be traced back. */
export interface Place {
  /** File name inside the cell's folder, such as `routes.csv`; `command line` for a value given as an option. */
  readonly file: string;
  /** Line in that file, counted from 1. */
  readonly line: number;
}
