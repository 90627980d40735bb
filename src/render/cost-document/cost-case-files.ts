/** The cost case's document as files: Markdown, and one page for a browser or a printer. */
import type { CostCaseFound } from '../../core/cost/result.js';
import { documentHtml } from '../document/document-html.js';
import { documentMarkdown } from '../document/document-markdown.js';
import { type CaseDocumentFacts, costCaseDocument } from './cost-case-document.js';

export const COST_CASE_FILES = ['cost-case.html', 'cost-case.md'] as const;

/** @returns texts by file name */
export function costCaseFiles(
  result: CostCaseFound,
  facts: CaseDocumentFacts,
): Record<(typeof COST_CASE_FILES)[number], string> {
  const document = costCaseDocument(result, facts);
  return { 'cost-case.html': documentHtml(document), 'cost-case.md': documentMarkdown(document) };
}
