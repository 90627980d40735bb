/** Cash flow by year of each option against moving the harness, with its measures, all as formulas. */
import type { AlternativeResult, CostCaseFound, IncrementResult } from '../../core/cost/result.js';
import { HARNESS } from '../../core/model/plan-words.js';
import type { CellContent } from '../../workbook/workbook.js';
import { MEASURES } from '../cost-document/measures.js';
import { type BookCells, heading, live, title } from './book-cells.js';

export const FLOWS = 'flows';

/** Where the measures of one option stand. */
export interface FlowMeasures {
  readonly name: string;
  readonly basis: 'before tax' | 'after tax';
  /** Cells, seen from any sheet. */
  readonly npv: string;
  readonly irr: string;
  readonly payback: string;
  readonly discountedPayback: string;
  /** Running sum by year, and the years, for a chart. */
  readonly years: string;
  readonly running: string;
}

export interface FlowSheet {
  readonly rows: readonly (readonly CellContent[])[];
  readonly measures: readonly FlowMeasures[];
}

const COLUMNS = [
  'year',
  'discount factor',
  'option',
  HARNESS,
  'difference',
  'running total',
  'present value',
  'running present value',
  'payback in this year',
  'discounted payback in this year',
];

export function flowSheet(result: CostCaseFound, cells: BookCells): FlowSheet {
  const [harness, ...options] = result.alternatives as [AlternativeResult, ...AlternativeResult[]];
  const rows: CellContent[][] = [];
  const measures: FlowMeasures[] = [];
  for (const basis of result.basis === 'after tax'
    ? (['before tax', 'after tax'] as const)
    : (['before tax'] as const))
    for (const option of options) measures.push(block(rows, result, cells, { harness, option, basis }));
  return { rows, measures };
}

interface Compared {
  readonly harness: AlternativeResult;
  readonly option: AlternativeResult;
  readonly basis: 'before tax' | 'after tax';
}

function block(
  rows: CellContent[][],
  result: CostCaseFound,
  { cellOf }: BookCells,
  { harness, option, basis }: Compared,
): FlowMeasures {
  const taxed = basis === 'after tax';
  const of: IncrementResult = (taxed ? option.incrementAfterTax : option.increment)!;
  const own = (taxed ? option.afterTax! : option).cashFlow;
  const base = (taxed ? harness.afterTax! : harness).cashFlow;
  rows.push([title(`${option.name} less moving the harness, ${basis}`)], COLUMNS.map(heading));
  const tax = taxed ? ' after tax' : '';
  const rate = rateCell(cellOf, basis);
  const first = rows.length + 1;
  const last = first + own.length - 1;
  const figure = (name: string, year: number) => cellOf(`${name}: cash flow${tax} of year ${year}`)!;
  let [sum, worth, factor] = [0, 0, 1];
  own.forEach((flow, year) => {
    const r = first + year;
    const difference = flow - base[year]!;
    const before = { sum, worth };
    // Year by year: the language leaves the last digit of a power to each engine.
    if (year > 0) factor /= 1 + ratePct(result, basis) / 100;
    sum += difference;
    worth = of.runningPresentValue[year]!;
    const reached = (now: number, then: number) => year > 0 && now >= 0 && then < 0;
    rows.push([
      year,
      live(year === 0 ? '1' : `B${r - 1}/(1+${rate}/100)`, factor, 6),
      live(figure(option.name, year), flow),
      live(figure(harness.name, year), base[year]!),
      live(`C${r}-D${r}`, difference),
      live(year === 0 ? `E${r}` : `F${r - 1}+E${r}`, sum),
      live(`E${r}*B${r}`, worth - before.worth),
      live(year === 0 ? `G${r}` : `H${r - 1}+G${r}`, worth),
      paidBack('F', 'E', r, year, reached(sum, before.sum) ? year - 1 - before.sum / difference : ''),
      paidBack(
        'H',
        'G',
        r,
        year,
        reached(worth, before.worth) ? year - 1 - before.worth / (worth - before.worth) : '',
      ),
    ]);
  });
  const range = (column: string) => `${column}${first}:${column}${last}`;
  const paid = (column: string, at0: string, value: number | null) =>
    live(
      `IF(${at0}${first}>=0,0,IF(COUNT(${range(column)})=0,"never",MIN(${range(column)})))`,
      value ?? 'never',
      2,
    );
  const at = (offset: number) => `${FLOWS}!$B$${last + 1 + offset}`;
  const [finance, reinvest] = ['finance_pct', 'reinvest_pct'].map((item) => cellOf(item) ?? rate);
  const mirr = `MIRR(${range('E')},${finance}/100,${reinvest}/100)*100`;
  rows.push(
    [{ value: MEASURES.npv, look: 'result' }, live(`SUM(${range('G')})`, of.npv)],
    [
      `${MEASURES.irr}, %`,
      live(
        of.irrAll.length === 1 ? `IRR(${range('E')},${guess(of.irrPct!)})*100` : '"none, or several"',
        of.irrPct ?? 'none, or several',
      ),
    ],
    [`${MEASURES.mirr}, %`, of.mirrPct === null ? 'none' : live(mirr, of.mirrPct)],
    [`${MEASURES.payback}, years`, paid('I', 'F', of.paybackYears)],
    [`${MEASURES.discountedPayback}, years`, paid('J', 'H', of.discountedPaybackYears)],
    [
      MEASURES.benefitCost,
      of.benefitCost === null
        ? 'nothing spent'
        : live(`(SUM(${range('G')})-E${first})/-E${first}`, of.benefitCost),
    ],
    [
      MEASURES.annualEquivalent,
      live(`-PMT(${rate}/100,${last - first},SUM(${range('G')}))`, of.annualEquivalent),
    ],
    [],
  );
  return {
    name: option.name,
    basis,
    npv: at(0),
    irr: at(1),
    payback: at(3),
    discountedPayback: at(4),
    years: `${FLOWS}!$A$${first}:$A$${last}`,
    running: `${FLOWS}!$F$${first}:$F$${last}`,
  };
}

/** Start of the search of a spreadsheet for the rate. */
const guess = (irrPct: number): number => Number((irrPct / 100).toFixed(1));

function paidBack(sum: string, flow: string, r: number, year: number, value: number | string): CellContent {
  if (year === 0) return null;
  return live(`IF(AND(${sum}${r - 1}<0,${sum}${r}>=0),A${r - 1}-${sum}${r - 1}/${flow}${r},"")`, value);
}

/** The discount rate in per cent on a basis. */
export function rateCell(cellOf: BookCells['cellOf'], basis: 'before tax' | 'after tax'): string {
  return cellOf(`discount rate ${basis}, % a year`) ?? cellOf('discount_pct')!;
}

export function ratePct({ audit, discountPct }: CostCaseFound, basis: 'before tax' | 'after tax'): number {
  return audit.find(({ result }) => result === `discount rate ${basis}, % a year`)?.value ?? discountPct;
}
