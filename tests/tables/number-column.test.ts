/** A number within a range: what is read, in which words the range stands, and what clock times and shares are taken for. */
import { describe, expect, it } from 'vitest';
import { type NumberRule, numberColumn, rangeInWords, readInRange } from '../../src/tables/number-column.js';
import { quantities } from '../../src/tables/quantities.js';

const STYLE = { decimalComma: false };
const SECONDS: NumberRule = { words: 'seconds', min: 0, least: 0.01, max: 1000 };
const value = (text: string, rule: NumberRule) => {
  const reading = readInRange(text, STYLE, rule);
  return reading.ok ? reading.value : reading.fault.code;
};
const help = (text: string, rule: NumberRule) => {
  const reading = readInRange(text, STYLE, rule);
  return reading.ok ? 'read' : reading.fault.help;
};

describe('a range', () => {
  it.each<[NumberRule, string]>([
    [{ words: 'metres' }, 'metres'],
    [{ words: 'metres', max: 5 }, 'metres, 5 or less'],
    [{ words: 'seconds', min: 0 }, 'seconds, 0 or more'],
    [{ words: 'seconds', min: 0, aboveMin: true }, 'seconds above 0'],
    [{ words: 'parts', min: 1, max: 9, whole: true }, 'a whole number of parts from 1 to 9'],
    [{ words: 'per cent', min: 0, max: 100, aboveMin: true }, 'per cent above 0 and up to 100'],
    [SECONDS, 'seconds, 0 or from 0.01 to 1000'],
  ])('%j is %s', (rule, words) => {
    expect(rangeInWords(rule)).toBe(words);
    expect(numberColumn('u', 'what it is', rule)).toMatchObject({
      unit: 'u',
      meaning: 'what it is',
      allowed: words,
      needed: true,
    });
  });

  it('holds its ends, but for a least value that has to be passed', () => {
    const whole = { words: 'parts', min: 1, max: 9 };
    expect(['0.9', '1', '9', '9.1'].map((text) => value(text, whole))).toEqual(['VAL03', 1, 9, 'VAL03']);
    const above = { words: 'per cent', min: 0, aboveMin: true, max: 100 };
    expect(['-1', '0', '0.1', '100'].map((text) => value(text, above))).toEqual(['VAL03', 'VAL03', 0.1, 100]);
    expect(['0', '0.009', '0.01', '1000', '1001', '-0.5'].map((text) => value(text, SECONDS))).toEqual([
      0,
      'VAL03',
      0.01,
      1000,
      'VAL03',
      'VAL03',
    ]);
    expect(['-7', '7'].map((text) => value(text, { words: 'metres' }))).toEqual([-7, 7]);
  });

  it('of whole numbers holds no others; one that is outside as well is told as that', () => {
    const parts = { words: 'parts', min: 1, max: 9, whole: true };
    expect(['3', '3.5', '0.5', 'three'].map((text) => value(text, parts))).toEqual([
      3,
      'VAL04',
      'VAL03',
      'VAL02',
    ]);
    expect(readInRange('12', STYLE, { ...parts, help: 'Fewer.' })).toEqual({
      ok: false,
      fault: {
        code: 'VAL03',
        text: 'found `12`, expected a whole number of parts from 1 to 9',
        help: 'Fewer.',
      },
    });
    expect(help('12', parts)).toBeNull();
    expect(help('3.5', parts)).toBeNull();
  });

  it('is read from a column in its own way of writing numbers', () => {
    const column = numberColumn('s', 'cycle', SECONDS);
    expect(column.read('2,5', { decimalComma: true })).toMatchObject({ ok: true, value: 2.5 });
    expect(column.read('2.5', STYLE)).toEqual({ ok: true, value: 2.5 });
  });
});

describe('a time with a colon', () => {
  it('is minutes and seconds where seconds are asked for', () => {
    expect(readInRange('1:30', STYLE, SECONDS)).toEqual({ ok: true, value: 90, taken: '90' });
    expect(value('0:01:30', SECONDS)).toBe(90);
    expect(value('0:16:39', SECONDS)).toBe(999);
    expect(value('0:05:00', SECONDS)).toBe(300);
    expect(value('0:16:41', SECONDS)).toBe('VAL03');
    expect(value('90:05', { ...SECONDS, max: 1e6 })).toBe(5405);
    expect(value('1:00:01', { ...SECONDS, max: 1e6 })).toBe(3601);
  });

  it('is asked about where it may be a time of day, or other units are asked for', () => {
    expect(readInRange('5:10:00', STYLE, SECONDS)).toEqual({
      ok: false,
      fault: {
        code: 'VAL02',
        text: 'found `5:10:00`, expected seconds, 0 or from 0.01 to 1000',
        help: 'Write 310 if 5 minutes and 10 seconds are meant, 18600 if 5 hours and 10 minutes are.',
      },
    });
    expect([value('1:75:01', SECONDS), value('0:60:01', SECONDS)]).toEqual(['VAL02', 'VAL02']);
    expect(help('1:05:09', { ...SECONDS, max: 1e6 })).toBe('read');
    expect(help('1:30', { words: 'minutes' })).toBe(
      'Write the number of minutes, such as `5.5`; a time with a colon has two meanings here.',
    );
    expect(help('0:01:30', { words: 'hours' })).toContain('the number of hours');
  });

  it('with more than 59 seconds is none', () => {
    expect(value('1:60', SECONDS)).not.toBe(120);
    expect(value('1:5', SECONDS)).not.toBe(65);
  });
});

describe('a share with its sign', () => {
  it('is per cent where that is asked for, a part of one where a share is', () => {
    expect(readInRange('95 %', STYLE, quantities.perCent)).toEqual({ ok: true, value: 95, taken: '95' });
    expect(value('95%', quantities.perCent)).toBe(95);
    const share = { words: 'a share', min: 0, max: 1 };
    expect([value('7%', share), value('12.5%', share), value('29%', share)]).toEqual([0.07, 0.125, 0.29]);
    expect(value('150%', share)).toBe('VAL03');
  });

  it('is none of other units, nor with words for a number', () => {
    expect([
      value('5%', SECONDS),
      value('5%', { words: 'parts', min: 0, max: 2 }),
      value('5%', { words: 'parts', min: 1, max: 1 }),
    ]).toEqual([...['VAL02', 'VAL02', 'VAL02']]);
    expect(value('x%', quantities.perCent)).toBe('VAL02');
  });
});
