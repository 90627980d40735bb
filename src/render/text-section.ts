/** Pieces of a printed answer: sentences, and sections of a bold title over what it is of. */
import pc from 'picocolors';
import { bullets, paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';
import { printTable, type TableData } from './text-table.js';

/** A text as it is, items as a list, or a table; null where there is nothing to show. */
export type Body = string | readonly string[] | TableData | null;

interface Printer {
  /** Sentences, each from a new line on. */
  said(...texts: readonly string[]): string;
  section(title: string, ...bodies: readonly Body[]): string;
  /** The same where nothing is printed if there is nothing to show. */
  filled(title: string, ...bodies: readonly Body[]): string;
}

export function printer(style: TextStyle): Printer {
  const paint = pc.createColors(style.colour);
  const print = (body: Body): string => {
    if (body === null || typeof body === 'string') return body ?? '';
    return 'rows' in body ? printTable(body, style) : bullets(body, style.columns);
  };
  const section: Printer['section'] = (title, ...bodies) => {
    const text = bodies.map(print).filter((body) => body !== '');
    return `${paint.bold(title)}\n${text.join('\n')}\n`;
  };
  return {
    said: (...texts) => `${texts.map((text) => paragraph(text, style.columns)).join('\n')}\n`,
    section,
    filled: (title, ...bodies) => {
      const shown = bodies.filter(isFilled);
      return shown.length === 0 ? '' : section(title, ...shown);
    },
  };
}

function isFilled(body: Body): boolean {
  if (body === null) return false;
  return typeof body === 'object' && 'rows' in body ? body.rows.length > 0 : body.length > 0;
}

/** Pieces with an empty line between; what is empty or not meant is left out. */
export function pieces(...all: readonly (string | false | null | undefined)[]): string {
  return all.filter((piece) => piece).join('\n');
}
