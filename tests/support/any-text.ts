/** Texts of any characters. What fast-check has for it lists all characters for each property, which takes longer than the property. */
import fc from 'fast-check';

const character = fc
  .integer({ min: 0, max: 0x10ffff - 0x800 })
  .map((n) => String.fromCodePoint(n < 0xd800 ? n : n + 0x800));

export function anyText(maxLength = 10): fc.Arbitrary<string> {
  return fc
    .array(
      fc.oneof(
        character,
        fc.integer({ min: 0, max: 0x7f }).map((n) => String.fromCodePoint(n)),
      ),
      { maxLength },
    )
    .map((characters) => characters.join(''));
}
