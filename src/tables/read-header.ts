/** Holds the header of a table against the columns that it may have. */
import type { Columns } from './column.js';
import { columnNamed } from './column-named.js';
import { inBackticks } from './in-backticks.js';
import { nearestName } from './nearest-name.js';
import { cellExcerpt, type Lines, recordText, type Sheet } from './sheet.js';

type Headed = Lines & Pick<Sheet, 'header'>;

interface HeaderRead {
  readonly columns: ReadonlyMap<string, number>;
  /** Number of columns, without nameless ones at the end. */
  readonly width: number;
  /** False where a needed column is missing. */
  readonly isWhole: boolean;
}

/** Unknown columns that are named one by one; the rest are counted. */
const UNKNOWN_NAMED = 20;

export function readHeader(base: Headed, columns: Columns): HeaderRead {
  const { header } = base;
  const found = new Map<string, number>();
  const unknown: number[] = [];
  const width = header.cells.reduce((last, cell, index) => (cell === '' ? last : index + 1), 0);
  header.cells.slice(0, width).forEach((name, index) => {
    if (found.has(name)) reportTwice(base, index);
    else if (Object.hasOwn(columns, name)) found.set(name, index);
    else unknown.push(index);
  });
  const foreign = unknown.splice(0).filter((index) => !takeMeant(base, index, columns, found));
  unknown.push(...foreign);
  const meant = reportUnknown(base, unknown, columns);
  const missing = Object.keys(columns).filter((name) => columns[name]!.needed && !found.has(name));
  for (const name of missing) if (!meant.has(name)) reportMissing(base, name, columns);
  return { columns: found, width, isWhole: missing.length === 0 };
}

/** Takes a header that is written otherwise for the column that it can only mean. */
function takeMeant(base: Headed, index: number, columns: Columns, found: Map<string, number>): boolean {
  const written = base.header.cells[index]!;
  const name = columnNamed(written, columns);
  if (name === null || found.has(name)) return false;
  found.set(name, index);
  base.list.note({ file: base.file, line: base.header.line, column: name, found: written, taken: name });
  return true;
}

/** @returns the known names that unknown ones are near to: they are misspelt, not missing */
function reportUnknown(base: Headed, unknown: readonly number[], columns: Columns): Set<string | null> {
  const known = Object.keys(columns);
  const named = unknown.slice(0, UNKNOWN_NAMED);
  const meant = named.map((index) => {
    const near = nearestName(base.header.cells[index]!, known);
    reportUnknownOne(base, index, near, known);
    return near;
  });
  const more = unknown.length - named.length;
  if (more > 0) {
    const text = `found ${more} more unknown columns, expected ${known.join(', ')}`;
    const help = 'Check that this is the right file.';
    addToHeader(base, null, unknown[named.length]!, { code: 'TAB10', text, help });
  }
  return new Set(meant);
}

function reportUnknownOne(base: Headed, index: number, near: string | null, known: readonly string[]): void {
  const name = base.header.cells[index]!;
  const what =
    name === '' ? 'found a column without a name' : `found the unknown column ${inBackticks(name)}`;
  const text = `${what}, expected ${known.join(', ')}`;
  const help = near === null ? 'Take the column out.' : `Did you mean \`${near}\`?`;
  addToHeader(base, name === '' ? null : name, index, { code: 'TAB10', text, help });
}

function reportTwice(base: Headed, index: number): void {
  const name = base.header.cells[index]!;
  const text = `the column ${inBackticks(name)} is named twice`;
  addToHeader(base, name, index, { code: 'TAB12', text, help: 'Keep one of the two.' });
}

function reportMissing(base: Headed, name: string, columns: Columns): void {
  const text = `the needed column ${inBackticks(name)} is missing`;
  const help = `Add it; it holds ${columns[name]!.allowed}.`;
  addToHeader(base, name, null, { code: 'TAB11', text, help });
}

function addToHeader(
  base: Headed,
  column: string | null,
  index: number | null,
  fault: { code: 'TAB10' | 'TAB11' | 'TAB12'; text: string; help: string },
): void {
  const whole = recordText(base, base.header);
  const excerpt = () =>
    index === null ? { text: whole, start: 0, end: whole.length } : cellExcerpt(base, base.header, index);
  base.list.add(
    fault.code,
    { file: base.file, line: base.header.line, column, order: index ?? 1000, excerpt },
    () => fault,
  );
}
