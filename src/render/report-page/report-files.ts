/**
 * A report as files: the page, the same as Markdown, tables for a spreadsheet, and the cost case on its own. Nothing in
 * them depends on the time or the speed of the machine, so that the same tables give the same files.
 */
import { type CsvForm, PLAIN_CSV } from '../../core/model/csv-form.js';
import type { ReportResults } from '../../core/report/report-results.js';
import type { Workbook } from '../../workbook/workbook.js';
import { COST_CASE_FILES, costCaseFiles } from '../cost-document/cost-case-files.js';
import { documentHtml } from '../document/document-html.js';
import { documentMarkdown } from '../document/document-markdown.js';
import { documentInLocale, figuresInLocale, namedIn } from '../figures-in-locale.js';
import { resultFiles } from '../result-tables/result-table.js';
import { tablesBook } from '../tables-book.js';
import { answerGroups, leadText } from './answer.js';
import { reportDocument } from './report-document.js';
import { REPORT_TABLES, resultTables } from './report-tables.js';
import type { ReportFacts, ReportView } from './report-view.js';

/** The workbook of a report. */
export const REPORT_BOOK = 'report.xlsx';

/** Every file that a report may have; none has the name of a table of a cell. */
export const REPORT_FILES = ['report.html', 'report.md', REPORT_BOOK, ...REPORT_TABLES, ...COST_CASE_FILES];

/**
 * @param script the script of the page
 * @param written form of the tables, and language tag by which the pages write numbers and money
 * @returns texts by file name
 */
export function reportFiles(
  view: ReportView,
  script: string,
  { form = PLAIN_CSV, locale = 'en' }: { readonly form?: CsvForm; readonly locale?: string } = {},
): Record<string, string> {
  const { results, facts } = view;
  const whole = reportDocument(view);
  const { names, currency } = namedIn(results.cell);
  const document = documentInLocale(whole, figuresInLocale(locale, currency, names));
  return {
    'report.html': documentHtml(document, script),
    'report.md': documentMarkdown(document),
    ...resultFiles(resultTables(results, facts.changes), form),
    ...caseFiles(results, facts, locale),
  };
}

/** The answer and every table, for a spreadsheet. */
export function reportBook(view: ReportView): Workbook {
  const sentences = [
    leadText(view),
    ...answerGroups(view).flatMap(({ title, sentences: of }) => [title, ...of]),
  ];
  const { results, facts } = view;
  return tablesBook(facts.name, sentences, resultTables(results, facts.changes), facts.currency);
}

function caseFiles({ costCase }: ReportResults, facts: ReportFacts, locale: string): Record<string, string> {
  if (costCase?.status !== 'found') return {};
  const { name: cell, files, program, warnings, notes: assumptions } = facts;
  return costCaseFiles(costCase, { cell, locale, files, program, warnings, assumptions });
}
