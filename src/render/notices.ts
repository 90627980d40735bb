/** What goes with every result: warnings, what was assumed, and the cautions with their references. */
import pc from 'picocolors';
import type { Caution } from '../core/model/cautions.js';
import { bullets } from './paragraph.js';
import type { TextStyle } from './text-style.js';

export interface Notices {
  readonly warnings: readonly string[];
  readonly assumptions: readonly string[];
  readonly cautions: readonly Caution[];
}

/** @returns the sections that are not empty, or an empty text */
export function renderNotices(notices: Notices, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const cautions = notices.cautions.map((caution) => `${caution.text} (${caution.reference})`);
  return [
    section(paint.yellow('Warnings'), notices.warnings, style),
    section('What was assumed', notices.assumptions, style),
    section('Cautions', cautions, style),
  ]
    .filter((text) => text !== '')
    .join('\n');
}

function section(title: string, items: readonly string[], style: TextStyle): string {
  return items.length === 0 ? '' : `${title}\n${bullets(items, style.columns)}\n`;
}
