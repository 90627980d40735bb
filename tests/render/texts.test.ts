// The small pieces that all texts are made of.

import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { amountText } from '../../src/core/model/amount-text.js';
import { listText } from '../../src/core/model/list-text.js';
import { csvText } from '../../src/render/csv.js';
import { markdownText } from '../../src/render/document/document-markdown.js';
import { countText, numberText, percentText, secondsText } from '../../src/render/numbers.js';
import { paragraph } from '../../src/render/paragraph.js';
import { plainStyle } from '../../src/render/text-style.js';
import { right, textTable } from '../../src/render/text-table.js';

describe('numbers', () => {
  test('one fixed form, whatever the machine', () => {
    expect(numberText(1234567.891, 2)).toBe('1,234,567.89');
    expect(secondsText(12.34)).toBe('12.3 s');
    expect(percentText(61.25)).toBe('61.3%');
    expect(countText(1, 'part')).toBe('1 part');
    expect(countText(2, 'bench', 'benches')).toBe('2 benches');
    expect(listText([])).toBe('');
    expect(listText(['a', 'b', 'c'])).toBe('a, b and c');
  });
  test('no zero with a minus sign', () => {
    expect(numberText(-0.04, 1)).toBe('0.0');
    expect(numberText(-0)).toBe('0');
    expect(numberText(-0.06, 1)).toBe('-0.1');
  });
  test('cents only for small amounts', () => {
    expect(amountText(99.5, 'EUR')).toBe('99.50\u00A0EUR');
    expect(amountText(12345.6, 'EUR')).toBe('12,346\u00A0EUR');
    expect(amountText(7)).toBe('7');
  });
});

describe('CSV', () => {
  test.each([
    ['=1+1', "'=1+1"],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    [' =1', `' =1`],
    ['\t=1', `'\t=1`],
    ['＝1', "'＝1"],
    ['mill, left', '"mill, left"'],
    ['say "go"', '"say ""go"""'],
    ['plain', 'plain'],
  ])('%j', (text, cell) => {
    expect(csvText([[text]])).toBe(`${cell}\n`);
  });
  test('figures stay figures, also below zero', () => {
    expect(csvText([[-1.5, 0.1 + 0.2, 1e-9, null, true]])).toBe('-1.5,0.3,0,,yes\n');
  });
  test('a figure that is not finite is refused', () => {
    expect(() => csvText([[Number.NaN]])).toThrow(RangeError);
  });
  test('no text begins a cell with a sign that starts a formula', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const [first] = csvText([[text]])
          .replace(/^"/, '')
          .trimStart();
        expect(['=', '+', '-', '@']).not.toContain(first);
      }),
    );
  });
});

test('Markdown: names cannot break the table', () => {
  expect(markdownText('a|<b>*x*</b>\nnext')).toBe('a\\|\\<b\\>\\*x\\*\\</b\\> next');
});

test('a figure stays with its unit', () => {
  expect(paragraph('a cycle of 188.0 s, then 12,346\u00A0EUR in 80 h', 16)).toBe(
    'a cycle of\n188.0 s, then\n12,346 EUR in\n80 h',
  );
  expect(paragraph('two of 12 sets', 9)).toBe('two of 12\nsets');
});

test('a paragraph keeps every word and the width, as far as words allow', () => {
  fc.assert(
    fc.property(
      fc.array(fc.stringMatching(/^[a-z]{1,20}$/)),
      fc.integer({ min: 20, max: 90 }),
      (words, columns) => {
        const text = paragraph(words.join(' '), columns, '- ');
        expect(text.split(/[\s-]+/).filter((w) => w !== '')).toEqual(words);
        for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(Math.max(columns, 22));
      },
    ),
  );
});

test('a table: figures to the right, no spaces at line ends', () => {
  const columns = [{ heading: 'name' }, { heading: 'much\nof it', align: 'right' as const }];
  expect(
    textTable(
      columns,
      [
        ['a', '1.0'],
        ['long one', '10.0'],
      ],
      plainStyle,
    ).split('\n'),
  ).toEqual(['           much', 'name      of it', '────────  ─────', 'a           1.0', 'long one   10.0']);
});

describe('a table keeps within the terminal', () => {
  const name = 'twin_spindle_turning_center_1';
  const columns = [
    { heading: 'station' },
    { heading: 'robot move' },
    ...['a', 'b', 'c', 'd', 'e'].map((h) => right(`${h} per hour`)),
  ];
  const figures = ['1,234.5', '1,234.5', '1,234.5', '1,234.5', '1,234.5'];
  const widest = (text: string) => Math.max(...text.split('\n').map((line) => stringWidth(line)));

  test.each([
    ['two long names in a row', name, `take flange from ${name} to 五軸マシニングセンタ二号機`],
    ['a long name beside a short one', '五軸マシニングセンタ二号機五軸マシニングセンタ', 'wait'],
  ])('%s', (_, station, move) => {
    const text = textTable(columns, [[station, move, ...figures]], plainStyle);
    expect(widest(text)).toBeLessThanOrEqual(80);
    expect(text).toContain('…');
    expect(text).toContain('1,234.5  1,234.5  1,234.5  1,234.5  1,234.5');
    expect(textTable(columns, [[station, move, ...figures]], { ...plainStyle, columns: 200 })).toContain(
      station,
    );
  });

  test('names that have room stay whole', () => {
    const text = textTable(
      columns.slice(0, 2),
      [[name, `take flange from ${name} to done_rack`]],
      plainStyle,
    );
    expect(widest(text)).toBeLessThanOrEqual(80);
    expect(text).not.toContain('…');
  });
});
