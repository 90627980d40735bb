/** Names and free text in cells: what is read, what is refused and with which words. */
import { describe, expect, it } from 'vitest';
import { nameColumn, readName, stationName, textColumn } from '../../src/tables/name-column.js';
import type { Reading } from '../../src/tables/reading.js';

const STYLE = { decimalComma: false };
const fault = (reading: Reading<string>) => (reading.ok ? null : reading.fault);
const value = (reading: Reading<string>) => (reading.ok ? reading.value : null);

describe('a name', () => {
  const names = nameColumn('part that it happened to');
  const read = (text: string) => names.read(text, STYLE);

  it('is what is written, of any letters', () => {
    for (const text of [
      'cap',
      'cap 20',
      '.x',
      '-',
      'Gehäuse',
      '帽',
      'a/b',
      'cap ',
      'x'.repeat(64),
      '帽'.repeat(64),
    ])
      expect(read(text)).toEqual({ ok: true, value: text });
    expect([names.unit, names.meaning, names.allowed, names.needed]).toEqual([
      '',
      'part that it happened to',
      'a name of at most 64 characters',
      true,
    ]);
  });

  it('has at most 64 characters, counted as people see them', () => {
    expect(fault(read('x'.repeat(65)))).toEqual({
      code: 'VAL06',
      text: `found \`${'x'.repeat(60)}…\` with 65 characters, expected a name of at most 64 characters`,
      help: null,
    });
    // Characters of two halves each count as one.
    expect(value(read('😀'.repeat(64)))).toBe('😀'.repeat(64));
    expect(fault(read('😀'.repeat(65)))?.text).toContain('with 65 characters');
  });

  it('has no characters that cannot be seen', () => {
    expect(fault(read('ca\u200Bp'))).toEqual({
      code: 'VAL07',
      text: 'found the control or invisible character U+200B at position 3, expected visible characters only',
      help: 'Type the text anew; it may have been copied from a page or a document.',
      span: [2, 3],
    });
    expect(fault(read('a\tb'))).toMatchObject({
      text: expect.stringContaining('U+0009 at position 2'),
      span: [1, 2],
    });
    // A sign of two halves, for the begin of a language tag.
    expect(fault(read('é\u{E0001}'))).toMatchObject({
      text: expect.stringContaining('U+E0001 at position 2'),
      span: [1, 3],
    });
  });

  it('is none of the words that the program keeps for itself', () => {
    expect(fault(read('constructor'))).toEqual({
      code: 'VAL08',
      text: 'found `constructor` as a name, but `constructor` is kept by the program',
      help: 'Choose another name.',
      span: [0, 11],
    });
    expect(fault(read('toString'))?.code).toBe('VAL08');
    expect(value(read('constructors'))).toBe('constructors');
    expect(fault(readName('valueOf'))?.code).toBe('VAL08');
    expect(value(readName('cap'))).toBe('cap');
  });
});

describe('the name of a station', () => {
  const read = (text: string) => stationName('where it happened').read(text, STYLE);

  it('holds no bar anywhere, and is no star alone', () => {
    expect(fault(read('mill_1|mill_2'))).toEqual({
      code: 'VAL08',
      text: 'found `mill_1|mill_2` as a name, but `|` separates alternative stations',
      help: 'Choose another name.',
      span: [6, 7],
    });
    expect(fault(read('*'))).toMatchObject({
      text: 'found `*` as a name, but `*` means all stations',
      span: [0, 1],
    });
    expect([value(read('mill*')), value(read('mill_1'))]).toEqual(['mill*', 'mill_1']);
  });
});

describe('a name in a column that keeps a word', () => {
  const read = (text: string) => nameColumn('who', { all: 'means everybody' }).read(text, STYLE);

  it('is not that word, but may hold it', () => {
    expect(fault(read('all'))).toMatchObject({
      text: 'found `all` as a name, but `all` means everybody',
      span: [0, 3],
    });
    expect([value(read('all of it')), value(read('hall'))]).toEqual(['all of it', 'hall']);
  });
});

describe('free text', () => {
  const text = textColumn('a remark');

  it('has at most 200 characters, any that can be seen', () => {
    expect(text.allowed).toBe('text of at most 200 characters');
    expect([value(text.read('*|constructor', STYLE)), value(text.read('x'.repeat(200), STYLE))]).toEqual([
      '*|constructor',
      'x'.repeat(200),
    ]);
    expect(fault(text.read('x'.repeat(201), STYLE))?.text).toMatch(
      /with 201 characters, expected text of at most 200 characters$/,
    );
    expect(fault(text.read('a\u0007', STYLE))?.code).toBe('VAL07');
    expect([text.unit, text.meaning]).toEqual(['', 'a remark']);
  });
});
