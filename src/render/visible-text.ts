/** Makes text from a file safe to print: what would steer a terminal or hide is shown as a sign. */

/** Control characters, direction marks, characters without width, halves of pairs. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

/** @example visibleText('a\u001b[31m') // 'a␛[31m' */
export function visibleText(text: string): string {
  return text.replace(UNSEEN, visibleSign);
}

function visibleSign(character: string): string {
  const code = character.codePointAt(0)!;
  if (code === 9) return ' ';
  if (code < 32) return String.fromCodePoint(0x2400 + code);
  if (code === 127) return '\u2421';
  return `<U+${code.toString(16).toUpperCase().padStart(4, '0')}>`;
}
