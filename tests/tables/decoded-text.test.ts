/** The text of a file's bytes, by the forms in which programs save it. */
import { describe, expect, it } from 'vitest';
import { PieceDecoder } from '../../src/files/text-decoder.js';
import { decodedText } from '../../src/tables/decoded-text.js';

const utf8 = (text: string) => new TextEncoder().encode(text);
/** Two bytes for each letter, the lower first or last. */
const utf16 = (text: string, lowFirst: boolean, mark: readonly number[] = []) =>
  Uint8Array.from([
    ...mark,
    ...Array.from(text, (c) => c.charCodeAt(0)).flatMap((n) =>
      lowFirst ? [n % 256, n >> 8] : [n >> 8, n % 256],
    ),
  ]);

describe('UTF-8', () => {
  it('is read as it is, without its mark', () => {
    expect(decodedText(utf8('time,Gehäuse\n'))).toEqual({ text: 'time,Gehäuse\n', form: null });
    expect(decodedText(utf8('\uFEFFtime'))).toEqual({ text: 'time', form: null });
    expect(decodedText(new Uint8Array(0))).toEqual({ text: '', form: null });
  });

  it('that is damaged stays so, and shows where', () => {
    const bytes = Uint8Array.from([...utf8('Gehäuse '), 0xe4]);
    expect(decodedText(bytes)).toEqual({ text: 'Gehäuse \uFFFD', form: null });
    expect(decodedText(Uint8Array.from([0x61, 0, 0xe4]))).toEqual({ text: 'a\0\uFFFD', form: null });
  });
});

describe('UTF-16', () => {
  it('is known by its mark', () => {
    expect(decodedText(utf16('Ä帽', true, [0xff, 0xfe]))).toEqual({ text: 'Ä帽', form: 'UTF-16' });
    expect(decodedText(utf16('Ä帽', false, [0xfe, 0xff]))).toEqual({ text: 'Ä帽', form: 'UTF-16' });
  });

  it('or by every second byte being 0', () => {
    const long = 'time,station,signal\n'.repeat(40);
    for (const lowFirst of [true, false]) {
      expect(decodedText(utf16(long, lowFirst))).toEqual({ text: long, form: 'UTF-16' });
      expect(decodedText(utf16('ab', lowFirst))).toEqual({ text: 'ab', form: 'UTF-16' });
    }
    // Nine letters of ten have no second byte; one of ten may.
    expect(decodedText(utf16('帽abcdefghijklmnop', true)).form).toBe('UTF-16');
  });

  it('not of one letter, nor where zeros stand elsewhere too', () => {
    expect(decodedText(Uint8Array.from([0x61, 0])).form).toBeNull();
    expect(decodedText(Uint8Array.from([0x61, 0, 0])).form).toBeNull();
    expect(decodedText(Uint8Array.from([0, 0, 0, 0])).form).toBeNull();
    expect(decodedText(Uint8Array.from([0x61, 0, 0x62, 0x63])).form).toBeNull();
    expect(decodedText(Uint8Array.from([0, 0x61, 0x62, 0x63])).form).toBeNull();
  });
});

describe('the code page of older spreadsheets', () => {
  it('is taken where nothing speaks for UTF-8', () => {
    // Ä, a dash and the sign of the euro.
    expect(decodedText(Uint8Array.from([0xc4, 0x20, 0x96, 0x20, 0x80]))).toEqual({
      text: 'Ä – €',
      form: 'Windows-1252 (Latin-1)',
    });
  });

  it('has the bytes of a mark of UTF-16 as letters, one alone and in another order', () => {
    const bytes = [
      [0xff, 0x61],
      [0xfe, 0x61],
      [0x61, 0xff],
      [0x61, 0xfe],
      [0xff, 0xff],
    ];
    expect(bytes.map((b) => decodedText(Uint8Array.from(b)).text)).toEqual(['ÿa', 'þa', 'aÿ', 'aþ', 'ÿÿ']);
  });

  it('has 27 signs of its own between 0x80 and 0x9F (Encoding Standard, index windows-1252)', () => {
    const signs: Record<number, string> = {
      ...{ 128: '€', 130: '‚', 131: 'ƒ', 132: '„', 133: '…', 134: '†', 135: '‡', 136: 'ˆ', 137: '‰' },
      ...{ 138: 'Š', 139: '‹', 140: 'Œ', 142: 'Ž', 145: '‘', 146: '’', 147: '“', 148: '”', 149: '•' },
      ...{ 150: '–', 151: '—', 152: '˜', 153: '™', 154: 'š', 155: '›', 156: 'œ', 158: 'ž', 159: 'Ÿ' },
    };
    expect(Object.keys(signs)).toHaveLength(27);
    for (const [byte, sign] of Object.entries(signs)) {
      const bytes = Uint8Array.from([0xe4, Number(byte)]);
      expect(decodedText(bytes).text).toBe(`ä${sign}`);
      const pieces = new PieceDecoder();
      expect(pieces.decode(bytes.subarray(0, 1)) + pieces.decode(bytes.subarray(1)) + pieces.end()).toBe(
        `ä${sign}`,
      );
    }
  });
});
