/** Reads a large text file piece by piece, so that its size does not matter. */
import { createHash } from 'node:crypto';
import { createReadStream, promises as fs } from 'node:fs';
import { basename } from 'node:path';
import type { Complaint } from '../core/model/complaint.js';
import type { ComplaintCode } from '../tables/complaint-codes.js';
import { complain } from '../tables/complaint-list.js';
import type { InputFile } from './read-table-file.js';
import { systemReason } from './system-reason.js';
import { type Encoding, PieceDecoder } from './text-decoder.js';

const PIECE_BYTES = 1 << 18;

export interface PiecesRead {
  /** The file's mark, of what was read of it. */
  readonly input: InputFile;
  readonly encoding: Encoding;
}

/**
 * @param take takes the text in order; false = the rest is not needed
 * @returns what was read, or the complaint that says why it could not be read
 */
export async function readPieces(
  path: string,
  take: (text: string) => boolean,
): Promise<PiecesRead | Complaint> {
  const file = basename(path) || path;
  const hash = createHash('sha256');
  const decoder = new PieceDecoder();
  let bytes = 0;
  try {
    if (!(await fs.stat(path)).isFile())
      return unreadable('FIL06', file, `\`${path}\` is not an ordinary file`);
    for await (const piece of createReadStream(path, { highWaterMark: PIECE_BYTES })) {
      const chunk = piece as Buffer;
      bytes += chunk.length;
      hash.update(chunk);
      if (!take(decoder.decode(chunk))) break;
    }
    take(decoder.end());
  } catch (error) {
    const reason = systemReason(error);
    if (reason.code === 'ENOENT') return unreadable('FIL01', file, `there is no file \`${path}\``);
    return unreadable('FIL03', file, `\`${path}\` cannot be read: ${reason.text}`);
  }
  return { input: { file, sha256: hash.digest('hex'), bytes }, encoding: decoder.encoding };
}

function unreadable(code: ComplaintCode, file: string, text: string): Complaint {
  const help = 'Name a file of the kind that the command takes.';
  return complain(code, file, text, help);
}
