/** The cost case as text: the recommendation, both ways side by side, by machine, by doubt. */

import type { ChoiceStep, ItemTurns } from '../core/cost/doubt/choice-turns.js';
import type { CostCaseFound, CostCaseTooLittle, IncrementResult } from '../core/cost/result.js';
import { chanceText } from '../core/model/chance-text.js';
import { costItemFormat, itemLabel } from '../core/model/cost-items.js';
import { planInWords } from '../core/model/plan-words.js';
import { caseWays, subject } from './cost-document/case-view.js';
import { PRICED_BY } from './cost-document/results.js';
import { moneyText, numberText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import { sectionsIn } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { right, textTable } from './text-table.js';

const TORNADO_SHOWN = 8;

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

export function renderCostCase(result: CostCaseFound, style: TextStyle): string {
  const section = sectionsIn(style);
  const whole = (title: string, body: (of: CostCaseFound, style: TextStyle) => string): string[] =>
    style.full ? [section(title, body(result, style))] : [];
  const unit = result.currency === '' ? '' : ` (${result.currency})`;
  return [
    `${costCaseAnswer(result, style)}\n`,
    section(`Options compared${unit}, costs before tax`, alternativesTable(result, style)),
    ...whole(`${subject(caseWays(result))} less moving the harness${unit}`, incrementTable),
    ...whole(`Cash flow by year${unit}, ${result.basis}`, flowTable),
    section(`Machine by machine${unit}`, stationTable(result, style)),
    ...whole(`What an hour of downtime costs${unit}`, standingTable),
    ...whole('Minutes of one changeover', minutesTable),
    ...whole('Machines to equip under the budget', selectionText),
    ...whole('Where another option becomes best', turnsTable),
    ...whole('Sensitivity and risk', doubtText),
  ].join('\n');
}

/** The answer in plain sentences. */
export function costCaseAnswer(result: CostCaseFound, style: TextStyle): string {
  if (result.plannedChangeovers === 0) return paragraph(result.recommendation, style.columns);
  return [result.recommendation, evenText(result), benefitText(result)]
    .map((text) => paragraph(text, style.columns))
    .join('\n');
}

/** Break-even of the recommended boxes, of boxes everywhere where that is the harness; each basis by its name. */
function evenText(result: CostCaseFound): string {
  const { total, totalAfterTax } = result.breakEvenChangeovers.ofChoice ?? result.breakEvenChangeovers;
  const what =
    result.breakEvenChangeovers.ofChoice === null ? 'boxes on every machine' : 'the recommended boxes';
  const count = (value: number | null) =>
    value === null ? 'at no number of changeovers' : `at ${numberText(Math.ceil(value - 1e-9))}`;
  const after = result.basis === 'after tax' ? `, ${count(totalAfterTax)} after tax` : '';
  return `Break-even of ${what}, changeovers over ${result.horizonYears} years: ${count(total)} before tax${after}; ${numberText(result.plannedChangeovers)} are planned.`;
}

/** What the gain is made of, and what of it is cash. */
function benefitText({ benefit, currency }: CostCaseFound): string {
  const money = (amount: number) => moneyText(Math.round(amount), currency);
  const { labourPerYear, contributionPerYear, labourCashPct, npvInCash } = benefit;
  const cash =
    labourCashPct < 100
      ? ` ${numberText(labourCashPct)}% of the labour turns into cash, the rest frees time; in cash alone the present value is ${money(npvInCash)}.`
      : ' All of the labour is taken as cash (labour_cash_pct); where it only frees time, give that share.';
  return `The gain of a year: ${money(labourPerYear)} of labour and ${money(contributionPerYear)} of contribution.${cash}`;
}

function alternativesTable(result: CostCaseFound, style: TextStyle): string {
  return textTable(
    [
      { heading: 'option' },
      right('boxes'),
      right('initial\ncost'),
      right('running\na year'),
      right('present\nvalue of\ncosts'),
      right('equiv.\nannual\ncost'),
      { heading: 'in\nbudget' },
    ],
    result.alternatives.map((a) => [
      a.name,
      numberText(a.boxes),
      moneyText(a.capital),
      moneyText(a.annualCost),
      moneyText(a.npvCost),
      moneyText(a.annualEquivalent),
      a.withinBudget ? 'yes' : 'no',
    ]),
    style,
  );
}

function incrementTable(result: CostCaseFound, style: TextStyle): string {
  const { increment, incrementAfterTax: taxed } = caseWays(result).watched;
  const row = (what: string, of: (i: IncrementResult) => string): string[] => [
    what,
    of(increment!),
    ...(taxed ? [of(taxed)] : []),
  ];
  const years = (value: number | null) => (value === null ? 'never' : `${numberText(value, 1)} years`);
  const rate = (value: number | null) => (value === null ? '-' : `${numberText(value, 1)}%`);
  return textTable(
    [{ heading: 'measure' }, right(taxed ? 'before tax' : 'value'), ...(taxed ? [right('after tax')] : [])],
    [
      row(`net present value at ${result.discountPct}% a year`, (i) => moneyText(i.npv)),
      row('internal rate of return', (i) =>
        i.irrAll.length > 1 ? i.irrAll.map((r) => rate(r)).join(', ') : rate(i.irrPct),
      ),
      row('modified rate of return', (i) => rate(i.mirrPct)),
      row('payback', (i) => years(i.paybackYears)),
      row('discounted payback', (i) => years(i.discountedPaybackYears)),
      row('benefit-cost ratio', (i) => (i.benefitCost === null ? '-' : numberText(i.benefitCost, 2))),
      row('equivalent annual value', (i) => moneyText(i.annualEquivalent)),
    ],
    style,
  );
}

const ROUNDED = 'Rounded to whole money after adding up.';

function flowTable(result: CostCaseFound, style: TextStyle): string {
  const { harness, watched } = caseWays(result);
  const taxed = result.basis === 'after tax';
  const { cashFlow } = taxed ? watched.incrementAfterTax! : watched.increment!;
  const ways = [harness, watched];
  const flows = [...ways.map((a) => (taxed ? a.afterTax!.cashFlow : a.cashFlow)), cashFlow];
  const table = textTable(
    [right('year'), ...ways.map((a) => right(a.name)), right('difference'), right('running total')],
    cashFlow.map((_, year) => [
      `${year}`,
      ...flows.map((flow) => moneyText(Math.round(flow[year]!))),
      moneyText(Math.round(cashFlow.slice(0, year + 1).reduce((a, b) => a + b, 0))),
    ]),
    style,
  );
  return `${table}\n${paragraph(ROUNDED, style.columns)}`;
}

function stationTable(result: CostCaseFound, style: TextStyle): string {
  const even = result.breakEvenChangeovers.byStation;
  return textTable(
    [
      { heading: 'machine' },
      right('change-\novers\na year'),
      right('boxes'),
      right('harness\nmin'),
      right('box\nmin'),
      right('saved\nmin a\nyear'),
      right('saving\na year'),
      right('spent'),
      right('present\nvalue'),
      right('break\neven\na year'),
    ],
    result.byStation.map((s) => [
      s.station,
      numberText(s.changeoversPerYear, Number.isInteger(s.changeoversPerYear) ? 0 : 1),
      numberText(s.boxes),
      numberText(s.harnessMin, 1),
      numberText(s.boxMin, 1),
      numberText(s.savedMinPerYear),
      moneyText(Math.round(s.savingPerYear)),
      moneyText(Math.round(s.capital)),
      moneyText(Math.round(s.npv)),
      evenPerYear(even[s.station] ?? null, result.horizonYears),
    ]),
    style,
  );
}

/** Changeovers a year: the unit of the count that they are held against. */
function evenPerYear(count: number | null, years: number): string {
  return count === null ? 'never' : numberText(count / years, 1);
}

/** The minutes of the first machine, line by line; the others differ in their number of signals. */
function minutesTable(result: CostCaseFound, style: TextStyle): string {
  const station = result.byStation[0];
  if (!station) return 'No machine changes over.';
  const lines = (way: string, list: typeof station.harnessLines) =>
    list.filter((line) => line.minutes !== 0).map((line) => [way, line.what, numberText(line.minutes, 1)]);
  const table = textTable(
    [{ heading: 'option' }, { heading: `at ${station.station}` }, right('min')],
    [...lines('harness', station.harnessLines), ...lines('box', station.boxLines)],
    style,
  );
  const common = `Set-up minutes common to both options, ${numberText(station.otherMin, 1)} min, are in neither. One minute costs ${moneyText(station.labourPerMin, result.currency)} of labour and ${moneyText(station.contributionPerMin, result.currency)} of lost contribution there.`;
  return `${table}\n${paragraph(common, style.columns)}`;
}

function standingTable({ standing, currency }: CostCaseFound, style: TextStyle): string {
  const money = (amount: number | null) => (amount === null ? '-' : numberText(amount, 2));
  const table = textTable(
    [{ heading: 'machine' }, right('steady\ncell'), right('floor'), right('counts')],
    standing.byStation.map((s) => [s.station, money(s.steadyPerH), money(s.floorPerH), money(s.countedPerH)]),
    style,
  );
  const { setOnFloor: set, pattern } = standing;
  const on = pattern === null ? '' : ` Pattern of the floor: ${pattern}.`;
  const amount = (value: number) => moneyText(Math.round(value), currency);
  const again =
    set === null
      ? ''
      : ` The recommended boxes run on the floor as a set save ${amount(set.floorPerYear)} of contribution a year, machine by machine ${amount(set.countedPerYear)}: a present value of ${amount(set.npvFloor)} against ${amount(set.npvCounted)}.`;
  return `${table}\n${paragraph(`${PRICED_BY[standing.source]}${on}${again}`, style.columns)}`;
}

function selectionText({ selection, currency }: CostCaseFound, style: TextStyle): string {
  const budget =
    selection.budget === null
      ? 'No budget is set.'
      : `The budget is ${moneyText(selection.budget, currency)}.`;
  const chosen =
    selection.stations.length === 0
      ? 'No choice of machines is worth more than moving the harness everywhere.'
      : `Boxes on ${selection.stations.join(', ')} are worth most: ${moneyText(selection.npv, currency)} of present value for ${moneyText(selection.capital, currency)} spent.`;
  const sure = selection.proven
    ? 'No other choice is worth more.'
    : `The search stopped at its limit; no choice is worth more than ${moneyText(selection.bound, currency)}.`;
  return paragraph(`${budget} ${chosen} ${sure}`, style.columns);
}

const TURNS_SHOWN = 3;

/** One line a turn, for the inputs that need the least change. */
function turnsTable(result: CostCaseFound, style: TextStyle): string {
  if (result.turns.length === 0)
    return paragraph('No single input makes another option best within its range.', style.columns);
  const line = (turns: ItemTurns, step: ChoiceStep): string[] => [
    itemLabel(turns.item),
    numberText(turns.value, digitsOf(turns.value)),
    `${step.at < turns.value ? 'below' : 'above'} ${turnText(step.at)}`,
    planInWords(step),
    moneyText(Math.round(step.npv)),
  ];
  return textTable(
    [
      { heading: 'input alone' },
      right('planned'),
      right('at'),
      { heading: 'best option' },
      right('its present\nvalue there'),
    ],
    result.turns
      .slice(0, TURNS_SHOWN)
      .flatMap((turns) => [
        ...turns.below.map((step) => line(turns, step)),
        ...turns.above.map((step) => line(turns, step)),
      ]),
    style,
  );
}

const turnText = (value: number): string => {
  const short = Number(value.toPrecision(3));
  return numberText(short, digitsOf(short));
};

const digitsOf = (value: number): number =>
  Number.isInteger(value) ? 0 : (String(value).split('.')[1]?.length ?? 0);

function doubtText(result: CostCaseFound, style: TextStyle): string {
  const tornado = result.tornadoOfChoice ?? result.tornado;
  const risk = result.riskOfChoice ?? result.risk;
  if (tornado.length === 0)
    return paragraph(
      'No cost item has a low and a high, so nothing can be said. Fill in both columns for the items that you are least sure of.',
      style.columns,
    );
  const shown = tornado.slice(0, TORNADO_SHOWN);
  const table = textTable(
    [
      { heading: 'item alone at its low and high' },
      right('low'),
      right('high'),
      right('present value\nat low'),
      right('present value\nat high'),
    ],
    shown.map((bar) => [
      itemLabel(bar.item),
      unitText(bar.item, bar.low),
      unitText(bar.item, bar.high),
      moneyText(Math.round(bar.npvLow)),
      moneyText(Math.round(bar.npvHigh)),
    ]),
    style,
  );
  const money = (amount: number) => moneyText(Math.round(amount), result.currency);
  const text = `All items drawn at once between low and high, ${numberText(risk.trials)} times (seed ${risk.seed}): ${inSentence(subject(caseWays(result)))} pay in ${chanceText(risk.probabilityPays)} of the trials; present value: median ${money(risk.npv.p50)}, P10 to P90 ${money(risk.npv.p10)} to ${money(risk.npv.p90)}.`;
  const pairs = risk.correlations.map(({ a, b, rank }) => `${a} and ${b} (${rank})`);
  const together = pairs.length === 0 ? '' : ` Moving together by rank: ${pairs.join(', ')}.`;
  return `${table}\n${paragraph(`${text}${together}`, style.columns)}`;
}

const inSentence = (text: string) => `${text[0]!.toLowerCase()}${text.slice(1)}`;

function unitText(item: string, value: number): string {
  const whole = costItemFormat(item)?.whole ?? false;
  return whole || Number.isInteger(value) ? numberText(value) : String(value);
}
