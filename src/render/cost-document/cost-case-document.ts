/** The cost case as a document that stands on its own, for whoever decides about the money. */
import type { CostCaseFound } from '../../core/cost/result.js';
import { cautionsFor } from '../../core/model/cautions.js';
import { type Document, listOf, section } from '../document/blocks.js';
import { localeNumbers } from '../document/locale-numbers.js';
import { caseAssumptionBlocks } from './assumptions.js';
import { auditBlocks, type SourceFile } from './audit-appendix.js';
import { caseView } from './case-view.js';
import { headBlocks, headText } from './header.js';
import { resultBlocks } from './results.js';
import { sensitivityBlocks } from './sensitivity.js';
import { summaryBlocks } from './summary.js';

export interface CaseDocumentFacts {
  /** Name of the cell, such as its folder. */
  readonly cell: string;
  /** Language tag for numbers and money, such as `en` or `de-DE`. */
  readonly locale: string;
  readonly files: readonly SourceFile[];
  /** Name and version of the program. */
  readonly program: string;
  /** What the reader of the tables had to say, ahead of the case's own warnings. */
  readonly warnings?: readonly string[];
  readonly assumptions?: readonly string[];
}

export function costCaseDocument(found: CostCaseFound, facts: CaseDocumentFacts): Document {
  const result = {
    ...found,
    warnings: [...(facts.warnings ?? []), ...found.warnings],
    assumptions: [...(facts.assumptions ?? []), ...found.assumptions],
  };
  const view = caseView(result, localeNumbers(facts.locale, result.currency));
  const money = result.currency === '' ? '' : `, money in ${result.currency}`;
  const machines = `${result.byStation.length} ${result.byStation.length === 1 ? 'machine' : 'machines'}`;
  return {
    title: headText(view, 'case_title') || `Interface boxes or one harness: ${facts.cell}`,
    subtitle: `Cost case for ${machines} over ${result.horizonYears} years${money}. Estimates for a decision.`,
    blocks: [
      ...headBlocks(view),
      ...summaryBlocks(view),
      ...resultBlocks(view),
      ...sensitivityBlocks(view),
      ...caseAssumptionBlocks(view),
      section('Cautions'),
      listOf(cautionsFor('costcase').map((c) => `${c.text} (${c.reference})`)),
      ...auditBlocks(view, facts.files, facts.program),
    ],
  };
}
