/** The answer of a report in the terminal: warnings, its sentence and figures, and where everything else stands. */

import pc from 'picocolors';
import { listText } from '../../core/model/list-text.js';
import { countText } from '../numbers.js';
import { bullets, paragraph } from '../paragraph.js';
import type { TextStyle } from '../text-style.js';
import { answerGroups, leadText } from './answer.js';
import { reportWarnings } from './closing-blocks.js';
import { keyFigures } from './memo-blocks.js';
import type { ReportView } from './report-view.js';

/** @param names files that were written, each with its folder */
export function renderReportAnswer(view: ReportView, names: readonly string[], style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const said = (text: string) => `${paragraph(text, style.columns)}\n`;
  const figures = keyFigures(view).map(({ value, what }) => `${value} ${what}`);
  const groups = style.full
    ? answerGroups(view).map(
        ({ title, sentences }) => `\n${paint.bold(title)}\n${bullets(sentences, style.columns)}\n`,
      )
    : [];
  return [
    ...reportWarnings(view).map((text) => paint.yellow(said(`Warning: ${text}`))),
    said(leadText(view)),
    `${bullets(figures, style.columns)}\n`,
    ...groups,
    ...(style.full ? ['\n'] : []),
    said(writtenText(names)),
  ].join('');
}

/** The page by its path, the rest by kind: there are many tables. */
function writtenText(names: readonly string[]): string {
  const page = names.find((name) => name.endsWith('report.html')) ?? names[0] ?? '';
  const others = names.filter((name) => name !== page);
  const tables = others.filter((name) => name.endsWith('.csv'));
  const rest = others.filter((name) => !name.endsWith('.csv')).map((name) => name.replace(/^.*[\\/]/, ''));
  return `Open ${page}. Beside it: ${listText([...rest, countText(tables.length, 'CSV table')])}.`;
}
