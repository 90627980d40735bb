/** The text of a file's bytes: UTF-8, UTF-16 by its mark or its look, or the code page that older spreadsheets save in. */

export interface DecodedText {
  readonly text: string;
  /** How the bytes were read, where they are not UTF-8. */
  readonly form: 'UTF-16' | 'Windows-1252 (Latin-1)' | null;
}

/** Bytes looked at for the look of UTF-16 without a mark. */
const LOOKED_AT = 400;

export function decodedText(bytes: Uint8Array): DecodedText {
  const wide = wideForm(bytes);
  if (wide !== null) return { text: new TextDecoder(wide).decode(bytes), form: 'UTF-16' };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), form: null };
  } catch {
    // A text that is almost UTF-8 is a damaged one: its marks stay in sight and are complained of.
    const loose = new TextDecoder().decode(bytes);
    if (/[\u0080-\uFFFC]/.test(loose.replaceAll('\uFFFD', '')) || bytes.includes(0))
      return { text: loose, form: null };
    const text = withSigns1252(new TextDecoder('windows-1252').decode(bytes));
    return { text, form: 'Windows-1252 (Latin-1)' };
  }
}

/** What Windows-1252 has from 0x80 on (Encoding Standard, index windows-1252); Node 20 decodes it as control characters. */
const SIGNS_1252 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** @param text from a decoder of Windows-1252 */
export function withSigns1252(text: string): string {
  return text.replace(/[\u0080-\u009f]/g, (sign) => SIGNS_1252[sign.charCodeAt(0) - 0x80]!);
}

function wideForm(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const head = bytes.subarray(0, LOOKED_AT - (LOOKED_AT % 2));
  if (head.length < 4) return null;
  const zeros = (odd: 0 | 1): number => {
    let count = 0;
    for (let i = odd; i < head.length; i += 2) if (head[i] === 0) count += 1;
    return count / (head.length / 2);
  };
  if (zeros(1) > 0.9 && zeros(0) === 0) return 'utf-16le';
  return zeros(0) > 0.9 && zeros(1) === 0 ? 'utf-16be' : null;
}
