// Lines of a table into records and cells: comments, quotation marks, cells over several lines, marks that do not pair.
import { describe, expect, it } from 'vitest';
import { complaintList } from '../../src/tables/complaint-list.js';
import { tableLimits } from '../../src/tables/limits.js';
import { splitRecords } from '../../src/tables/split-records.js';

function split(lines: readonly string[], start = 0, delimiter: ',' | ';' = ',') {
  const list = complaintList();
  const { rows, isWhole } = splitRecords(list, { file: 'a.csv', lines, delimiter }, start);
  const said = list.sorted().map(({ code, line, text, excerpt }) => ({
    code,
    line,
    text,
    marked: excerpt?.text.slice(excerpt.start, excerpt.end),
  }));
  return { rows, isWhole, said };
}

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
          text: 'a quotation mark opens here and is not closed before the next column',
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
});
