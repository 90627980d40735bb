/** Makes text from a file safe to print: what would steer a terminal or hide is shown as a sign. */

/** Control characters, direction marks, characters without width, halves of pairs. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

/** @example visibleText('a\u001b[31m') // 'a␛[31m' */
export function visibleText(text: string): string {
  return text.replace(UNSEEN, visibleSign);
}

/** Colours and weights, as the program itself sets them; not what hides. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: the escape begins each of them
const LOOKS = /\u001b\[(?:0|1|2|3|4|7|9|2[0-9]|3[0-9]|4[0-9]|9[0-7]|10[0-7])m/g;

/**
 * The same for a whole text of the program with names in it: its line ends stay.
 * @param colour whether the looks of the terminal that the text may set stay too
 */
export function visibleLines(text: string, colour: boolean): string {
  const lines = (part: string) => part.split('\n').map(visibleText).join('\n');
  if (!colour) return lines(text);
  const looks = text.match(LOOKS) ?? [];
  return text
    .split(LOOKS)
    .map((part, i) => lines(part) + (looks[i] ?? ''))
    .join('');
}

function visibleSign(character: string): string {
  const code = character.codePointAt(0)!;
  if (code === 9) return ' ';
  if (code < 32) return String.fromCodePoint(0x2400 + code);
  if (code === 127) return '\u2421';
  return `<U+${code.toString(16).toUpperCase().padStart(4, '0')}>`;
}
