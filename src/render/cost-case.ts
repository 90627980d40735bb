/** The cost case as text: the recommendation, then the tables of its document. */

import type { CostCaseFound, CostCaseTooLittle } from '../core/cost/result.js';
import { amountText } from '../core/model/amount-text.js';
import { breakEvenText } from './cost-document/break-even-text.js';
import { plainView, wayInWords } from './cost-document/case-view.js';
import { elsewhereNote, machineValueTable, optionsTable, resultBlocks } from './cost-document/results.js';
import { sensitivityBlocks } from './cost-document/sensitivity.js';
import { blocksText } from './document/document-text.js';
import { numberText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

export function renderTooLittle(result: CostCaseTooLittle, style: TextStyle): string {
  return `${paragraph(TOO_LITTLE, style.columns)}\n${bullets(missingLines(result), style.columns)}\n`;
}

export const TOO_LITTLE = 'Too little data to say; no results. Missing:';

/** Each missing item with its table and what it is needed for. */
export function missingLines({ missing }: CostCaseTooLittle): string[] {
  return missing.map(
    ({ item, file, neededFor }) =>
      `${file === item ? item : `${item} in ${file}`}: needed for ${neededFor.join(', ')}`,
  );
}

/** The document's own tables: the two that carry the answer, or all of its results and its doubt. */
export function renderCostCase(result: CostCaseFound, style: TextStyle): string {
  const view = plainView(result);
  const blocks = style.full
    ? [...resultBlocks(view), ...sensitivityBlocks(view)]
    : [optionsTable(view), machineValueTable(view), ...elsewhereNote(view)];
  const more = result.plannedChangeovers === 0 ? [] : [evenText(result), benefitText(result)];
  return pieces(printer(style).said(result.recommendation, ...more), blocksText(blocks, style));
}

function evenText(result: CostCaseFound): string {
  const view = plainView(result);
  return `Break-even of ${wayInWords(view, view.watched)}, changeovers: ${breakEvenText(view)}.`;
}

/** What the gain is made of, and what of it is cash. */
function benefitText({ benefit, currency }: CostCaseFound): string {
  const money = (amount: number) => amountText(Math.round(amount), currency);
  const { labourPerYear, contributionPerYear, labourCashPct, npvInCash } = benefit;
  const cash =
    labourCashPct < 100
      ? ` ${numberText(labourCashPct)}% of the labour turns into cash, the rest frees time; in cash alone the present value is ${money(npvInCash)}.`
      : ' All of the labour counts as cash; where it only frees time, give its cash share in costs.csv.';
  return `The gain of a year: ${money(labourPerYear)} of labour and ${money(contributionPerYear)} of contribution.${cash}`;
}
