/** The complaints of the tables' reader, found by the cell that they are about. */
import type { Complaint } from '../../core/model/complaint.js';

export interface PlacedComplaints {
  /** Of the whole table, or of a line that the grid does not show. */
  readonly ofTable: readonly Complaint[];
  readonly ofRow: (line: number) => readonly Complaint[];
  readonly ofCell: (line: number, column: string) => readonly Complaint[];
}

/** @param columns names of the columns that are shown; a complaint about another one is told of its row */
export function placedComplaints(
  complaints: readonly Complaint[],
  file: string,
  lines: readonly number[],
  columns: readonly string[],
): PlacedComplaints {
  const shownLines = new Set(lines);
  const shownColumns = new Set(columns);
  const cells = new Map<string, Complaint[]>();
  const rows = new Map<number, Complaint[]>();
  const ofTable: Complaint[] = [];
  for (const complaint of complaints.filter((c) => c.file === file)) {
    const { line, column } = complaint;
    if (line === null || !shownLines.has(line)) ofTable.push(complaint);
    else if (column === null || !shownColumns.has(column))
      rows.set(line, [...(rows.get(line) ?? []), complaint]);
    else cells.set(`${line} ${column}`, [...(cells.get(`${line} ${column}`) ?? []), complaint]);
  }
  return {
    ofTable,
    ofRow: (line) => rows.get(line) ?? [],
    ofCell: (line, column) => cells.get(`${line} ${column}`) ?? [],
  };
}
