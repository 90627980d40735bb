/** What `readCell` throws when the tables hold an error. */
import type { Complaint } from '../core/model/complaint.js';

export class TablesError extends Error {
  override readonly name = 'TablesError';
  /** Every error and warning, by file, line and column. */
  readonly complaints: readonly Complaint[];

  constructor(complaints: readonly Complaint[]) {
    const first = complaints.find((c) => c.severity === 'error');
    const where = first
      ? [first.file, first.line && `line ${first.line}`, first.column].filter(Boolean).join(', ')
      : '';
    super(`the tables hold errors${first ? `; the first: ${where}: ${first.text}` : ''}`);
    this.complaints = complaints;
  }
}
