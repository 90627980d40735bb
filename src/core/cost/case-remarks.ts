/** Warnings and assumptions that go with the cost case. */

import { amountText } from '../model/amount-text.js';
import type { Cell } from '../model/cell.js';
import { itemLabel } from '../model/cost-items.js';
import { costWord, givenCost } from '../model/cost-value.js';
import { type CaseInputs, num } from './case-inputs.js';
import { discountWords } from './discount-rate.js';
import { payBackHolds } from './finance/payback-years.js';
import type { IncrementResult, SelectionResult } from './result.js';
import type { StandingFacts } from './standing/standing-facts.js';

/** Sentences that the reader needs to judge the figures. */
export function caseWarnings(
  cell: Cell,
  inputs: CaseInputs,
  facts: StandingFacts | null,
  increments: readonly IncrementResult[],
): string[] {
  const n = (item: string) => num(inputs, item);
  const given = (item: string) => givenCost(cell.costs, item) !== null;
  const unpriced = cell.routes
    .map((route) => route.part)
    .filter((name) => cell.parts.find((part) => part.part === name)?.contribution == null);
  const bare = inputs.stations.filter((s) => s.demand === null).map((s) => s.station);
  const checks: [boolean, string][] = [
    [
      cell.signals.length > 0 && bare.length > 0,
      `signals.csv names no signal of ${bare.join(', ')}: boxes_per_machine (${n('boxes_per_machine')}) and signals_per_machine (${n('signals_per_machine')}) are used there.`,
    ],
    [
      inputs.stations.some((s) => s.signals === 0),
      'Some machines have no signals listed, so checking and wiring signals takes no time there; fill signals.csv or signals_per_machine.',
    ],
    [
      !given('check_min_per_signal') && inputs.stations.some((s) => s.signals > 0),
      'check_min_per_signal is not given, so checking every signal after a move counts as 0 minutes.',
    ],
    [
      !given('box_plug_min') && !given('box_check_min'),
      'Neither box_plug_min nor box_check_min is given, so a changeover with a box takes no time but that of its other items.',
    ],
    [
      (n('fault_chance_harness') > 0 || n('fault_chance_box') > 0) && n('fault_find_min') === 0,
      'A chance of a wiring fault is given but no fault_find_min, so faults cost no time.',
    ],
    [
      n('connector_price') > 0 && inputs.numbers.connector_matings == null,
      'connector_price is given but no connector_matings, so no set is ever replaced.',
    ],
    [
      inputs.priceBreaks.some((step) => step.from === 1),
      'box_price_breaks begins at one box, so box_price itself is never paid.',
    ],
    [
      inputs.priceBreaks.length > 0 && isRanged(cell, 'box_price') && !isRanged(cell, 'box_price_pct'),
      'The low and high of box_price leave the prices of box_price_breaks where they are, so an order that reaches one of them is never dearer or cheaper; give box_price_pct a low and a high instead.',
    ],
    [
      facts === null && costWord(cell.costs, 'machine_constrained') === 'from-schedule',
      'There is no schedule to show what downtime loses, so no contribution is counted as lost.',
    ],
    [
      facts !== null && unpriced.length > 0 && inputs.stations.some((s) => s.standing.lost.length > 0),
      `parts.csv gives no contribution for ${unpriced.join(', ')}: an hour that loses these parts costs nothing for them.`,
    ],
    [
      costWord(cell.costs, 'machine_constrained') === 'no' && given('contribution_per_machine_h'),
      'contribution_per_machine_h is given, but machine_constrained is no, so it is not used.',
    ],
    [
      n('identity_check_harness_min') === 0 && n('identity_check_box_min') === 0,
      'No time is counted for checking which machine the robot is plugged into (identity_check_harness_min, identity_check_box_min).',
    ],
    [
      n('tax_pct') > 0 && inputs.depreciation === 'none',
      'depreciation is none, so the tax never takes the purchases into account: after tax, boxes look worse than they are.',
    ],
  ];
  return [
    ...checks.filter(([applies]) => applies).map(([, text]) => text),
    ...increments.flatMap(measureWarnings),
  ];
}

function isRanged({ costs }: Cell, item: string): boolean {
  const given = givenCost(costs, item);
  return given !== null && (given.low ?? given.value) !== (given.high ?? given.value);
}

function measureWarnings(increment: IncrementResult): string[] {
  const { irrAll, cashFlow } = increment;
  const rates = irrAll.map((rate) => `${rate.toFixed(2)}%`).join(', ');
  return [
    ...(irrAll.length > 1
      ? [
          `The increment has ${irrAll.length} rates of return (${rates}): none of them alone decides; go by the net present value.`,
        ]
      : []),
    ...(payBackHolds(cashFlow)
      ? []
      : [
          'After the payback the running sum falls below zero again, because of a later purchase: the payback does not show everything.',
        ]),
  ];
}

/**
 * A budget that no box that pays fits in is no error; the answer is to buy none, and to say what the first one takes.
 *
 * @param machines what a box on each machine alone is worth, on the basis that decides, and what it takes
 */
export function selectionWarnings(
  selection: SelectionResult,
  machines: readonly { readonly station: string; readonly worth: number; readonly capital: number }[],
  currency: string,
): string[] {
  const { budget } = selection;
  const paying = machines.filter(({ worth }) => worth > 0);
  const out: string[] = [];
  if (budget !== null && selection.stations.length === 0 && paying.length > 0) {
    const first = paying.reduce((least, machine) =>
      machine.capital < least.capital || (machine.capital === least.capital && machine.worth > least.worth)
        ? machine
        : least,
    );
    out.push(
      `The budget of ${amountText(budget, currency)} buys no box that pays. The first that does is on ${first.station} and takes ${amountText(first.capital, currency)} with its installation.`,
    );
  }
  if (!selection.proven)
    out.push(
      `The selection is the best found; none can be worth more than ${selection.bound.toFixed(2)} (found ${selection.npv.toFixed(2)}).`,
    );
  return out;
}

export function caseAssumptions(
  cell: Cell,
  inputs: CaseInputs,
  facts: StandingFacts | null,
  changeoversAsked: number | null,
): string[] {
  return [
    'Purchases fall in year 0, all other amounts at year ends, salvage in the last year.',
    changeoversAsked === null
      ? 'Changeovers per year are those of changeovers.csv, the same every year.'
      : `${changeoversAsked} changeovers over the horizon, spread evenly over the years, in the proportions of changeovers.csv.`,
    'Set-up minutes common to both options are left out: they cost the same either way.',
    'The harness comes to a machine only from another place: it is moved to it as often as the machine is changed over, but no more often than it went to all other places; where it never leaves, it is not moved.',
    'A connector set is replaced in the year in which the running count of changeovers passes a multiple of its rated matings, one mating a move; the first set comes with the harness.',
    ...standingAssumptions(cell, inputs, facts),
    num(inputs, 'inflation_pct') === 0
      ? 'Prices stay as they are.'
      : `All amounts after year 0 rise by ${num(inputs, 'inflation_pct')}% a year.`,
    discountWords(inputs),
    ...taxAssumptions(inputs),
    'The figures of a machine by itself hold for equipping that machine alone, the harness serving the others.',
    ...leftOut(inputs),
    'Boxes sold, spares bought for a better price, and changes after the horizon have no value beyond the resale value of a box.',
  ];
}

/** What an hour of a standing machine costs, and why. */
function standingAssumptions(cell: Cell, inputs: CaseInputs, facts: StandingFacts | null): string[] {
  const source = inputs.stations[0]?.standing.source ?? 'nothing';
  if (source === 'typed')
    return [
      `An hour of downtime costs ${num(inputs, 'contribution_per_machine_h')}, as typed in costs.csv, at every machine, for the internal share of its minutes.`,
    ];
  if (source === 'nothing') {
    const why =
      costWord(cell.costs, 'machine_constrained') === 'no'
        ? ' (costs.csv says that no machine holds up output)'
        : costWord(cell.costs, 'order_book_full') === 'no'
          ? ' (costs.csv says that more parts would not be sold)'
          : '';
    return [`Downtime loses no contribution${why}, so a changeover costs labour only.`];
  }
  return [
    ...(facts?.because ?? []),
    'Only the internal share of the minutes of a changeover counts as downtime.',
  ];
}

const EASILY_LEFT_OUT = [
  'box_fit_stand_h',
  'engineering_price',
  'programming_h',
  'commissioning_h',
  'risk_assessment_price',
  'contingency_pct',
] as const;

/** Costs of boxes that count as 0, named one by one so that nobody takes them for included. */
export function countedAsZero(inputs: CaseInputs): string[] {
  return EASILY_LEFT_OUT.filter((item) => num(inputs, item) === 0);
}

function leftOut(inputs: CaseInputs): string[] {
  const zero = countedAsZero(inputs);
  if (zero.length === 0) return [];
  return [`Counted as 0, since costs.csv gives nothing else: ${zero.map(itemLabel).join(', ')}.`];
}

function taxAssumptions(inputs: CaseInputs): string[] {
  const tax = num(inputs, 'tax_pct');
  if (tax === 0) return [];
  return [
    inputs.depreciation === 'none'
      ? `Tax of ${tax}% on yearly amounts; with depreciation none, purchases and salvage do not touch the tax.`
      : `Tax of ${tax}% with ${inputs.depreciation} depreciation${inputs.depreciation === 'straight-line' ? ` over ${num(inputs, 'depreciation_years')} years` : ''}; what is not written off by the last year is set against the salvage in that year. There is enough profit elsewhere to use every relief.`,
  ];
}
