/** `--out` of the commands that answer with tables: a folder of CSV files and a workbook, or the workbook alone. */
import { basename, resolve } from 'node:path';
import { cautionsFor } from '../core/model/cautions.js';
import { type Block, type Document, section } from '../render/document/blocks.js';
import { documentHtml } from '../render/document/document-html.js';
import { documentInLocale } from '../render/figures-in-locale.js';
import { paragraph } from '../render/paragraph.js';
import { resultFiles } from '../render/result-tables/result-table.js';
import { tablesBook } from '../render/tables-book.js';
import type { Answer, AnswerTables } from './answer.js';
import type { OptionValues } from './command-spec.js';
import type { Io } from './io.js';
import { localeOf } from './locale-of.js';
import { csvFormAsked } from './option-values.js';
import { bookName, pageName, writeRun } from './outputs.js';

export interface TablesAsked {
  readonly command: string;
  /** Folders or workbooks of the cells, as the user gave them. */
  readonly cells: readonly string[];
  readonly values: OptionValues;
  readonly io: Io;
}

/** The answer, its tables written where that is asked for. Without tables nothing is written, and that is said. */
export async function withTables(
  answer: Answer,
  { command, cells, values, io }: TablesAsked,
): Promise<Answer> {
  const out = values.out as string | undefined;
  if (out === undefined) return answer;
  const found = answer.tables?.();
  if (found === undefined || found.tables.length === 0)
    return said(answer, [], 'Nothing was written, since there are no tables.');
  const title = [command, ...cells.map((cell) => basename(resolve(io.cwd, cell)))].join(' ');
  const content = tablesBook(title, bookSentences(command, answer, found), found.tables, found.currency);
  const files = {
    ...resultFiles(found.tables, csvFormAsked(values, found.form)),
    ...(found.page === undefined
      ? {}
      : { [pageName(command)]: pageText(command, answer, found.page, values) }),
  };
  const written = await writeRun({ command, out, files, book: { name: bookName(command), content } }, io);
  return said(answer, written, `Written: ${written.join(', ')}.`);
}

function said(answer: Answer, written: readonly string[], text: string): Answer {
  return {
    ...answer,
    fields: { ...answer.fields, written },
    text: (style) => `${answer.text(style)}\n${paragraph(text, style.columns)}\n`,
  };
}

/** All that has to go with the figures where they are passed on. */
function notices(
  command: string,
  { warnings = [], assumptions = [] }: Answer,
): [string, readonly string[]][] {
  const cautions = cautionsFor(command).map(({ text, reference }) => `${text} (${reference})`);
  const all: [string, readonly string[]][] = [
    ['Warnings', warnings],
    ['Assumptions', assumptions],
    ['Cautions', cautions],
  ];
  return all.filter(([, texts]) => texts.length > 0);
}

function bookSentences(command: string, answer: Answer, { sentences }: AnswerTables): string[] {
  return [...sentences, ...notices(command, answer).flatMap(([title, texts]) => [`${title}:`, ...texts])];
}

function pageText(command: string, answer: Answer, page: Document, values: OptionValues): string {
  const more = notices(command, answer).flatMap(([title, items]): Block[] => [
    section(title),
    { kind: 'list', items, quoted: title === 'Cautions' },
  ]);
  const whole = { ...page, blocks: [...page.blocks, ...more] };
  const inLocale = localeOf(values, answer.named);
  return documentHtml(inLocale === null ? whole : documentInLocale(whole, inLocale));
}
