/** A link that carries the cell after its `#`, packed: browsers keep that part to themselves and send it nowhere. */
import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';
import { type Desk, deskOf, savedForm } from '../state/desk.js';

const MARK = '#cell=';

/** Longer links are cut by some mail programs. */
export const LONG_LINK = 8 * 1024;

export function cellHash(desk: Desk): string {
  const packed = deflateSync(strToU8(JSON.stringify(savedForm(desk))), { level: 9 });
  const base64 = btoa(String.fromCharCode(...packed));
  return `${MARK}${base64.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

/** What a link may unpack to: more is no cell. */
const MOST_BYTES = 5_000_000;

/** @returns null where the text carries no cell */
export function deskInHash(hash: string): Desk | null {
  if (!hash.startsWith(MARK)) return null;
  try {
    const base64 = hash.slice(MARK.length).replaceAll('-', '+').replaceAll('_', '/');
    const packed = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
    return deskOf(JSON.parse(strFromU8(inflateSync(packed, { out: new Uint8Array(MOST_BYTES) }))));
  } catch {
    return null;
  }
}
