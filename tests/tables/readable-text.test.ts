// What can be a table at all: its size, its characters, the ends of its lines.
import { describe, expect, it } from 'vitest';
import { complaintList } from '../../src/tables/complaint-list.js';
import { tableLimits } from '../../src/tables/limits.js';
import { readableText } from '../../src/tables/readable-text.js';

function linesOf(text: string) {
  const list = complaintList();
  const lines = readableText(list, 'a.csv', text);
  return { lines, said: list.sorted() };
}

describe('the lines of a text', () => {
  it('end in any of three ways, and have no byte order mark before them', () => {
    expect(linesOf('\uFEFFa\r\nb\nc\rd\n')).toEqual({ lines: ['a', 'b', 'c', 'd', ''], said: [] });
    expect(linesOf('a\uFEFFb').lines).toEqual(['a\uFEFFb']);
  });

  it('are read up to the largest size, and not beyond', () => {
    const largest = 'a'.repeat(tableLimits.bytesPerTable);
    expect(linesOf(largest)).toEqual({ lines: [largest], said: [] });
    const { lines, said } = linesOf(`${largest}b`);
    expect(lines).toBeNull();
    expect(said).toMatchObject([
      {
        code: 'TAB03',
        line: null,
        text: 'the table has 8388609 bytes, at most 8388608 (8 MB) are read',
        help: 'Leave out rows that the cell does not use, or check that this is the right file.',
      },
    ]);
  });

  it('are not there where the text holds NUL', () => {
    const { lines, said } = linesOf('a\0b');
    expect(lines).toBeNull();
    expect(said.map(({ code, text }) => [code, text])).toEqual([
      ['TAB04', 'the file is not a text table: it holds NUL characters'],
    ]);
    expect(said.map(({ help }) => help)).toEqual([
      'Save the sheet as CSV in UTF-8; a workbook or `Unicode text` cannot be read.',
    ]);
  });

  it('are read with a byte that is not UTF-8, of which the first is told', () => {
    const { lines, said } = linesOf('a\nM\uFFFDller,\uFFFD\n\uFFFD');
    expect(lines).toEqual(['a', 'M\uFFFDller,\uFFFD', '\uFFFD']);
    expect(said).toMatchObject([
      { code: 'TAB05', line: 2, excerpt: { text: 'M\uFFFDller,\uFFFD', start: 1, end: 2 } },
    ]);
    expect(said[0]?.text).toBe('found a character that is not UTF-8');
    expect(said[0]?.help).toBe(
      'Save the table as CSV in UTF-8; older spreadsheets save in the code page of the country.',
    );
  });
});
