/** How complaints look in a terminal, and that no text from a file can steer it. */
import { describe, expect, test } from 'vitest';
import type { Complaint } from '../../src/core/model/complaint.js';
import { renderComplaints } from '../../src/render/complaints.js';

const complaint: Complaint = {
  code: 'VAL03',
  severity: 'error',
  file: 'routes.csv',
  line: 7,
  column: 'unload_s',
  text: 'found `-4`, expected seconds, 0 or more',
  excerpt: { text: 'cap,2,mill_1,312,14,-4', start: 20, end: 22 },
  help: 'A machine that ejects the part itself has unload_s 0.',
};
const plain = (...complaints: Complaint[]) => renderComplaints(complaints, { colour: false });

test('nothing to say is nothing', () => {
  expect(plain()).toBe('');
});

test('a complaint, the place marked under the line, a sum at the end', () => {
  expect(plain(complaint)).toBe(`routes.csv, line 7, column unload_s  error VAL03
  Found \`-4\`, expected seconds, 0 or more.
    7 │ cap,2,mill_1,312,14,-4
      │                     ~~
  Fix: A machine that ejects the part itself has unload_s 0.

1 error in 1 file. No results.
`);
});

test('several complaints, errors and warnings counted apart', () => {
  const warning: Complaint = {
    ...complaint,
    severity: 'warning',
    file: 'travel.csv',
    line: null,
    column: null,
    excerpt: null,
    help: null,
  };
  expect(plain(complaint, complaint, warning)).toMatch(
    /\n\n2 errors and 1 warning in 2 files\. No results\.\n$/,
  );
  expect(plain(warning)).toBe(`travel.csv  warning VAL03
  Found \`-4\`, expected seconds, 0 or more.

1 warning in 1 file.
`);
});

test('colour is asked for, and only then used', () => {
  const coloured = renderComplaints([complaint], { colour: true });
  expect(coloured).toContain('\u001b[31merror VAL03\u001b[39m');
  expect(coloured).toContain('\u001b[31m      │                     ~~\u001b[39m');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: colour codes are what is taken out
  expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(plain(complaint));
});

describe('text from a file', () => {
  test('is shown without its escape codes, line ends and direction marks', () => {
    const nasty = '\u001b[2J\u0007\u202Eab\r\nc\u009b31m';
    const said = plain({
      ...complaint,
      file: `x${nasty}`,
      column: nasty,
      text: `found \`${nasty}\``,
      excerpt: { text: `${nasty},7`, start: nasty.length + 1, end: nasty.length + 2 },
      help: nasty,
    });
    expect(
      said,
    ).toBe(`x␛[2J␇<U+202E>ab␍␊c<U+009B>31m, line 7, column ␛[2J␇<U+202E>ab␍␊c<U+009B>31m  error VAL03
  Found \`␛[2J␇<U+202E>ab␍␊c<U+009B>31m\`.
    7 │ ␛[2J␇<U+202E>ab␍␊c<U+009B>31m,7
      │                               ~
  Fix: ␛[2J␇<U+202E>ab␍␊c<U+009B>31m

1 error in 1 file. No results.
`);
  });

  test('is cut to a window around the place where it is long', () => {
    const text = `${'a'.repeat(500)},fault,${'b'.repeat(500)}`;
    const [, , line, marks] = plain({ ...complaint, excerpt: { text, start: 501, end: 506 } }).split('\n');
    expect(line).toBe(`    7 │ …${'a'.repeat(39)},fault,${'b'.repeat(54)}…`);
    expect(marks).toBe(`      │ ${' '.repeat(41)}~~~~~`);
  });

  test('is cut at the end, too, where the fault itself is long', () => {
    const text = 'x'.repeat(5000);
    const [, , line, marks] = plain({ ...complaint, excerpt: { text, start: 0, end: 5000 } }).split('\n');
    expect(line).toBe(`    7 │ ${'x'.repeat(100)}…`);
    expect(marks).toBe(`      │ ${'~'.repeat(100)}`);
  });

  test('keeps the marks under wide characters, accents set apart and tabs', () => {
    const text = '漢字\t,e\u0301,-4';
    const [, , line, marks] = plain({ ...complaint, excerpt: { text, start: 7, end: 9 } }).split('\n');
    expect(line).toBe('    7 │ 漢字 ,e\u0301,-4');
    expect(marks).toBe(`      │ ${' '.repeat(8)}~~`);
  });

  test('marks one place where nothing stands', () => {
    const excerpt = { text: 'a,,b', start: 2, end: 2 };
    const [, , , marks] = plain({ ...complaint, line: 12345, excerpt }).split('\n');
    expect(marks).toBe('          │   ~');
  });
});
