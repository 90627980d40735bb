/** What every section of the report draws from. */
import type { CostCaseFound } from '../../core/cost/result.js';
import type { ReportResults } from '../../core/report/report-results.js';
import type { ShownTable } from '../../tables/shown-tables.js';
import type { SourceFile } from '../cost-document/audit-appendix.js';
import { type CaseView, caseView } from '../cost-document/case-view.js';
import { type LocaleNumbers, localeNumbers } from '../document/locale-numbers.js';
import type { FolderChanges } from '../result-tables/comparison-tables.js';

/** What is known beside the results. */
export interface ReportFacts {
  /** Name of the cell, such as its folder. */
  readonly name: string;
  readonly currency: string;
  /** The tables as they count in this run. */
  readonly tables: readonly ShownTable[];
  /** Files that were read. */
  readonly files: readonly SourceFile[];
  /** Name and version of the program. */
  readonly program: string;
  /** What the reader of the tables had to say. */
  readonly warnings: readonly string[];
  /** What was changed for this run, and which folders the cell builds on. */
  readonly notes: readonly string[];
  /** What the other folders of a comparison change. */
  readonly changes: readonly FolderChanges[];
}

export interface ReportView {
  readonly results: ReportResults;
  readonly facts: ReportFacts;
  readonly numbers: LocaleNumbers;
  /** null where there is no cost case. */
  readonly money: CaseView | null;
}

/** What a section needs that answers one question: a report has it, and a page that works out that question alone. */
export interface PartView<Name extends keyof ReportResults> {
  readonly results: Pick<ReportResults, Name>;
  readonly facts: Pick<ReportFacts, 'currency'>;
  readonly numbers: LocaleNumbers;
  readonly money: CaseView | null;
}

export function reportView(results: ReportResults, facts: ReportFacts): ReportView {
  const numbers = reportNumbers(facts.currency);
  return { results, facts, numbers, money: moneyView(results, numbers) };
}

/** How a report writes its numbers. */
export function reportNumbers(currency: string): LocaleNumbers {
  return localeNumbers('en', currency);
}

/** @returns null where there is no cost case */
export function moneyView(results: Pick<ReportResults, 'costCase'>, numbers: LocaleNumbers): CaseView | null {
  const found = foundCase(results);
  return found === null ? null : caseView(found, numbers);
}

function foundCase({ costCase }: Pick<ReportResults, 'costCase'>): CostCaseFound | null {
  return costCase?.status === 'found' ? costCase : null;
}

/** Unit of money for headings: ` (EUR)`, or nothing where it has no name. */
export function moneyUnit({ facts }: Pick<PartView<never>, 'facts'>): string {
  return facts.currency === '' ? '' : ` (${facts.currency})`;
}
