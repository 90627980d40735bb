// Figures of finished texts in another language. Expected forms are those of the Unicode Common Locale Data Repository.
import { describe, expect, test } from 'vitest';
import { columnsInLocale, documentInLocale, figuresInLocale } from '../../src/render/figures-in-locale.js';

const NBSP = '\u00A0';
const german = figuresInLocale('de-DE', 'EUR', ['plate 2.5']);

describe('a figure changes its form', () => {
  test.each([
    ['Output 1,053.4 parts/h', 'Output 1.053,4 parts/h'],
    ['robot busy 61.2%, then', `robot busy 61,2${NBSP}%, then`],
    ['worth €10,161 more; -€842', `worth 10.161${NBSP}€ more; -842${NBSP}€`],
    ['10,161 EUR, -14.8', '10.161 EUR, -14,8'],
    ['402.2 to 406.7.', '402,2 to 406,7.'],
    ['(±0.55)', '(±0,55)'],
  ])('%s', (text, expected) => {
    expect(german(text)).toBe(expected);
  });
});

describe('what is no figure of a result stays', () => {
  test.each([
    'lathe_2.5 and plate 2.5',
    '`--set robot.index_s=2.5`',
    'roundsman 0.1.0, seed 20261',
    '29 CFR 1910.147(a)(2), NFPA 79 cl. 9.4.3, IEC 60204-1 cl. 6.4',
    'Tue 18:10, 2 of 3',
    'mill_1,load,readings,11.6|12.4|12.9,,',
  ])('%s', (text) => {
    expect(german(text)).toBe(text);
  });
});

test('columns stay under one another where a figure grows or shrinks', () => {
  const table = 'a      1,234  61.2%\nb  1,234,567   1.5%';
  const french = columnsInLocale(figuresInLocale('fr-FR', ''))(table);
  const [first, second] = french.split('\n') as [string, string];
  expect(first).toHaveLength(second.length);
  expect(first.indexOf('1\u202F234') + 5).toBe(second.indexOf('1\u202F234\u202F567') + 9);
  const spanish = columnsInLocale(figuresInLocale('es', ''))('a  1,234  x\nb   12.5  x');
  expect(spanish.split('\n').map((line) => line.indexOf('x'))).toEqual([10, 10]);
});

test('a document: sentences, tables and drawings change, quoted tables do not', () => {
  const table = { kind: 'table', caption: 'Up to 1.5', columns: [], rows: [['2.5']] } as const;
  const chart = {
    kind: 'chart',
    title: '1.5 a',
    description: 'b',
    note: 'c',
    svg: '<svg viewBox="0 0 1.5 2"><text x="3.5">4.5</text></svg>',
  } as const;
  const { blocks } = documentInLocale(
    { title: 't', subtitle: 's', blocks: [table, { ...table, quoted: true }, chart] },
    german,
  );
  expect(blocks).toEqual([
    { ...table, caption: 'Up to 1,5', rows: [['2,5']] },
    { ...table, caption: 'Up to 1,5', quoted: true },
    { ...chart, title: '1,5 a', svg: '<svg viewBox="0 0 1.5 2"><text x="3.5">4,5</text></svg>' },
  ]);
});
