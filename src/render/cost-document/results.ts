/** The tables of results: the options, their measures, the cash flow by year, the machines, the selection. */
import type { AlternativeResult, IncrementResult, StationResult } from '../../core/cost/result.js';
import {
  type Block,
  beside,
  fold,
  left,
  note,
  right,
  said,
  section,
  type TableBlock,
  tableOf,
} from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { machineTable, optionTable } from '../result-tables/cost-tables.js';
import { type CaseView, discountText, inMoney, ratesText, wayInWords, yearsText } from './case-view.js';
import { cashFlowBlock, flowBlock } from './cash-flow-block.js';
import { MEASURES } from './measures.js';
import { placeText } from './place-text.js';

export function resultBlocks(view: CaseView): Block[] {
  return [
    section('Results'),
    optionsTable(view),
    beside([
      [measuresTable(view, 'before tax')],
      ...(view.result.basis === 'after tax' ? [[measuresTable(view, 'after tax')]] : []),
    ]),
    section('Cash flow by year'),
    ...flowBlocks(view),
    cashFlowBlock(view),
    section('Machine by machine'),
    ...machineBlocks(view),
    section('Machines to equip'),
    ...selectionBlocks(view),
  ];
}

export function optionsTable(view: CaseView): TableBlock {
  return tableBlock(`Options compared${inMoney(view)}, costs before tax`, optionTable(view));
}

export function measuresTable(view: CaseView, basis: 'before tax' | 'after tax'): TableBlock {
  const { result, numbers, harness } = view;
  const ways = result.alternatives.filter((a) => a !== harness);
  const of = (a: AlternativeResult) => (basis === 'after tax' ? a.incrementAfterTax! : a.increment!);
  const row = (what: string, text: (i: IncrementResult) => string) => [what, ...ways.map((a) => text(of(a)))];
  return tableOf(
    `Each option less moving the harness${inMoney(view)}, ${basis}`,
    [left('measure'), ...ways.map((a) => right(a.name))],
    [
      row(`${MEASURES.npv} at ${discountText(view, basis)}`, (i) => numbers.amount(i.npv)),
      row(MEASURES.irr, (i) => ratesText(view, i)),
      row(MEASURES.mirr, (i) => (i.mirrPct === null ? 'none' : numbers.percent(i.mirrPct))),
      row(MEASURES.payback, (i) => yearsText(view, i.paybackYears)),
      row(MEASURES.discountedPayback, (i) => yearsText(view, i.discountedPaybackYears)),
      row(MEASURES.benefitCost, (i) =>
        i.benefitCost === null ? 'nothing spent' : numbers.number(i.benefitCost, 2),
      ),
      row(MEASURES.annualEquivalent, (i) => numbers.amount(i.annualEquivalent)),
    ],
  );
}

function flowBlocks(view: CaseView): Block[] {
  const { result } = view;
  const tax = result.basis === 'after tax';
  return [
    flowBlock(view, 'before tax'),
    ...startNote(view),
    ...(tax
      ? [flowBlock(view, 'after tax')]
      : [note('No tax rate is given, so there is no cash flow after tax.')]),
  ];
}

/** Why more goes out in year 0 than is bought. */
function startNote({ watched, harness, numbers }: CaseView): Block[] {
  const spent = -watched.cashFlow[0]!;
  const stopped = spent - watched.capital;
  if (Math.abs(stopped) < 0.5) return [];
  const own = watched.name === harness.name ? '' : ` of ${watched.name}`;
  return [
    note(
      `Year 0${own}: ${numbers.money(watched.capital)} bought and fitted, ${numbers.money(stopped)} of contribution lost while machines are down for it.`,
    ),
  ];
}

/** What a box is worth on each machine alone. */
export function machineValueTable(view: CaseView): TableBlock {
  return tableBlock(
    `A box on this machine alone, the harness serving the others${inMoney(view)}`,
    machineTable(view),
  );
}

export function machineValueBlocks(view: CaseView): Block[] {
  const { atJump, byStation } = view.result.breakEvenChangeovers;
  const jumps = Object.keys(byStation).some((station) => atJump.includes(station))
    ? ' Where a connector set falls due the value jumps; the count of the jump is given.'
    : '';
  return [
    machineValueTable(view),
    ...elsewhereNote(view),
    note(
      `Break-even changeovers a year: of that machine, the others as planned, from which its box alone is worth more than the harness before tax; compare it with changeovers a year.${jumps}${togetherText(view)} Saving a year: minutes saved at what they cost, labour and contribution; upkeep and worn connectors are in the present value only.`,
    ),
  ];
}

/** Why the best set is not that of the boxes which pay alone, where it is not. */
function togetherText({ result }: CaseView): string {
  const { stations } = result.selection;
  const isUnlike = result.byStation.some(
    (s) => stations.includes(s.station) !== (s.npvAfterTax ?? s.npv) > 0,
  );
  if (stations.length === 0 || !isUnlike) return '';
  return ' Boxes together are not worth the sum of boxes alone: the more machines have one, the fewer places the harness moves between, so the best set may leave out a machine whose box pays alone and hold one whose box does not.';
}

/** A box can save moves at other machines too: said where it does, since their minutes are not this machine's own. */
export function elsewhereNote({ result, numbers }: CaseView): Block[] {
  const machines = result.byStation.filter((s) => s.savedElsewhereMinPerYear > 0);
  if (machines.length === 0) return [];
  const each = machines.map(
    (s) =>
      `${s.station} ${numbers.number(s.savedElsewhereMinPerYear)} of ${numbers.number(s.savedMinPerYear)}`,
  );
  return [
    note(
      `A box here also saves moves at another machine, where the harness can then stay. Minutes a year saved there: ${each.join('; ')}.`,
    ),
  ];
}

function machineBlocks(view: CaseView): Block[] {
  return [
    ...machineValueBlocks(view),
    ...standingBlocks(view),
    fold('Minutes of a changeover and what one of them costs, machine by machine', [
      minutesTable(
        view,
        'Minutes of moving the harness',
        (s) => s.harnessLines,
        (s) => s.harnessMin,
      ),
      minutesTable(
        view,
        'Minutes with a box',
        (s) => s.boxLines,
        (s) => s.boxMin,
      ),
      minuteCostTable(view),
    ]),
  ];
}

/** What prices a standing hour, in words. */
const PRICED_BY = {
  typed: 'The figure typed in costs.csv counts.',
  floor: 'The floor counts: its week with the moves of the harness and without them.',
  steady: 'The steady cell counts, since there are no shifts to run on the floor.',
  nothing: 'Nothing counts: no downtime loses a part that would be sold.',
} as const;

/** What an hour of each machine is worth by either model, and the chosen set run on the floor once more. */
function standingBlocks(view: CaseView): Block[] {
  const { result, numbers } = view;
  const { standing } = result;
  const money = (amount: number | null) => (amount === null ? 'not known' : numbers.number(amount, 2));
  const { setOnFloor: set, pattern } = standing;
  const on = pattern === null ? '' : ` The floor was run in the pattern ${pattern}.`;
  const again =
    set === null
      ? ''
      : ` Run on the floor as a set, the recommended boxes save ${numbers.money(set.floorPerYear)} of contribution a year against ${numbers.money(set.countedPerYear)} machine by machine; their present value is then ${numbers.money(set.npvFloor)} against ${numbers.money(set.npvCounted)}.`;
  return [
    tableOf(
      `Contribution lost by one hour of downtime${inMoney(view)}`,
      [left('machine'), right('by the steady cell'), right('by the floor'), right('counts')],
      standing.byStation.map((s) => [
        s.station,
        money(s.steadyPerH),
        money(s.floorPerH),
        money(s.countedPerH),
      ]),
    ),
    ...partTable(view),
    note(`${PRICED_BY[standing.source]}${on}${again}`),
  ];
}

/** What the contribution lost is made of: the parts that a week does not make for the moves of the harness. */
function partTable(view: CaseView): Block[] {
  const { result, numbers } = view;
  const { parts } = result.standing;
  if (parts.length === 0) return [];
  const all = parts.reduce((sum, { lostPerYear }) => sum + lostPerYear, 0);
  return [
    tableOf(
      `Parts a week, and the contribution lost in a year to moves of the harness${inMoney(view)}`,
      [
        left('part'),
        right('contribution each'),
        right('asked for'),
        right('made, no moves'),
        right('made, all moves'),
        right('lost a year'),
        left('file:line'),
      ],
      [
        ...parts.map((row) => [
          row.part,
          numbers.number(row.contributionEach, 2),
          row.askedPerWeek === null ? 'all' : numbers.number(row.askedPerWeek, 1),
          numbers.number(row.madeFreePerWeek, 2),
          numbers.number(row.madeMovedPerWeek, 2),
          numbers.number(row.lostPerYear),
          placeText(row.place),
        ]),
        ['total', '', '', '', '', numbers.number(all), ''],
      ],
    ),
  ];
}

function minutesTable(
  { result, numbers }: CaseView,
  caption: string,
  lines: (s: StationResult) => StationResult['harnessLines'],
  total: (s: StationResult) => number,
): TableBlock {
  const first = result.byStation[0];
  const columns = first ? lines(first).map((line) => right(line.what)) : [];
  return tableOf(
    caption,
    [left('machine'), ...columns, right('total')],
    result.byStation.map((s) => [
      s.station,
      ...lines(s).map((line) => numbers.number(line.minutes, 1)),
      numbers.number(total(s), 1),
    ]),
  );
}

function minuteCostTable(view: CaseView): TableBlock {
  const { result, numbers } = view;
  return tableOf(
    `Cost of one changeover minute${inMoney(view)}`,
    [left('machine'), right('labour'), right('lost contribution'), right('total')],
    result.byStation.map((s) => [
      s.station,
      numbers.number(s.labourPerMin, 2),
      numbers.number(s.contributionPerMin, 2),
      numbers.number(s.labourPerMin + s.contributionPerMin, 2),
    ]),
  );
}

export function selectionBlocks(view: CaseView): Block[] {
  const { result, numbers } = view;
  const { selection, comparison } = result;
  const budget =
    selection.budget === null ? 'No budget is set.' : `The budget is ${numbers.money(selection.budget)}.`;
  const chosen =
    selection.stations.length === 0
      ? 'No set of machines that keeps it is worth more than moving the harness everywhere.'
      : `The set of machines that is worth most: ${selection.stations.join(', ')}, with ${numbers.money(selection.npv)} of present value for ${numbers.money(selection.capital)} spent.`;
  const sure = selection.proven
    ? 'Proven optimal: no other set is worth more.'
    : `This is the best found; none can be worth more than ${numbers.money(selection.bound)}.`;
  const blocks: Block[] = [said(`${budget} ${chosen} ${sure}`)];
  if (comparison.challenges.length > 0)
    blocks.push(
      tableOf(
        `Challenger against defender, by rising first cost, among the options within the budget${inMoney(view)}`,
        [
          left('challenger'),
          left('defender'),
          right('present value of the step'),
          right('rates of return'),
          left('winner'),
        ],
        comparison.challenges.map((c) => [
          c.challenger,
          c.defender,
          numbers.number(c.npv),
          c.irrAll.length === 0 ? 'none' : c.irrAll.map((rate) => numbers.percent(rate)).join(', '),
          c.winner,
        ]),
      ),
    );
  return [...blocks, note(`Recommended: ${wayInWords(view, view.choice)}.`)];
}
