// What would steer a terminal is shown as a sign, wherever it comes from; the program's own looks stay.
import { expect, test } from 'vitest';
import { visibleLines, visibleText } from '../../src/render/visible-text.js';

const ESC = '\u001b';

test('control characters, direction marks and what has no width are shown', () => {
  expect(visibleText(`a${ESC}[31mb\r\nc\u202ed\u0007`)).toBe('a␛[31mb␍␊c<U+202E>d␇');
});

test('in a whole text line ends stay, and looks only where the terminal takes them', () => {
  const text = `${ESC}[1mbold${ESC}[22m ${ESC}[8mhidden${ESC}]0;title\u0007\nnext`;
  expect(visibleLines(text, true)).toBe(`${ESC}[1mbold${ESC}[22m ␛[8mhidden␛]0;title␇\nnext`);
  expect(visibleLines(text, false)).toBe('␛[1mbold␛[22m ␛[8mhidden␛]0;title␇\nnext');
});
