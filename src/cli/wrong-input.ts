/** The answer to a wrong input: nothing was computed, and all complaints are told. */
import type { Complaint } from '../core/model/complaint.js';
import type { Answer } from './answer.js';
import { EXIT } from './exit-codes.js';

export function wrongInput(complaints: readonly Complaint[], inputs: Answer['inputs']): Answer {
  return {
    exit: EXIT.wrongInput,
    fields: { status: 'input wrong', complaints: complaintFields(complaints) },
    text: () => '',
    inputs,
    complaints,
  };
}

/** A complaint as data for other programs. */
export function complaintFields(complaints: readonly Complaint[]): object[] {
  return complaints.map(({ code, severity, file, line, column, cell, text, help }) => ({
    code,
    severity,
    file,
    line,
    column,
    ...(cell === undefined ? {} : { cell }),
    text,
    help,
  }));
}
