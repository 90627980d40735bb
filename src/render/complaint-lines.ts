/** Complaints in one line each, for the list of warnings of a result. */
import type { Complaint } from '../core/model/complaint.js';

export function complaintLines(complaints: readonly Complaint[]): string[] {
  return complaints.map(
    ({ file, line, cell, text }) =>
      `${file}${cell !== undefined ? `, ${cell}` : line === null ? '' : `, line ${line}`}: ${text}.`,
  );
}
