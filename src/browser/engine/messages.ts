/** What the page and its worker say to one another. */
import type { Cell } from '../../core/model/cell.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import type { Tables } from '../../tables/inspect-tables.js';

/** The questions, by the name of the command that answers them as well. */
export type Question =
  | 'schedule'
  | 'size'
  | 'shifts'
  | 'simulate'
  | 'mix'
  | 'jobs'
  | 'costcase'
  | 'io'
  | 'compare'
  | 'sweep';

/** The first that a worker hears where the page carries the solver: the program of HiGHS, compiled for a page. */
export interface SolverSaid {
  readonly solver: Uint8Array<ArrayBuffer>;
}

export interface NamedCell {
  readonly name: string;
  readonly cell: Cell;
}

/** One input of the tables and its values, and the figure to draw against it, all as the command `sweep` names them. */
export interface SweepWanted {
  readonly tables: Tables;
  readonly path: string;
  readonly unit: string;
  readonly values: readonly string[];
  /** The value of the tables. */
  readonly now: number;
  readonly figure: string;
}

export interface Asked {
  /** Tells the answers to this from those to an older one. */
  readonly id: number;
  readonly question: Question;
  readonly cell: Cell;
  /** Names of the tables that it was read from. */
  readonly files: readonly string[];
  /** The order that was best before the last change: a first answer is what it yields now. */
  readonly known: ScheduleFound | null;
  /** The best sequence of this cell where it has been found already, so that it is not searched for again. */
  readonly found: ScheduleFound | null;
  /** For the comparison: the other cells by name, before this one. */
  readonly others?: readonly NamedCell[];
  /** For the sweep. */
  readonly swept?: SweepWanted;
  /** Only the rate, as soon as it can be had: asked while something is dragged. */
  readonly rateOnly?: boolean;
}

/**
 * How far an answer has come: `first` by a plain rule, the order known before or a few runs; `found` the best sequence
 * without what a change would give; `whole` as the command prints it.
 */
export type AnswerStage = 'first' | 'found' | 'whole';

/** The result of a question, by the names of its command's fields. */
export interface Result {
  readonly fields: Readonly<Record<string, unknown>>;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

export interface AnswerSaid {
  readonly id: number;
  readonly kind: 'answer';
  readonly question: Question;
  readonly stage: AnswerStage;
  readonly result: Result;
  /** The answer as a piece of a page. */
  readonly html: string;
  /** For the question of the schedule. */
  readonly schedule: ScheduleFound | null;
  /** There is no answer, and the piece of a page says why. */
  readonly isNone: boolean;
}

export type Said =
  | AnswerSaid
  | {
      readonly id: number;
      readonly kind: 'progress';
      readonly question: Question;
      readonly done: number;
      readonly of: number;
    }
  | { readonly id: number; readonly kind: 'done'; readonly question: Question }
  /** A fault of the program. */
  | { readonly id: number; readonly kind: 'failed'; readonly question: Question; readonly reason: string };

/** Work that gives files or takes them, and no answer about the cell. */
export type Deed =
  | ({ readonly deed: 'report' } & ReportWanted)
  | { readonly deed: 'open workbook'; readonly file: string; readonly bytes: Uint8Array }
  | { readonly deed: 'save workbook'; readonly name: string; readonly tables: Tables }
  | {
      readonly deed: 'cost document';
      readonly name: string;
      readonly cell: Cell;
      readonly facts: DocumentFacts;
    };

export interface ReportWanted {
  readonly name: string;
  readonly cell: Cell;
  readonly tables: Tables;
  readonly facts: DocumentFacts;
  /** The script of the report's page. */
  readonly script: string;
}

export interface DocumentFacts {
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
  readonly program: string;
  /** What the reader of the tables had to say. */
  readonly warnings: readonly string[];
}

export type Done =
  | { readonly tables: Tables; readonly notes: readonly string[] }
  | { readonly files: Readonly<Record<string, string | Uint8Array>> }
  | { readonly refused: string };

/** How far a deed has come. */
export interface Doing {
  readonly doing: readonly [done: number, of: number];
}
