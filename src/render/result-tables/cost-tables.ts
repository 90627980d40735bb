/** The cost case as tables: the options, a box on each machine alone, the cash flow by year. */
import type { AlternativeResult, CostCaseFound, StationResult } from '../../core/cost/result.js';
import { type Column, figures, fileTable, readTable, words } from '../columns.js';
import { type CaseView, plainView, wayInWords, yearlyText } from '../cost-document/case-view.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

export const COST_TABLES = ['cost-options.csv', 'cost-machines.csv', 'cash-flow.csv'] as const;

type Basis = CostCaseFound['basis'];

export function costTables(found: CostCaseFound): ResultTable[] {
  const view = plainView(found);
  const flows = fileFlows(view);
  return [
    ...fileTable('cost-options.csv', optionColumns(view), found.alternatives),
    ...fileTable('cost-machines.csv', machineColumns(view), found.byStation),
    ...fileTable(
      'cash-flow.csv',
      [YEAR, ...flows],
      yearsOf(view),
      drawn(
        'column',
        'Cash flow by year',
        YEAR.name,
        flows.map(({ name }) => name),
      ),
    ),
  ];
}

export function optionTable(view: CaseView): TableData {
  return readTable(optionColumns(view), view.result.alternatives);
}

export function machineTable(view: CaseView): TableData {
  return readTable(machineColumns(view), view.result.byStation);
}

/** The harness and the watched option, what one has over the other, that added up, and with interest; money out is negative. */
export function flowTable(view: CaseView, basis: Basis): TableData {
  const { harness, watched } = view;
  const { cashFlow: difference, runningPresentValue } =
    basis === 'after tax' ? watched.incrementAfterTax! : watched.increment!;
  const running = difference.map((_, year) =>
    difference.slice(0, year + 1).reduce((sum, flow) => sum + flow, 0),
  );
  return readTable(
    [
      YEAR,
      ...[harness, watched].map((option) => flowColumn(view, option.name, flowOf(option, basis))),
      flowColumn(view, 'difference', difference),
      flowColumn(view, 'running total', running),
      flowColumn(view, 'running present value', runningPresentValue),
    ],
    yearsOf(view),
  );
}

/** The workbook with live formulas takes headings and values from here too. */
export function optionColumns(view: CaseView): Column<AlternativeResult>[] {
  const { numbers } = view;
  const money = (name: string, heading: string, of: (a: AlternativeResult) => number) =>
    figures<AlternativeResult>(name, heading, 2, of, { isMoney: true, text: (a) => numbers.amount(of(a)) });
  return [
    words('option', 'option', (a) => a.name, {
      text: (a) => (a.name === wayInWords(view, a) ? a.name : `${a.name}: ${a.stations.join(', ')}`),
    }),
    words('machines', undefined, (a) => a.stations.join(', ')),
    figures('boxes', 'boxes', 0, (a) => a.boxes, { text: (a) => numbers.number(a.boxes) }),
    money('initial_cost', 'initial cost', (a) => a.capital),
    money('running_cost_per_year', 'running cost a year', (a) => a.annualCost),
    money('present_value_of_costs', 'present value of costs', (a) => a.npvCost),
    money('equivalent_annual_cost', 'equivalent annual cost', (a) => a.annualEquivalent),
    words('in_budget', 'in budget', (a) => a.withinBudget),
  ];
}

/** Of a box on that machine alone, the harness serving the others. */
function machineColumns(view: CaseView): Column<StationResult>[] {
  const { numbers, result } = view;
  const even = result.breakEvenChangeovers.byStation;
  const whole = (
    name: string,
    heading: string,
    of: (s: StationResult) => number | null,
    isMoney = false,
  ): Column<StationResult> =>
    figures(name, heading, isMoney ? 2 : 0, of, { isMoney, text: (s) => numbers.number(of(s)!) });
  return [
    words('machine', 'machine', (s) => s.station),
    figures('changeovers_per_year', 'changeovers a year', 1, (s) => s.changeoversPerYear, {
      text: (s) => numbers.typed(Number(s.changeoversPerYear.toPrecision(4))),
    }),
    whole('boxes', 'boxes', (s) => s.boxes),
    whole('saved_min_per_year', 'minutes saved a year', (s) => s.savedMinPerYear),
    whole('saving_per_year', 'saving a year', (s) => s.savingPerYear, true),
    whole('initial_cost', 'initial cost', (s) => s.capital, true),
    whole('present_value', 'present value', (s) => s.npv, true),
    whole('present_value_after_tax', 'after tax', (s) => s.npvAfterTax, true),
    figures(
      'break_even_per_year',
      'break-even changeovers a year',
      1,
      (s) => {
        const count = even[s.station];
        return count == null ? null : count / result.horizonYears;
      },
      {
        isShown: () => true,
        none: yearlyText(view, null),
        text: (s) => yearlyText(view, even[s.station]!),
      },
    ),
  ];
}

const YEAR = figures<number>('year', 'year', 0, (year) => year);

function yearsOf({ result }: CaseView): number[] {
  return Array.from({ length: result.horizonYears + 1 }, (_, year) => year);
}

function flowOf(option: AlternativeResult, basis: Basis): readonly number[] {
  return basis === 'after tax' ? option.afterTax!.cashFlow : option.cashFlow;
}

function flowColumn({ numbers }: CaseView, name: string, flow: readonly number[]): Column<number> {
  return figures(name, name, 2, (year) => flow[year]!, {
    isMoney: true,
    text: (year) => numbers.number(flow[year]!),
  });
}

/** Every option, and every option less the harness, before tax. */
function fileFlows(view: CaseView): Column<number>[] {
  const { alternatives } = view.result;
  return [
    ...alternatives.map((a) => flowColumn(view, a.name, a.cashFlow)),
    ...alternatives.flatMap((a) =>
      a.increment ? [flowColumn(view, `${a.name} less the harness`, a.increment.cashFlow)] : [],
    ),
  ];
}
