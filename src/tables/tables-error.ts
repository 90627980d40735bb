/** What `readCell` throws when the tables hold an error. */
import type { Complaint } from '../core/model/complaint.js';

export class TablesError extends Error {
  override readonly name = 'TablesError';
  /** Every error and warning, by file, line and column. */
  readonly complaints: readonly Complaint[];

  /** @param complaints one of them an error, at least */
  constructor(complaints: readonly Complaint[]) {
    const { file, line, column, text } = complaints.find((c) => c.severity === 'error')!;
    const where = [file, line && `line ${line}`, column].filter(Boolean).join(', ');
    super(`the tables hold errors; the first: ${where}: ${text}`);
    this.complaints = complaints;
  }
}
