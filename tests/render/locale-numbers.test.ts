// Expected texts are those of the Unicode Common Locale Data Repository for each language and country.
import { describe, expect, test } from 'vitest';
import { isKnownLocale, localeNumbers } from '../../src/render/document/locale-numbers.js';

const NBSP = '\u00A0';

describe('money', () => {
  test.each([
    ['en', 'EUR', 12345.6, '€12,346'],
    ['de-DE', 'EUR', 12345.6, `12.346${NBSP}€`],
    ['ja-JP', 'JPY', 12345.6, '￥12,346'],
    ['en-US', 'USD', -12345.6, '-$12,346'],
    ['fr-FR', 'EUR', 1234.5, `1\u202F235${NBSP}€`],
    ['en', 'EUR', 12.345, '€12.35'],
    ['en', 'EUR', 12, '€12'],
    ['de-DE', 'shop tokens', 1234, `1.234${NBSP}shop tokens`],
    ['de-DE', '', 1234, '1.234'],
  ])('%s %s %d is %s', (locale, currency, value, text) => {
    expect(localeNumbers(locale, currency).money(value)).toBe(text);
  });
});

test('numbers, per cent and typed values follow the locale', () => {
  const german = localeNumbers('de-DE', 'EUR');
  expect(german.number(1234.56, 1)).toBe('1.234,6');
  expect(german.percent(12.94)).toBe(`12,9${NBSP}%`);
  expect(german.typed(0.005)).toBe('0,005');
  expect(german.typed('4:1520')).toBe('4:1520');
});

test.each(['en', 'de-DE', 'hi-IN-u-nu-deva', 'ar-EG'])(
  'what rounds to zero carries no sign, in %s',
  (tag) => {
    const numbers = localeNumbers(tag, 'EUR');
    expect(numbers.number(-0.4)).toBe(numbers.number(0));
    expect(numbers.number(-0)).toBe(numbers.number(0));
    expect(numbers.number(-0.6)).not.toBe(numbers.number(0.6));
  },
);

test.each([
  ['en', true],
  ['de-DE', true],
  ['de_DE', false],
  ['klingon', false],
  ['', false],
  ['1', false],
])('%s is a known locale: %s', (tag, known) => {
  expect(isKnownLocale(tag)).toBe(known);
});
