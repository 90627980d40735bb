// A file in pieces of any length reads as the whole file does, in either encoding.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { PieceDecoder } from '../../src/files/text-decoder.js';
import { anyText } from '../support/any-text.js';

interface Decoded {
  readonly text: string;
  readonly encoding: string;
}

function decoded(bytes: Uint8Array, length: number): Decoded {
  const decoder = new PieceDecoder();
  let text = '';
  for (let at = 0; at < bytes.length; at += length) text += decoder.decode(bytes.subarray(at, at + length));
  text += decoder.end();
  return { text, encoding: decoder.encoding };
}

test('UTF-8 comes back whole', () => {
  fc.assert(
    fc.property(anyText(20), fc.integer({ min: 1, max: 9 }), (text, length) => {
      const whole = text.replace(/^\uFEFF/, '');
      expect(decoded(new TextEncoder().encode(whole), length)).toEqual({ text: whole, encoding: 'UTF-8' });
    }),
  );
});

test('Latin-1 comes back whole, wherever its first letter beyond ASCII stands', () => {
  // Of these letters none that follows another makes a character of UTF-8.
  const letter = fc.constantFrom(...'abc,0\nÄÖÜäöüßéèñ');
  fc.assert(
    fc.property(fc.array(letter), fc.integer({ min: 1, max: 9 }), (letters, length) => {
      const text = letters.join('');
      const bytes = Uint8Array.from(text, (c) => c.charCodeAt(0));
      const encoding = /[^\n -~]/.test(text) ? 'Windows-1252' : 'UTF-8';
      expect(decoded(bytes, length)).toEqual({ text, encoding });
    }),
  );
});

test('a wrong byte after a right character is a wrong byte, not another encoding', () => {
  const bytes = Uint8Array.from([...new TextEncoder().encode('Fräse,'), 0xff, 0x41]);
  for (const length of [1, 2, 3, 20])
    expect(decoded(bytes, length)).toEqual({ text: 'Fräse,\uFFFDA', encoding: 'UTF-8' });
});
