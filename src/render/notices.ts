/** What goes with every result: warnings before it; after it what was assumed, and the cautions with their references. */
import pc from 'picocolors';
import type { Caution } from '../core/model/cautions.js';
import { countText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import type { TextStyle } from './text-style.js';

export interface Notices {
  readonly assumptions: readonly string[];
  /** Those of them that move the figures most, or were made on this command line. */
  readonly key: readonly string[];
  readonly cautions: readonly Caution[];
  /** Command that prints the cautions. */
  readonly cautionsBy: string;
  /** Whether the short answer leaves tables out. */
  readonly hidesTables: boolean;
}

export interface NoticeDetail {
  readonly allAssumptions: boolean;
  readonly allCautions: boolean;
}

/** Warnings shown before a short answer. */
const WARNINGS_SHOWN = 3;

/** @returns an empty text where there are none */
export function renderWarnings(warnings: readonly string[], style: TextStyle): string {
  if (warnings.length === 0) return '';
  const paint = pc.createColors(style.colour);
  const shown = style.full ? warnings : warnings.slice(0, WARNINGS_SHOWN);
  const rest = warnings.length - shown.length;
  const lines = [...shown, ...(rest > 0 ? [`${countText(rest, 'more warning')}: --full`] : [])];
  return `${lines.map((text) => paint.yellow(paragraph(`Warning: ${text}`, style.columns))).join('\n')}\n`;
}

/** @returns the sections that are not empty, or an empty text */
export function renderNotices(notices: Notices, detail: NoticeDetail, style: TextStyle): string {
  const { assumptions, key, cautions } = notices;
  const shown = detail.allAssumptions ? assumptions : key;
  const said = cautions.map((caution) => `${caution.text} (${caution.reference})`);
  return [
    shown.length === 1 && !detail.allAssumptions
      ? `${paragraph(`Assumption: ${shown[0]}`, style.columns)}\n`
      : section('Assumptions', shown, style),
    section('Cautions', detail.allCautions ? said : [], style),
    more(notices, shown.length, detail, style),
  ]
    .filter((text) => text !== '')
    .join(detail.allAssumptions || detail.allCautions ? '\n' : '');
}

/** One line that says where the rest is. */
function more(
  { assumptions, cautions, cautionsBy, hidesTables }: Notices,
  shown: number,
  { allCautions }: NoticeDetail,
  style: TextStyle,
): string {
  const rest = assumptions.length - shown;
  const hidden = [
    ...(hidesTables && !style.full ? ['tables'] : []),
    ...(rest > 0 ? [countText(rest, 'assumption')] : []),
  ];
  const pieces = [
    ...(hidden.length > 0 ? [`More: --full (${hidden.join(', ')}).`] : []),
    ...(cautions.length > 0 && !allCautions
      ? [`${countText(cautions.length, 'caution')}: ${cautionsBy}`]
      : []),
  ];
  return pieces.length === 0 ? '' : `${paragraph(pieces.join(' '), style.columns)}\n`;
}

function section(title: string, items: readonly string[], style: TextStyle): string {
  return items.length === 0 ? '' : `${title}\n${bullets(items, style.columns)}\n`;
}
