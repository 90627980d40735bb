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
import {
  COMPARISON_TABLES,
  comparisonTables,
  type FolderChanges,
} from '../result-tables/comparison-tables.js';
import { COST_TABLES, costTables } from '../result-tables/cost-tables.js';
import { JOB_TABLES, jobTables } from '../result-tables/job-tables.js';
import { MIX_TABLES, mixTables } from '../result-tables/mix-tables.js';
import { POINT_TABLES, pointTables } from '../result-tables/point-tables.js';
import type { ResultTable } from '../result-tables/result-table.js';
import { resultFiles } from '../result-tables/result-table.js';
import { SCHEDULE_TABLES, scheduleTables } from '../result-tables/schedule-tables.js';
import { SHIFT_TABLES, shiftTables } from '../result-tables/shift-tables.js';
import { SIMULATION_TABLES, simulationTables } from '../result-tables/simulation-tables.js';
import { SIZE_TABLES, sizeTables } from '../result-tables/size-tables.js';
import { tablesBook } from '../tables-book.js';
import { answerGroups, leadText } from './answer.js';
import { reportDocument } from './report-document.js';
import type { ReportFacts, ReportView } from './report-view.js';

/** The workbook of a report. */
export const REPORT_BOOK = 'report.xlsx';

/** Names of all tables that a report may have. */
const REPORT_TABLES = [
  ...SCHEDULE_TABLES,
  ...SIZE_TABLES,
  ...SHIFT_TABLES,
  ...SIMULATION_TABLES,
  ...MIX_TABLES,
  ...COMPARISON_TABLES,
  ...COST_TABLES,
  ...POINT_TABLES,
  ...JOB_TABLES,
] as const;

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

/** A part that is not there has no table. */
function resultTables(results: ReportResults, changes: readonly FolderChanges[]): ResultTable[] {
  const { schedule, shifts, size, simulation, costCase, points, comparison, mix, jobs } = results;
  return [
    ...scheduleTables(schedule),
    ...sizeTables(size),
    ...(shifts === null ? [] : shiftTables(shifts, results.performance, results.patterns)),
    ...simulationTables(simulation),
    ...(mix === null ? [] : mixTables(mix)),
    ...(comparison === null ? [] : comparisonTables(comparison, changes)),
    ...(costCase?.status === 'found' ? costTables(costCase) : []),
    ...(points === null ? [] : pointTables(points)),
    ...(jobs === null ? [] : jobTables(jobs)),
  ];
}
