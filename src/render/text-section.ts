/** Sections of a printed answer: a bold title over its body. */
import pc from 'picocolors';
import type { TextStyle } from './text-style.js';

export function sectionsIn(style: TextStyle): (title: string, body: string) => string {
  const paint = pc.createColors(style.colour);
  return (title, body) => `${paint.bold(title)}\n${body}\n`;
}

/** The same where a section without a body is left out. */
export function filledSectionsIn(style: TextStyle): (title: string, body: string) => string[] {
  const section = sectionsIn(style);
  return (title, body) => (body === '' ? [] : [section(title, body)]);
}
