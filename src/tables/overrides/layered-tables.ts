/** Tables put together from several places, and where each line and cell of them came from. */
import type { Complaint } from '../../core/model/complaint.js';
import type { ReadAs } from '../complaint-list.js';
import type { Tables } from '../inspect-tables.js';

/** Where a cell or a row stands for the reader. */
export interface Origin {
  readonly file: string;
  readonly line: number | null;
  readonly excerpt: Complaint['excerpt'];
  /** What helps where the row lacks something, such as the row of the base that may have been meant. */
  readonly help?: string;
}

export interface LayeredTables {
  readonly tables: Tables;
  /** By table, the file that the rest of it comes from, where that is not the folder's own. */
  readonly files: ReadonlyMap<string, string>;
  /** By `table line` and `table line column`. */
  readonly origins: ReadonlyMap<string, Origin>;
  readonly complaints: readonly Complaint[];
  /** Tables that could not be put together; complaints tell why. */
  readonly unread: readonly string[];
  /** By table, headers read as something else than they say in a table that was laid on its base's. */
  readonly readAs: ReadonlyMap<string, readonly ReadAs[]>;
  /** What was changed, in sentences. */
  readonly notes: readonly string[];
}

export function plainLayer(tables: Tables): LayeredTables {
  const [files, origins, readAs] = [new Map(), new Map(), new Map()];
  return { tables, files, origins, readAs, complaints: [], unread: [], notes: [] };
}

export function originKey(file: string, line: number, column?: string): string {
  return column === undefined ? `${file} ${line}` : `${file} ${line} ${column}`;
}

/** Where a line or cell of the tables put together came from; undefined where it stands in its own file. */
function originOf(
  { origins }: LayeredTables,
  { file, line, column }: Pick<ReadAs, 'file' | 'line' | 'column'>,
): Origin | undefined {
  if (line === null) return undefined;
  const cell = column === null ? undefined : origins.get(originKey(file, line, column));
  return cell ?? origins.get(originKey(file, line));
}

/** A complaint about the tables put together, told of the place that its reader can mend. */
export function placedComplaint(layers: LayeredTables, complaint: Complaint): Complaint {
  const origin = originOf(layers, complaint);
  if (!origin) return { ...complaint, file: layers.files.get(complaint.file) ?? complaint.file };
  const { help, ...place } = origin;
  return { ...complaint, ...place, help: complaint.help ?? help ?? null };
}

/** What was read otherwise, told of the place where it stands. */
export function placedNote(layers: LayeredTables, note: ReadAs): ReadAs {
  const origin = originOf(layers, note);
  if (origin) return { ...note, file: origin.file, line: origin.line };
  return { ...note, file: layers.files.get(note.file) ?? note.file };
}
