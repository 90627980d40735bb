/** The answer of a report in the terminal: its sentences, the warnings, and where everything else stands. */
import pc from 'picocolors';
import { bullets, paragraph } from '../paragraph.js';
import type { TextStyle } from '../text-style.js';
import { answerGroups, leadText } from './answer.js';
import { reportWarnings } from './closing-blocks.js';
import type { ReportView } from './report-view.js';

/** @param names files that were written */
export function renderReportAnswer(view: ReportView, names: readonly string[], style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const warnings = reportWarnings(view);
  const groups = [
    ...answerGroups(view),
    ...(warnings.length > 0 ? [{ title: 'Warnings', sentences: warnings }] : []),
  ];
  return [
    `${paragraph(leadText(view), style.columns)}\n`,
    ...groups.map(({ title, sentences }) => `${paint.bold(title)}\n${bullets(sentences, style.columns)}\n`),
    `${paragraph(`Written: ${names.join(', ')}. The page has the charts, the tables, what was assumed, the cautions, and how each figure was worked out.`, style.columns)}\n`,
  ].join('\n');
}
