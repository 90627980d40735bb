/** Complaints and notes about a workbook's tables, told of its sheets and cells. */
import type { Complaint } from '../core/model/complaint.js';
import type { ReadAs } from '../tables/complaint-list.js';
import { columnLetters } from './workbook.js';
import type { SheetPlace } from './workbook-tables.js';

/** Where each table stands, by the name that complaints give it. */
export type BookPlaces = ReadonlyMap<string, SheetPlace>;

/**
 * All complaints with their cells. Where the workbook itself has a fault in a cell, what the reader of the table says about
 * what stands there is left out: it is the same cause.
 */
export function placedInBooks(places: BookPlaces, complaints: readonly Complaint[]): Complaint[] {
  if (places.size === 0) return [...complaints];
  const keyOf = ({ file, line, column }: Complaint): string => `${file}\n${line}\n${column}`;
  const own = new Set(complaints.filter((c) => /^BOK0[1-3]$/.test(c.code)).map(keyOf));
  return complaints
    .filter((c) => /^BOK/.test(c.code) || !own.has(keyOf(c)))
    .map((complaint) => placedComplaint(places, complaint));
}

function placedComplaint(places: BookPlaces, complaint: Complaint): Complaint {
  const place = places.get(complaint.file);
  if (place === undefined) return complaint;
  const { line, column, text, help, excerpt } = complaint;
  return {
    ...complaint,
    file: place.file,
    cell: cellOf(place, line, column),
    text: inSheetWords(text),
    help: help === null ? null : inSheetWords(help),
    excerpt,
  };
}

/** @example 'routes!D7'; a whole row is 'routes!7:7', a whole sheet 'routes' */
function cellOf({ sheet, columns }: SheetPlace, line: number | null, column: string | null): string {
  if (line === null) return sheet;
  const index = column === null ? undefined : columns.get(column);
  return index === undefined ? `${sheet}!${line}:${line}` : `${sheet}!${columnLetters(index)}${line}`;
}

/** A table is a sheet here, and a line a row. */
function inSheetWords(text: string): string {
  return text
    .replace(/(`?)\b([a-z]+)\.csv\b\1/g, (_, _mark: string, table: string) => `the sheet \`${table}\``)
    .replace(/\bthe the\b/g, 'the')
    .replace(/\blines? (?=\d)/g, (word) => (word.startsWith('lines') ? 'rows ' : 'row '));
}

export function notePlacedInBooks(places: BookPlaces, note: ReadAs): ReadAs {
  const place = places.get(note.file);
  if (place === undefined) return note;
  return { ...note, file: place.file, cell: cellOf(place, note.line, note.column) };
}
