/** An estimate held against a log, as tables: its inputs, and the figures that follow from them. */
import type { ComparedElement, ComparedOutcome } from '../../core/log/against/compared.js';
import { type Column, figures, readTable, words } from '../columns.js';
import { numberText, signedText } from '../numbers.js';
import type { TableData } from '../text-table.js';

export function elementTable(elements: readonly ComparedElement[]): TableData {
  return readTable(ELEMENTS, elements);
}

export function outcomeTable(outcomes: readonly ComparedOutcome[]): TableData {
  return readTable(OUTCOMES, outcomes);
}

const always = () => true;

/** @param digits of both */
function compared<Row extends ComparedElement | ComparedOutcome>(
  estimate: string,
  digits: number,
): { readonly values: Column<Row>[]; readonly off: Column<Row> } {
  return {
    values: [
      words('unit', 'unit', (row) => row.unit),
      figures('estimate', estimate, digits, (row) => row.estimate, { isShown: always, none: 'none' }),
      figures('measured', 'log', digits, (row) => row.measured),
      figures('ci_low', 'interval', digits, (row) => row.ciLow, { isShown: always, text: span }),
    ],
    off: figures('off_pct', 'off %', 1, (row) => row.offPct, {
      isShown: always,
      text: (row) => signedText(row.offPct!, 1),
    }),
  };
}

function span({ ciLow, ciHigh }: ComparedElement | ComparedOutcome): string {
  return ciHigh === null
    ? `above ${numberText(ciLow!, 2)}`
    : `${numberText(ciLow!, 2)} to ${numberText(ciHigh, 2)}`;
}

const input = compared<ComparedElement>('tables', 2);
const ELEMENTS: readonly Column<ComparedElement>[] = [
  words('input', 'input', (e) => e.element),
  ...input.values,
  figures('n', 'times', 0, (e) => e.n),
  input.off,
  words('is_off', 'verdict', (e) => e.isOff, { text: verdict }),
];

/** What lies outside its own interval and inside the one that holds for all inputs together is no clear case. */
function verdict({ isOff, estimate, ciLow, ciHigh }: ComparedElement): string {
  if (isOff) return 'off';
  const outside = estimate !== null && (estimate < (ciLow ?? estimate) || estimate > (ciHigh ?? estimate));
  return outside ? 'not clear' : '';
}

const figure = compared<ComparedOutcome>('schedule', 1);
const OUTCOMES: readonly Column<ComparedOutcome>[] = [
  words('figure', 'figure', (o) => o.figure),
  ...figure.values,
  figure.off,
];
