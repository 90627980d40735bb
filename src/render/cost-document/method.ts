/** How the figures are worked out, in plain words, each with the source of its formula. */

import { fold, type InnerBlock, left, tableOf } from '../document/blocks.js';
import type { CaseView } from './case-view.js';

interface Step {
  readonly what: string;
  readonly how: string;
  readonly source: string;
  readonly applies?: (view: CaseView) => boolean;
}

const steps: readonly Step[] = [
  {
    what: 'Minutes of a changeover',
    how: 'Each option is added up from its elements: connectors, carrying and laying, checking which machine is connected, checking signals, first part, and the chance of a wiring fault times the minutes to find it. Only the minutes of downtime count as lost machine time.',
    source:
      'Internal and external set-up: S. Shingo, A Revolution in Manufacturing: The SMED System, 1985. The elements: common practice.',
  },
  {
    what: 'Cost of a minute',
    how: 'Labour of everyone taking part, plus the contribution of the parts that are not made during downtime: what the cell earns with it less what it earns without it, of parts that would be sold. Where there are shifts, the floor’s own week with and without the minutes counts.',
    source: 'Relevant and opportunity cost: common practice of management accounting.',
  },
  {
    what: 'Boxes of a machine',
    how: 'As many as its inputs, its outputs and its supply current need, whichever is most.',
    source: 'Definition; ratings from the data sheet of the box.',
    applies: ({ result }) => result.costItems.some((item) => item.item === 'box_inputs'),
  },
  {
    what: 'Connectors',
    how: 'A set is bought in the year in which the running count of changeovers passes a multiple of its rated matings.',
    source: 'Rated mating cycles: IEC 61076-2-101. The rule: common practice.',
    applies: ({ result }) => result.costItems.some((item) => item.item === 'connector_matings'),
  },
  {
    what: 'Cash flow',
    how: 'Purchases in year 0, everything else at the ends of years 1 to the horizon, salvage in the last. The difference of an option is its cash flow less that of moving the harness.',
    source: 'End-of-year convention: common practice.',
  },
  {
    what: 'Net present value, annual equivalent',
    how: 'Each year divided by (1 + discount rate) as often as years have passed, and added up; the annual equivalent is the level yearly amount of the same present value.',
    source:
      'D. G. Newnan, T. G. Eschenbach, J. P. Lavelle, Engineering Economic Analysis, 9th edition, 2004; some of its tables and examples are among the tests of the program.',
  },
  {
    what: 'Rates of return',
    how: 'Every discount rate above -100% at which the differences are worth nothing. Where there is more than one, none of them decides. The modified rate carries income to the last year and outlays to year 0 first, so that there is never more than one.',
    source:
      'Newnan and others, as above; several rates: J. H. Lorie, L. J. Savage, The Journal of Business 28, 1955.',
  },
  {
    what: 'Payback',
    how: 'The time at which the running sum of the differences reaches zero, within a year by its share; once plainly and once with interest. It says nothing of what comes later.',
    source: 'Newnan and others, as above.',
  },
  {
    what: 'More than two options',
    how: 'By rising first cost, each option has to earn its extra money against the best cheaper one (challenger against defender).',
    source: 'Incremental analysis: Newnan and others, as above.',
  },
  {
    what: 'Tax and depreciation',
    how: 'Running costs lower the tax in their year; purchases by the yearly share that may be written off; what is left at the end is set against the salvage.',
    source: 'Straight line, and the half-year tables of IRS Publication 946 for 3, 5 and 7 years.',
    applies: ({ result }) => result.basis === 'after tax',
  },
  {
    what: 'Machines to equip',
    how: 'Of all sets of machines that keep the budget, the one of largest present value, with the price of the whole order by its price breaks. Settled by an exact search and held against a second solver.',
    source:
      'Capital budgeting as a 0-1 program: J. H. Lorie, L. J. Savage, as above; H. M. Weingartner, 1963.',
  },
  {
    what: 'Sensitivity and break points',
    how: 'Each item alone at its low and its high, all others as planned, sorted by the swing; and the nearest value of each item at which the answer turns.',
    source: 'Common practice.',
  },
  {
    what: 'Risk',
    how: 'All items with a low and a high are drawn at once, each from its own distribution with the planned value as the most likely one; the share of trials in which the option is worth more than the harness is its chance to pay. Items are independent unless a rank correlation is stated (Gaussian copula).',
    source:
      'Beta distribution with mean (low + 4 x likely + high) / 6 (PERT), or triangular; standard error of a share by the binomial.',
  },
];

export function caseMethodBlocks(view: CaseView): InnerBlock[] {
  return [
    fold('How each figure is worked out, with the source of its formula', [
      tableOf(
        'How each figure is worked out',
        [left('figure'), left('how'), left('source of the formula')],
        steps
          .filter((step) => step.applies?.(view) ?? true)
          .map((step) => [step.what, step.how, step.source]),
        { prose: true, wide: true },
      ),
    ]),
  ];
}
