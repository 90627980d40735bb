/** About how wide a text comes out, for labels that must not run into anything: fonts differ, so it errs on the wide side. */

const WIDE_LETTERS = /[A-Z@%&#_mw=<>+~—…]/;

/** How much wider bold letters run. */
export const BOLD = 1.12;

/**
 * @param size height of the font, pixels
 * @returns pixels
 */
export function textWidth(text: string, size = 13): number {
  let ems = 0;
  for (const letter of text) ems += emsOf(letter);
  return ems * size;
}

function emsOf(letter: string): number {
  if (letter.codePointAt(0)! > 0x2e7f) return 1.05;
  if (WIDE_LETTERS.test(letter)) return 0.82;
  return /[iljtfr.,:;'|! ()[\]]/.test(letter) ? 0.36 : 0.62;
}
