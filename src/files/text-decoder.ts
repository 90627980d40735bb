/**
 * Decodes a file that comes in pieces: UTF-8, or Windows-1252 (which holds Latin-1) where the first character beyond ASCII
 * is not UTF-8. Whether a file is one or the other shows only there, and up to there both read the same.
 */
import { withSigns1252 } from '../tables/decoded-text.js';

export type Encoding = 'UTF-8' | 'Windows-1252';

export class PieceDecoder {
  encoding: Encoding = 'UTF-8';
  /** A character beyond ASCII has been read, so the encoding is sure; a wrong byte after it is a wrong byte. */
  private isSure = false;
  private decoder = new TextDecoder();
  /** Bytes of a character that was cut by the end of the piece before. */
  private cut: Uint8Array = new Uint8Array(0);

  decode(piece: Uint8Array): string {
    if (this.isSure) return this.textOf(piece);
    const bytes = this.cut.length === 0 ? piece : joined(this.cut, piece);
    const first = bytes.findIndex((byte) => byte > 127);
    if (first < 0) return this.decoder.decode(bytes, { stream: true });
    const length = characterLength(bytes[first]!);
    if (length > 0 && first + length > bytes.length && bytes.length - first < 4) {
      this.cut = bytes.slice(first);
      return this.decoder.decode(bytes.subarray(0, first), { stream: true });
    }
    this.cut = new Uint8Array(0);
    return this.settle(bytes, first, length);
  }

  private settle(bytes: Uint8Array, first: number, length: number): string {
    this.isSure = true;
    if (!isUtf8(bytes.subarray(first, first + Math.max(1, length)))) {
      this.encoding = 'Windows-1252';
      this.decoder = new TextDecoder('windows-1252');
    }
    return this.textOf(bytes);
  }

  private textOf(bytes: Uint8Array): string {
    const text = this.decoder.decode(bytes, { stream: true });
    return this.encoding === 'UTF-8' ? text : withSigns1252(text);
  }

  /** To be called once after the last piece. @returns what is left */
  end(): string {
    return (this.cut.length === 0 ? '' : this.settle(this.cut, 0, this.cut.length)) + this.decoder.decode();
  }
}

/** Bytes of a UTF-8 character by its first one; 0 where none begins so. */
function characterLength(byte: number): number {
  if (byte >= 0xc2 && byte <= 0xdf) return 2;
  if (byte >= 0xe0 && byte <= 0xef) return 3;
  return byte >= 0xf0 && byte <= 0xf4 ? 4 : 0;
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  const all = new Uint8Array(a.length + b.length);
  all.set(a);
  all.set(b, a.length);
  return all;
}
