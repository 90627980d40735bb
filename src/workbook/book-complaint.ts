/** What is wrong with a workbook itself, told of the table and the line that its sheet and row stand for. */
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintCode } from '../tables/complaint-codes.js';

export interface BookFault {
  readonly code: ComplaintCode;
  readonly severity: Complaint['severity'];
  readonly file: string;
  /** From 1; null for the whole sheet. */
  readonly line: number | null;
  /** From 0; null for the whole row. */
  readonly column: number | null;
  readonly text: string;
  readonly help: string | null;
}

export function bookComplaint(fault: BookFault, nameOf: (column: number) => string | null): Complaint {
  const { column, ...rest } = fault;
  return { ...rest, column: column === null ? null : nameOf(column), excerpt: null };
}
