/** Text as it stands in XML; characters that XML has no place for are left out. */
const UNFIT = /(?![\t\n\r])\p{Cc}|\p{Cs}|[\uFFFE\uFFFF]/gu;

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

export function xmlText(text: string): string {
  return text.replace(UNFIT, '').replace(/[&<>"]/g, (sign) => ENTITIES[sign]!);
}
