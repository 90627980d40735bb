// Workbooks with faults and tricks, made from a sound one by changing its parts.
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import type { CellContent, Workbook, WorkbookKind } from '../../src/workbook/workbook.js';
import { workbookBytes } from '../../src/workbook/write-workbook.js';

export type Rows = readonly (readonly CellContent[])[];

export const soundSheets: Readonly<Record<string, Rows>> = {
  stations: [
    ['station', 'kind'],
    ['rack', 'infeed'],
    ['mill', 'machine'],
    ['out', 'outfeed'],
  ],
  routes: [
    ['part', 'step', 'stations', 'cycle_s', 'load_s', 'unload_s'],
    ['cap', 1, 'rack', null, null, 3],
    ['cap', 2, 'mill', 60, 5, 4],
    ['cap', 3, 'out', null, 3],
  ],
  robot: [
    ['setting', 'value'],
    ['travel_s', 2],
  ],
  shifts: [
    ['pattern', 'shift', 'days', 'start', 'end', 'attended'],
    ['day', 'early', 'Mon-Fri', '06:00', '14:00', 'yes'],
  ],
};

/** The sound sheets with some of them changed; a sheet that is null is left out. */
export function bookOf(changes: Readonly<Record<string, Rows | null>> = {}): Workbook {
  const all = Object.entries({ ...soundSheets, ...changes });
  const sheets = all.flatMap(([name, rows]) => (rows === null ? [] : [{ name, rows }]));
  return { title: 'test', sheets };
}

/** The bytes of a workbook with its parts changed: a text replaced, or a part added. */
export async function patchedBook(
  kind: WorkbookKind,
  book: Workbook,
  patches: readonly (readonly [part: string, from: string | RegExp | null, to: string])[],
): Promise<Uint8Array> {
  const parts = unzipSync(await workbookBytes(book, kind));
  for (const [part, from, to] of patches) {
    const text = from === null ? '' : strFromU8(parts[part]!);
    const changed = from === null ? to : text.replace(from, to);
    if (from !== null && changed === text) throw new Error(`${part} does not hold ${from}`);
    parts[part] = strToU8(changed);
  }
  return zipSync(parts, { level: 1 });
}

/** Changes the size that the file says one of its parts unpacks to. */
export function saidSize(bytes: Uint8Array, part: string, size: number): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  const name = strToU8(part);
  for (let at = 0; at + 46 + name.length <= copy.length; at += 1) {
    if (view.getUint32(at, true) !== 0x02014b50) continue;
    const found = copy.subarray(at + 46, at + 46 + view.getUint16(at + 28, true));
    if (found.length === name.length && name.every((byte, i) => byte === found[i]))
      view.setUint32(at + 24, size, true);
  }
  return copy;
}

/** Column letters and number of a cell of .xlsx with a value that the writer does not write. */
export const rawCell = (ref: string, inside: string, attributes = ''): string =>
  `<c r="${ref}"${attributes}>${inside}</c>`;
