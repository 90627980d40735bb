/** A complaint about an input, as data: renderers turn it into text, callers can act on the code. */
export interface Complaint {
  /** Stable code, such as `CELL012`; listed in the README. */
  readonly code: string;
  readonly severity: 'error' | 'warning';
  readonly file: string;
  /** Line in the file from 1; null where the complaint is about the whole file or folder. */
  readonly line: number | null;
  /** Column name of the table; null where it is about the whole line or file. */
  readonly column: string | null;
  /** For a workbook, the sheet and the cell, such as `routes!D7`. */
  readonly cell?: string;
  /** What is wrong, with what was found and what is allowed, as one plain sentence part. */
  readonly text: string;
  /** The line as it stands in the file, and the span of the faulty text in it (characters from 0). */
  readonly excerpt: { readonly text: string; readonly start: number; readonly end: number } | null;
  /** How to mend it, or a likely cause; null where there is nothing to add. */
  readonly help: string | null;
}
