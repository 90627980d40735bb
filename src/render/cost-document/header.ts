/** What a document of the shop carries at its head and its foot: who, when, for what; the rules of the house; signatures. */

import { itemLabel } from '../../core/model/cost-items.js';
import { type Block, left, said, tableOf } from '../document/blocks.js';
import { upperFirst } from '../first-letter.js';
import { type CaseView, decisiveIncrement, yearsText } from './case-view.js';

/** Texts of costs.csv that stand in the head alone. */
export const HEAD_ITEMS = [
  'case_title',
  'case_date',
  'case_author',
  'case_cost_centre',
  'case_revision',
  'case_approvers',
  'case_quotes',
] as const;

const SHOWN = ['case_date', 'case_author', 'case_cost_centre', 'case_revision', 'case_quotes'] as const;

export function headText({ result }: CaseView, item: (typeof HEAD_ITEMS)[number]): string {
  return String(result.costItems.find((each) => each.item === item)?.value ?? '');
}

/** Who made it, when, for which cost centre: nothing where costs.csv says none of it. */
export function headBlocks(view: CaseView): Block[] {
  const entries = SHOWN.flatMap((item) => {
    const text = headText(view, item);
    return text === '' ? [] : [`${upperFirst(itemLabel(item))}: ${text}.`];
  });
  return entries.length === 0 ? [] : [said(entries.join(' '))];
}

/** The shop's own rules, and whether the watched option keeps them. */
export function ruleRows(view: CaseView): string[][] {
  const { result, numbers } = view;
  const increment = decisiveIncrement(view, view.watched);
  const given = (item: string) => {
    const value = result.costItems.find((each) => each.item === item)?.value;
    return typeof value === 'number' ? value : null;
  };
  const [hurdle, limit] = [given('hurdle_pct'), given('payback_limit_years')];
  const met = (isMet: boolean) => (isMet ? 'met' : 'not met');
  return [
    ...(hurdle === null || increment === null
      ? []
      : [
          [
            'Hurdle rate',
            increment.irrPct === null
              ? `${numbers.percent(hurdle)}: there is no single rate of return to hold against it.`
              : `${numbers.percent(hurdle)}: ${met(increment.irrPct >= hurdle)}, ${numbers.percent(increment.irrPct)} ${result.basis}.`,
          ],
        ]),
    ...(limit === null || increment === null
      ? []
      : [
          [
            'Payback limit',
            `${numbers.typed(limit)} years: ${met(increment.paybackYears !== null && increment.paybackYears <= limit)}, ${yearsText(view, increment.paybackYears)}.`,
          ],
        ]),
  ];
}

/** Room for those who sign; by name where costs.csv names them. */
export function approvalBlock(view: CaseView): Block {
  const names = headText(view, 'case_approvers')
    .split(';')
    .map((name) => name.trim())
    .filter((name) => name !== '');
  const who = names.length > 0 ? names : ['prepared by', 'checked by', 'approved by'];
  return tableOf(
    'Approval',
    [left('name'), left('decision'), left('date'), left('signature')],
    who.map((name) => [name, '\u2002'.repeat(14), '\u2002'.repeat(8), '\u2002'.repeat(22)]),
  );
}
