/**
 * The cost case as a workbook with live formulas: a changed input moves cash flows, present values, rates, paybacks and
 * break-evens. What the program searched for (which machines, the price of a standing hour) stands as a value.
 */
import type { CostCaseFound } from '../../core/cost/result.js';
import { cautionsFor } from '../../core/model/cautions.js';
import { HARNESS, planInWords } from '../../core/model/plan-words.js';
import type { CellContent, Workbook, WorkbookSheet } from '../../workbook/workbook.js';
import { plainView } from '../cost-document/case-view.js';
import { MEASURES } from '../cost-document/measures.js';
import { optionColumns } from '../result-tables/cost-tables.js';
import {
  type BookCells,
  bookCells,
  comment,
  FIGURES,
  figureRows,
  heading,
  INPUTS,
  inputRows,
  live,
  title,
} from './book-cells.js';
import { BREAK_EVEN, type BreakEvenSheet, breakEvenSheet } from './break-even-sheet.js';
import { FLOWS, type FlowMeasures, type FlowSheet, flowSheet } from './flow-blocks.js';

export const COST_CASE_BOOK = 'cost-case.xlsx';

export function costCaseBook(result: CostCaseFound, cell: string): Workbook {
  const cells = bookCells(result);
  const flows = flowSheet(result, cells);
  const even = breakEvenSheet(result, cells, flows.measures);
  const sheets: WorkbookSheet[] = [
    summarySheet(result, cells, flows, even, cell),
    {
      name: INPUTS,
      frozenRows: 3,
      widths: [38, 14, 12, 12, 16, 24, 20, 28],
      rows: [
        [title('Inputs')],
        [comment('Change a yellow cell and everything moves. Grey figures come from the program.')],
        ['input', 'value', 'low', 'high', 'unit', 'source', 'file:line', 'item of costs.csv'].map(heading),
        ...inputRows(result, cells),
      ],
    },
    { name: FLOWS, widths: [30, 14, 18, 18, 14, 14, 14, 18, 14, 14], rows: flows.rows },
    ...(even.rows.length === 0
      ? []
      : [{ name: BREAK_EVEN, widths: [34, 16, 14, 14, 14, 14, 14, 18], rows: even.rows }]),
    {
      name: FIGURES,
      frozenRows: 3,
      widths: [60, 16, 22, 100],
      rows: [
        [title('Every figure with its formula')],
        [comment('The formula in words names inputs and other figures.')],
        ['figure', 'value', 'how', 'formula in words'].map(heading),
        ...figureRows(result, cells, (figure) => measureCell(figure, flows.measures, result)),
      ],
    },
  ];
  return { title: `Cost case: ${cell}`, sheets };
}

/** Measures that a search finds and a spreadsheet works out on the sheet of flows. */
function measureCell(
  figure: string,
  measures: readonly FlowMeasures[],
  result: CostCaseFound,
): string | null {
  for (const { name, basis, irr, payback, discountedPayback } of measures) {
    const tax = basis === 'after tax' ? ' after tax' : '';
    const option = result.alternatives.find((a) => a.name === name)!;
    const of = basis === 'after tax' ? option.incrementAfterTax! : option.increment!;
    if (figure === `${name}: internal rate of return, %${tax}`) return of.irrPct === null ? null : irr;
    if (figure === `${name}: payback, years${tax}`) return of.paybackYears === null ? null : payback;
    if (figure === `${name}: discounted payback, years${tax}`)
      return of.discountedPaybackYears === null ? null : discountedPayback;
  }
  return null;
}

/** The figure that a column of the options is worked out as, by the column's name in a file. */
const OPTION_FIGURES: Readonly<Record<string, string>> = {
  boxes: 'boxes',
  initial_cost: 'capital',
  running_cost_per_year: 'mean running cost of a year',
  present_value_of_costs: 'present value of the cost',
  equivalent_annual_cost: 'the same cost every year',
};

function summarySheet(
  result: CostCaseFound,
  { cellOf }: BookCells,
  { measures }: FlowSheet,
  { answers }: BreakEvenSheet,
  cell: string,
): WorkbookSheet {
  const money = result.currency === '' ? '' : `, ${result.currency}`;
  const view = plainView(result);
  const chosen = measures.filter(({ name }) => name === result.decision);
  const shown = chosen.length > 0 ? chosen : measures.slice(0, 1);
  return {
    name: 'summary',
    widths: [36, 40, 12, 16, 16, 18, 16],
    rows: [
      [title(`Cost case: ${cell}`)],
      [{ value: result.recommendation, look: 'wrapped' }],
      [
        comment(
          'All figures are formulas that go back to the sheet of inputs. Which machines get boxes, and what an hour of downtime loses, are as the program found them: change the tables and run it again for these.',
        ),
      ],
      [],
      optionColumns(view).flatMap(({ name, heading: text }) =>
        name === 'option'
          ? [heading(`${text}${money}`)]
          : OPTION_FIGURES[name] || name === 'machines'
            ? [heading(text ?? name)]
            : [],
      ),
      ...result.alternatives.map((a): CellContent[] =>
        optionColumns(view).flatMap(({ name, of, digits }): CellContent[] => {
          const what = OPTION_FIGURES[name];
          if (name === 'option') return [a.name];
          if (name === 'machines') return [a.name === HARNESS ? '' : planInWords(a)];
          return what === undefined ? [] : [live(cellOf(`${a.name}: ${what}`)!, Number(of(a)), digits)];
        }),
      ),
      [],
      [
        `option less moving the harness${money}`,
        'tax',
        MEASURES.npv,
        `${MEASURES.irr}, %`,
        `${MEASURES.payback}, years`,
        `${MEASURES.discountedPayback}, years`,
      ].map(heading),
      ...measures.map(({ name, basis, npv, irr, payback, discountedPayback }): CellContent[] => {
        const option = result.alternatives.find((a) => a.name === name)!;
        const of = (basis === 'after tax' ? option.incrementAfterTax : option.increment)!;
        return [
          name,
          basis,
          live(npv, of.npv),
          live(irr, of.irrPct ?? 'none, or several'),
          live(payback, of.paybackYears ?? 'never'),
          live(discountedPayback, of.discountedPaybackYears ?? 'never'),
        ];
      }),
      [],
      ['break-even, changeovers over the horizon', 'tax', 'changeovers'].map(heading),
      ...answers.map(({ name, basis, cell: at, value }): CellContent[] => [
        name,
        basis,
        live(at, value ?? 'never'),
      ]),
      ['planned', '', live(cellOf('planned changeovers over the horizon')!, result.plannedChangeovers)],
      [],
      [heading('cautions')],
      ...cautionsFor('costcase').map((caution): CellContent[] => [`${caution.text} (${caution.reference})`]),
    ],
    charts: shown.slice(-1).map(({ name, basis, years, running }) => ({
      kind: 'line' as const,
      title: `Running total of the cash flow: ${name} less moving the harness, ${basis}`,
      categories: years,
      series: [{ name, values: running }],
      row: 4,
      column: 8,
    })),
  };
}
