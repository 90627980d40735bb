/** What a command hands back: the result as data for `--json`, and as text for people. */

import type { Complaint } from '../core/model/complaint.js';
import type { CsvForm } from '../core/model/csv-form.js';
import type { InputFile } from '../files/read-table-file.js';
import type { Document } from '../render/document/blocks.js';
import type { KeptForms } from '../render/figures-in-locale.js';
import type { ResultTable } from '../render/result-tables/result-table.js';
import type { TextStyle } from '../render/text-style.js';
import type { ExitCode } from './exit-codes.js';

/** The tables behind an answer. */
export interface AnswerTables {
  /** The answer in plain sentences. */
  readonly sentences: readonly string[];
  readonly tables: readonly ResultTable[];
  /** Form of the tables that were read. */
  readonly form: CsvForm;
  /** Of the columns that hold money; empty where it has no name. */
  readonly currency: string;
  /** What is drawn beside the tables, as a page; warnings, assumptions and cautions are added to it. */
  readonly page?: Document;
}

export interface Answer {
  readonly exit: ExitCode;
  /** The result's own fields of the JSON object. */
  readonly fields: Readonly<Record<string, unknown>>;
  /** The result for people, for standard output; a reason why there is none goes to standard error. */
  readonly text: (style: TextStyle) => string;
  /** True where a limit ended the work, and what is shown is the best until then. */
  readonly bestSoFar?: boolean;
  readonly inputs: readonly InputFile[];
  readonly assumptions?: readonly string[];
  /** How many of the assumptions, at the front, were made for this run: always shown. */
  readonly notes?: number;
  readonly warnings?: readonly string[];
  /** Assumptions, warnings and cautions stand in the files that were written: the text does not repeat them. */
  readonly noticesInFiles?: boolean;
  /** Names that may hold figures, and the money: with another locale they keep their form and it takes its own. */
  readonly named?: KeptForms;
  /** What `--out` writes; worked out only where that is asked for. */
  readonly tables?: () => AnswerTables;
  /** Complaints about the input, printed on standard error. */
  readonly complaints?: readonly Complaint[];
}
