/** Gathers the complaints of one run: each cause once, long runs of like ones counted, all in reading order. */
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintCode } from './complaint-codes.js';
import { tableLimits } from './limits.js';

/** What a rule says about a fault; the place is added by whoever reports it. */
export interface Fault {
  readonly code: ComplaintCode;
  readonly text: string;
  readonly help: string | null;
  readonly severity?: 'error' | 'warning';
  /** The faulty characters inside the cell's value, where it is not all of it. */
  readonly span?: readonly [start: number, end: number];
}

export interface FaultPlace {
  readonly file: string;
  readonly line: number | null;
  readonly column: string | null;
  /** Order of the column in its line, for sorting. */
  readonly order: number;
  readonly excerpt: () => Complaint['excerpt'];
}

/** A cell or header that was read as something else than it says. */
export interface ReadAs {
  readonly file: string;
  /** null for a whole table. */
  readonly line: number | null;
  readonly column: string | null;
  /** For a workbook, the sheet and the cell. */
  readonly cell?: string;
  readonly found: string;
  readonly taken: string;
}

export interface ComplaintList {
  /** Adds a complaint; `fault` is worked out only when the complaint is kept. */
  readonly add: (code: ComplaintCode, place: FaultPlace, fault: () => Fault) => void;
  /** A fault in this file whose cause is told elsewhere. */
  readonly passOver: (file: string) => void;
  /** Notes what was read otherwise than written; it is no complaint. */
  readonly note: (reading: ReadAs) => void;
  readonly notes: () => readonly ReadAs[];
  /** Complaints told so far, those that are only counted included. */
  readonly told: () => number;
  /** True when an error is among them. */
  readonly hasError: (file?: string) => boolean;
  /** All complaints, by file, line and column. */
  readonly sorted: () => Complaint[];
}

interface Entry {
  readonly complaint: Complaint;
  readonly order: number;
  readonly rank: number;
}

/** @param unread files that could not be read: they count as holding an error from the start */
export function complaintList(unread: readonly string[] = []): ComplaintList {
  const entries: Entry[] = [];
  let told = 0;
  const alike = new Map<string, number>();
  const broken = new Set(unread);
  const notes: ReadAs[] = [];

  return {
    add: (code, place, fault) => {
      told++;
      const key = `${code}\n${place.file}\n${place.column ?? ''}`;
      const count = (alike.get(key) ?? 0) + 1;
      alike.set(key, count);
      if (count > tableLimits.complaintsAlike) return;
      const complaint = complaintAt(place, fault());
      if (complaint.severity === 'error') broken.add(place.file);
      entries.push({ complaint, order: place.order, rank: entries.length });
    },
    note: (reading) => {
      notes.push(reading);
    },
    notes: () => notes,
    passOver: (file) => {
      told++;
      broken.add(file);
    },
    told: () => told,
    hasError: (file) => (file === undefined ? broken.size > 0 : broken.has(file)),
    sorted: () =>
      [...entries].sort(inReadingOrder).flatMap((e, i, all) => [e.complaint, ...rest(e, i, all, alike)]),
  };
}

/** About a whole file or folder, unless `more` says where. */
export function complain(
  code: ComplaintCode,
  file: string,
  text: string,
  help: string | null,
  more: Partial<Complaint> = {},
): Complaint {
  return { code, severity: 'error', file, line: null, column: null, text, excerpt: null, help, ...more };
}

function complaintAt(place: FaultPlace, fault: Fault): Complaint {
  const { line, column } = place;
  const more = { severity: fault.severity ?? 'error', line, column, excerpt: place.excerpt() };
  return complain(fault.code, place.file, fault.text, fault.help, more);
}

function inReadingOrder(a: Entry, b: Entry): number {
  if (a.complaint.file !== b.complaint.file) return a.complaint.file < b.complaint.file ? -1 : 1;
  return (a.complaint.line ?? 0) - (b.complaint.line ?? 0) || a.order - b.order || a.rank - b.rank;
}

/** After the last complaint of a kind that was cut short: how many more there are. */
function rest(
  entry: Entry,
  index: number,
  all: readonly Entry[],
  alike: ReadonlyMap<string, number>,
): Complaint[] {
  const { complaint } = entry;
  const keyOf = (c: Complaint) => `${c.code}\n${c.file}\n${c.column ?? ''}`;
  const key = keyOf(complaint);
  const more = (alike.get(key) ?? 0) - tableLimits.complaintsAlike;
  if (more <= 0 || all.slice(index + 1).some((e) => keyOf(e.complaint) === key)) return [];
  const text = `${more} more of this kind ${more === 1 ? 'follows' : 'follow'} in this table`;
  return [
    { ...complaint, excerpt: null, text, help: 'Correct those shown above; they often share one cause.' },
  ];
}
