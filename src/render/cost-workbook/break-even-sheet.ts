/**
 * The number of changeovers at which an option is worth what the harness is, by halving: each row works out the value at
 * the middle of what is left, so that a changed input moves the answer at once. All counts are taken at one share of the
 * plan; what does not hang on them is the option's present value as it stands on the sheet of flows.
 */
import type { AlternativeResult, CostCaseFound } from '../../core/cost/result.js';
import { BOX_SHARED, connectionOfPlan, HARNESS } from '../../core/model/plan-words.js';
import { type CellContent, columnLetters } from '../../workbook/workbook.js';
import { type BookCells, comment, heading, live, title } from './book-cells.js';
import { type FlowMeasures, rateCell } from './flow-blocks.js';
import { roundedUp } from './sheet-formula.js';

export const BREAK_EVEN = 'breakeven';

/** Halvings of a range of so many times the plan: to less than a thousandth of a changeover. */
const HALVINGS = 46;
const MOST_TIMES_PLAN = 64;

export interface BreakEvenCell {
  readonly name: string;
  readonly basis: 'before tax' | 'after tax';
  readonly cell: string;
  readonly value: number | null;
}

export interface BreakEvenSheet {
  readonly rows: readonly (readonly CellContent[])[];
  readonly answers: readonly BreakEvenCell[];
}

export function breakEvenSheet(
  result: CostCaseFound,
  cells: BookCells,
  measures: readonly FlowMeasures[],
): BreakEvenSheet {
  const even = result.breakEvenChangeovers;
  const rows: CellContent[][] = [];
  const answers: BreakEvenCell[] = [];
  for (const option of result.alternatives.filter((a) => a.name !== HARNESS && a.name !== BOX_SHARED))
    for (const { npv, basis } of measures.filter(({ name }) => name === option.name)) {
      const of =
        even.ofChoice?.name === option.name ? even.ofChoice : option === result.alternatives[1] ? even : null;
      if (of === null || result.plannedChangeovers === 0) continue;
      const value = basis === 'after tax' ? of.totalAfterTax : of.total;
      const cell = block(rows, result, cells, { option, basis, npv, value });
      answers.push({ name: option.name, basis, cell, value });
    }
  return { rows, answers };
}

interface Asked {
  readonly option: AlternativeResult;
  readonly basis: 'before tax' | 'after tax';
  readonly npv: string;
  readonly value: number | null;
}

/** Columns before those of the years. */
const FIRST_YEAR = 8;

function block(
  rows: CellContent[][],
  result: CostCaseFound,
  { cellOf }: BookCells,
  { option, basis, npv, value }: Asked,
): string {
  const ref = (name: string) => cellOf(name)!;
  const machines = result.byStation.map(({ station }) => station);
  const served = (station: string, what: string) => ref(`${station}: ${what}`);
  const count = (station: string) => served(station, 'changeovers per year');
  const fitted = machines.filter((station) => option.stations.includes(station));
  const connection = connectionOfPlan(option.name);
  const own = connection === null ? 'a box' : connection;
  const left = machines.filter((station) => !option.stations.includes(station));
  const elsewhere = cellOf('harness_elsewhere_per_year') ?? '0';
  const years = Array.from({ length: result.horizonYears }, (_, k) => k + 1);
  rows.push(
    [title(`Break-even of ${option.name}, ${basis}`)],
    [
      comment(
        'Each row halves the range of shares of the plan that is left. The present value at the middle is that of the plan plus what the changeovers change.',
      ),
    ],
    [
      'changeovers at which it breaks even',
      null, // written below, when its last row is known
    ],
    [
      'share of the plan, from',
      'to',
      'middle',
      'saved a year',
      'harness moves, all on it',
      'harness moves, option',
      'plugs into boxes',
      'present value there',
      ...years.map((year) => `wear saved in year ${year}`),
    ].map(heading),
  );
  const answerRow = rows.length - 2;
  const rate = `(1+${rateCell(cellOf, basis)}/100)`;
  const growth = `((1+${cellOf('inflation_pct') ?? 0}/100)/${rate})`;
  const kept = basis === 'after tax' ? `(1-${ref('tax_pct')}/100)` : '1';
  const moves = (stations: readonly string[], share: string) =>
    stations.map((station) => {
      const others = stations.filter((other) => other !== station).map((other) => `${share}*${count(other)}`);
      return { station, text: `MIN(${share}*${count(station)},${[...others, elsewhere].join('+')})` };
    });
  const sum = (terms: readonly string[]) => (terms.length === 0 ? '0' : terms.join('+'));
  const moveCost = (stations: readonly string[], share: string) =>
    sum(
      moves(stations, share).map(
        ({ station, text }) =>
          `${text}*${served(station, 'minutes of moving the harness')}*${served(station, 'cost of a minute')}`,
      ),
    );
  const saved = (share: string) =>
    `${moveCost(machines, share)}-(${moveCost(left, share)})-(${sum(fitted.map((s) => `${share}*${count(s)}*${served(s, `minutes with ${own}`)}*${served(s, 'cost of a minute')}`))})`;
  const rated = (item: string) => cellOf(item);
  const [connector, plug] = [
    rated('connector_matings'),
    rated(connection === null ? 'box_plug_matings' : `${connection}.matings`),
  ];
  const bought = (events: string, matings: string, year: number) =>
    `MAX(0,${roundedUp(`${year}*${events}/${matings}`)}-1)`;
  const inYear = (events: string, matings: string, year: number) =>
    year === 1
      ? bought(events, matings, 1)
      : `(${bought(events, matings, year)}-${bought(events, matings, year - 1)})`;
  const wear = (r: number, year: number) =>
    sum([
      ...(connector === null
        ? []
        : [
            `(${inYear(`$E${r}`, connector, year)}-${inYear(`$F${r}`, connector, year)})*${ref('connector_price')}`,
          ]),
      ...(plug === null
        ? []
        : [
            `-${inYear(`$G${r}`, plug, year)}*${ref(connection === null ? 'box_plug_price' : `${connection}.worn_price`)}`,
          ]),
    ]);
  const planRow = rows.length + 1;
  const present = (r: number) => {
    const factors = years.map((year) => {
      const column = columnLetters(FIRST_YEAR + year - 1);
      return `(${column}${r}-${column}$${planRow}+$D${r}-$D$${planRow})*${growth}^${year}`;
    });
    return `${npv}+${kept}*(${sum(factors)})`;
  };
  const line = (r: number, from: CellContent, to: CellContent, middle: CellContent): CellContent[] => [
    from,
    to,
    middle,
    live(saved(`$C${r}`), null),
    live(sum(moves(machines, `$C${r}`).map(({ text }) => text)), null),
    live(sum(moves(left, `$C${r}`).map(({ text }) => text)), null),
    live(
      sum(fitted.map((s) => `$C${r}*${count(s)}${connection === null ? `*${served(s, 'boxes')}` : ''}`)),
      null,
    ),
    live(present(r), null),
    ...years.map((year) => live(wear(r, year), null)),
  ];
  rows.push(line(planRow, 'as planned', null, 1));
  rows.push(line(planRow + 1, 'no changeovers', null, 0));
  const start = planRow + 2;
  for (let k = 0; k < HALVINGS; k++) {
    const r = start + k;
    const before = r - 1;
    const from = k === 0 ? 0 : live(`IF(H${before}<0,C${before},A${before})`, null, 9);
    const to = k === 0 ? MOST_TIMES_PLAN : live(`IF(H${before}<0,B${before},C${before})`, null, 9);
    rows.push(line(r, from, to, live(`(A${r}+B${r})/2`, null, 9)));
  }
  const end = start + HALVINGS - 1;
  rows.push([]);
  const planned = ref('planned changeovers over the horizon');
  rows[answerRow]![1] = live(
    `IF(H${planRow + 1}>=0,0,IF(C${end}>${MOST_TIMES_PLAN}*0.999,"never within ${MOST_TIMES_PLAN} times the plan",C${end}*${planned}))`,
    value ?? `never within ${MOST_TIMES_PLAN} times the plan`,
  );
  return `${BREAK_EVEN}!$B$${answerRow + 1}`;
}
