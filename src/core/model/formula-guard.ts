/**
 * A text in a CSV file that a spreadsheet would run as a formula gets an apostrophe before it (the advice of OWASP, "CSV
 * Injection"); the readers of tables and logs take it off again, so that a name stays what it is.
 */
const RUNS = String.raw`(?:[\s\p{Cf}]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r\n])`;
const RUNS_AS_FORMULA = new RegExp(`^'*${RUNS}`, 'u');
const GUARDED = new RegExp(`^'+${RUNS}`, 'u');

/** @example guarded('=1+1') // "'=1+1" */
export function guarded(text: string): string {
  return RUNS_AS_FORMULA.test(text) ? `'${text}` : text;
}

/** The text that was guarded; others stay as they are. */
export function unguarded(text: string): string {
  return text.charCodeAt(0) === 39 && GUARDED.test(text) ? text.slice(1) : text;
}
