/** Text of any origin made safe between tags and within attribute values of HTML and SVG. */
import { visibleText } from '../visible-text.js';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** @example escapeMarkup('<b a="1">') // '&lt;b a=&quot;1&quot;&gt;' */
export function escapeMarkup(text: string): string {
  return visibleText(text).replace(/[&<>"']/g, (sign) => ENTITIES[sign]!);
}
