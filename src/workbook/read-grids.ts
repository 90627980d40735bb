/**
 * Reads the bytes of a workbook within stated limits: what is not a workbook, is locked, damaged or unpacks to more than
 * anybody fills in is refused before it is unpacked.
 */
import { unzipSync } from 'fflate';
import { type GridBook, type WantedSheet, WorkbookFault } from './grid.js';
import { readOdsGrids } from './ods-reader.js';
import type { WorkbookKind } from './workbook.js';
import { readXlsxGrids } from './xlsx.js';

export const workbookLimits = {
  /** Largest size of the file, in bytes. */
  bytes: 32 * 1024 * 1024,
  /** Largest size of what it unpacks to, in bytes. */
  unpackedBytes: 96 * 1024 * 1024,
  /** Parts that the file packs together. */
  parts: 5000,
} as const;

/**
 * @param wanted sheets to read by name; the others are only named
 * @throws WorkbookFault with the reason in words
 */
export async function readGrids(
  bytes: Uint8Array,
  kind: WorkbookKind,
  wanted: WantedSheet,
): Promise<GridBook> {
  const parts = listedParts(bytes);
  const has = (pattern: RegExp): boolean => parts.some((name) => pattern.test(name));
  checkKind(kind, has);
  const read = await opened(() =>
    kind === 'ods' ? readOdsGrids(bytes, wanted) : readXlsxGrids(bytes, wanted),
  );
  return {
    kind,
    ...read,
    hasMacros: has(/vbaProject\.bin$|^Basic\/.+\/.+\.xml$|^Scripts\/./i),
    hasLinks: has(/^xl\/externalLinks\/./i),
  };
}

/** Everything that the libraries find wrong means one thing to the reader: the file is damaged. */
async function opened<T>(read: () => T | Promise<T>): Promise<T> {
  try {
    return await read();
  } catch (error) {
    if (error instanceof WorkbookFault) throw error;
    const said = error instanceof Error ? error.message.split('\n')[0]! : String(error);
    if (/limit/.test(said)) throw tooLarge('it unpacks to more than it says, or its cells lie too far apart');
    throw new WorkbookFault('damaged', `it is damaged (${said.replace(/\.$/, '')})`, SAVE_ANEW);
  }
}

const SAVE_ANEW = 'Open it in the office program and save it anew as .xlsx or .ods.';
const LOCKED = [0xd0, 0xcf, 0x11, 0xe0];

/** The names of the parts; what they hold stays packed. */
function listedParts(bytes: Uint8Array): string[] {
  if (bytes.length > workbookLimits.bytes)
    throw tooLarge(`it has ${bytes.length} bytes, at most 32 MB are read`);
  if (LOCKED.every((byte, i) => bytes[i] === byte))
    throw new WorkbookFault(
      'locked',
      'it is locked with a password, or it is a workbook of the old kind (.xls)',
      'Save it without a password as .xlsx or .ods.',
    );
  const names: string[] = [];
  let total = 0;
  try {
    unzipSync(bytes, {
      filter: ({ name, size, originalSize }) => {
        names.push(name);
        total += originalSize;
        // A part that is said to be empty and is not could unpack to anything.
        if (originalSize === 0 && (size > 2 || /\.(xml|rels)$/i.test(name))) total = Number.POSITIVE_INFINITY;
        return false;
      },
    });
  } catch {
    throw new WorkbookFault('damaged', 'it is not a workbook: it cannot be unpacked', SAVE_ANEW);
  }
  if (names.length > workbookLimits.parts) throw tooLarge(`it packs ${names.length} parts together`);
  if (total > workbookLimits.unpackedBytes)
    throw tooLarge(
      Number.isFinite(total)
        ? `it unpacks to ${Math.round(total / 1024 / 1024)} MB, at most 96 MB are read`
        : 'it does not say how much it unpacks to',
    );
  return names;
}

function tooLarge(text: string): WorkbookFault {
  return new WorkbookFault(
    'too large',
    text,
    'Copy the tables into a new workbook without pictures and old sheets.',
  );
}

function checkKind(kind: WorkbookKind, has: (pattern: RegExp) => boolean): void {
  const found = has(/^content\.xml$/) ? 'ods' : has(/^\[Content_Types\]\.xml$/) ? 'xlsx' : null;
  if (found === kind) return;
  const help = found === null ? SAVE_ANEW : `Give the file the ending .${found}.`;
  const text = found === null ? 'it holds no sheets' : `it is an .${found} file under the ending .${kind}`;
  throw new WorkbookFault('other kind', text, help);
}
