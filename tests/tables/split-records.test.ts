// Lines of a table into records and cells: comments, quotation marks, cells over several lines, marks that do not pair.
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { complaintList } from '../../src/tables/complaint-list.js';
import { tableLimits } from '../../src/tables/limits.js';
import { splitRecords } from '../../src/tables/split-records.js';

function split(lines: readonly string[], start = 0, delimiter: ',' | ';' = ',') {
  const list = complaintList();
  const { rows, isWhole } = splitRecords({ list, file: 'a.csv', lines, delimiter }, start);
  const said = list.sorted().map(({ code, line, text, excerpt }) => ({
    code,
    line,
    text,
    marked: excerpt?.text.slice(excerpt.start, excerpt.end),
  }));
  return { rows, isWhole, said };
}

const OPENS = 'a quotation mark opens here and is not closed before the next column';

/** Rows of one line each. */
const row = (line: number, ...cells: readonly string[]) => ({ line, endLine: line, cells });

describe('lines without quotation marks', () => {
  it('are one record each, from the line that is asked for', () => {
    const lines = ['a title', 'part,step', 'cap,1', 'lid,2'];
    expect(split(lines, 1)).toEqual({
      rows: [row(2, 'part', 'step'), row(3, 'cap', '1'), row(4, 'lid', '2')],
      isWhole: true,
      said: [],
    });
  });

  it('are passed over where they are empty or a comment', () => {
    const lines = ['cap,1', '', '   ', '# lid,1', '  # "lid"', 'lid,#2'];
    expect(split(lines).rows).toEqual([row(1, 'cap', '1'), row(6, 'lid', '#2')]);
  });

  it('lose spaces around a cell, a dash alone, and the apostrophe before a formula', () => {
    expect(split([" cap ,-, - ,'=1+1,a-b,"]).rows).toEqual([row(1, 'cap', '', '', '=1+1', 'a-b', '')]);
  });
});

describe('quotation marks', () => {
  it('keep commas, and each other where they are doubled', () => {
    expect(split(['"a, b",1', 'plain,2', '"say ""go""",3', 'x," - "']).rows).toEqual([
      row(1, 'a, b', '1'),
      row(2, 'plain', '2'),
      row(3, 'say "go"', '3'),
      row(4, 'x', ''),
    ]);
    expect(split(['"a;b";1,5'], 0, ';').rows).toEqual([row(1, 'a;b', '1,5')]);
  });

  // What String.prototype.trim takes off (ECMAScript, WhiteSpace) stands before and after the marks, a plain space or not.
  it.each([' ', '\t', '\u00a0', '\u202f', '\u3000', '\ufeff', '\f'])('may have %j around them', (space) => {
    expect(split([`cap,${space}"one, two"${space},2`])).toEqual({
      rows: [row(1, 'cap', 'one, two', '2')],
      isWhole: true,
      said: [],
    });
    expect(split([`${space}"a`, '"', 'b"', 'lid,2'])).toMatchObject({
      rows: [{ line: 1, endLine: 2, cells: ['a'] }, row(3, 'b"'), row(4, 'lid', '2')],
      isWhole: true,
    });
    expect(split([`cap,${space}"one`])).toMatchObject({
      rows: [],
      isWhole: false,
      said: [{ code: 'TAB09', line: 1, marked: '"', text: OPENS }],
    });
  });

  it('hold a cell over several lines, fifty at most', () => {
    expect(split(['"one', '# two", 2', 'three,4']).rows).toEqual([
      { line: 1, endLine: 2, cells: ['one\n# two', '2'] },
      row(3, 'three', '4'),
    ]);
    const spanning = (count: number) => [
      '"first',
      ...Array.from({ length: count - 2 }, (_, i) => `line ${i}`),
      'last",2',
    ];
    const most = tableLimits.linesPerRecord;
    const whole = split(spanning(most));
    expect([whole.isWhole, whole.rows.length, whole.rows[0]!.endLine]).toEqual([true, 1, most]);
    const longer = split(spanning(most + 1));
    expect([longer.isWhole, longer.said[0]?.code, longer.said[0]?.line]).toEqual([false, 'TAB09', 1]);
  });

  it('that are not closed are told where they open, and the lines after are read', () => {
    expect(split(['cap,"one,1', 'lid,2'])).toEqual({
      rows: [row(2, 'lid', '2')],
      isWhole: false,
      said: [
        {
          code: 'TAB09',
          line: 1,
          text: OPENS,
          marked: '"',
        },
      ],
    });
  });

  it('with something after the closing one are told with that', () => {
    expect(split(['cap,"one" x ,1', 'lid,2'])).toMatchObject({
      rows: [row(2, 'lid', '2')],
      isWhole: false,
      said: [{ code: 'TAB09', line: 1, text: 'found `x` after a closing quotation mark', marked: 'x' }],
    });
  });

  it('whose closing one another line brings, with more after it, are told where they open', () => {
    expect(split(['cap,"one', 'two" x', 'lid,2'])).toMatchObject({
      rows: [row(2, 'two" x'), row(3, 'lid', '2')],
      said: [{ line: 1, text: OPENS, marked: '"' }],
    });
  });

  it('that do not pair are told a hundred times in one table, with what to do, and then counted', () => {
    const list = complaintList();
    const lines = Array.from({ length: 103 }, () => 'cap,"one" x');
    splitRecords({ list, file: 'a.csv', lines, delimiter: ',' }, 0);
    const said = list.sorted();
    expect(said[0]!.help).toBe(
      'Set the whole value in quotation marks and double each mark inside it, or use none.',
    );
    expect([said.length, said[100]!.text]).toEqual([101, '3 more of this kind follow in this table']);
  });

  it('give the cells that csv-parse finds, in every text of up to six of the signs that matter', () => {
    let [texts, checked] = [[''], 0];
    for (let length = 1; length <= 6; length++) {
      texts = texts.flatMap((text) => ['"', ',', 'a', ' '].map((sign) => text + sign));
      for (const text of texts) {
        const { rows, isWhole } = split([text]);
        if (!isWhole || text.trim() === '') continue;
        const cells = parse(text, { relax_quotes: true, trim: true })[0]!.map((cell) => cell.trim());
        expect({ text, cells: rows[0]!.cells }).toEqual({ text, cells });
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(2000);
  });
});
