/** Cells of the cost case's workbook and where its figures stand, so that formulas can name them. */
import type { AuditInput, CostCaseFound } from '../../core/cost/result.js';
import { chanceText } from '../../core/model/chance-text.js';
import { costItemFormat, itemLabel } from '../../core/model/cost-items.js';
import type { CellContent, RichCell } from '../../workbook/workbook.js';
import { placeText } from '../cost-document/place-text.js';
import { sheetFormula } from './sheet-formula.js';

export const INPUTS = 'inputs';
export const FIGURES = 'figures';

export const heading = (value: string): RichCell => ({ value, look: 'heading' });
export const title = (value: string): RichCell => ({ value, look: 'title' });
export const comment = (value: string): RichCell => ({ value, look: 'comment' });

/** Money and other figures with two digits. */
export function live(formula: string, value: number | string | null, digits = 2): RichCell {
  return { formula, value, format: { digits } };
}

/** Name of an input as formulas write it: without what is said of where the value comes from. */
export function inputName({ item }: Pick<AuditInput, 'item'>): string {
  return item.replace(/ \((default|signals_per_machine)\)$/, '');
}

export interface BookCells {
  /** Figures that stand as values. */
  readonly fixed: ReadonlySet<string>;
  /** Everything that a figure is worked out from and that is no figure itself, in the order of its first use. */
  readonly inputs: readonly AuditInput[];
  /** Cell of an input or a figure, seen from any sheet; null where there is none. */
  readonly cellOf: (name: string) => string | null;
}

/** Rows above the first input or figure. */
export const TOP_ROWS = 3;

export function bookCells({ audit }: CostCaseFound): BookCells {
  const inputs = new Map<string, AuditInput>();
  const fixed = fixedFigures(audit);
  for (const entry of audit.filter(({ result }) => !fixed.has(result)))
    for (const input of entry.inputs) if (input.from === undefined) inputs.set(inputName(input), input);
  const cells = new Map<string, string>();
  [...inputs.keys()].forEach((name, k) => {
    cells.set(name, `${INPUTS}!$B$${k + TOP_ROWS + 1}`);
  });
  audit.forEach(({ result }, k) => {
    cells.set(result, `${FIGURES}!$B$${k + TOP_ROWS + 1}`);
  });
  return { inputs: [...inputs.values()], fixed, cellOf: (name) => cells.get(name) ?? null };
}

/** Figures that rest on flows whose own formulas are not in the list: those of a box on one machine alone. */
function fixedFigures(audit: CostCaseFound['audit']): Set<string> {
  const fixed = new Set<string>();
  for (const { result, inputs } of audit)
    if (inputs.some(({ item, from }) => (from === undefined ? ALONE.test(item) : fixed.has(from))))
      fixed.add(result);
  return fixed;
}

const ALONE = /^a box on .* alone: difference of year/;

export function inputRows(result: CostCaseFound, { inputs, cellOf }: BookCells): CellContent[][] {
  return inputs.map((input) => {
    const name = inputName(input);
    const item = result.costItems.find((row) => row.item === name);
    const follows = costItemFormat(name)?.default;
    const other = input.place === null && typeof follows === 'string' ? cellOf(follows) : null;
    // The number of years sets how many rows there are: it is changed in the tables.
    const isFixed = name === 'horizon_years' || typeof input.value !== 'number';
    const value: CellContent =
      other !== null
        ? { value: input.value, formula: other }
        : { value: input.value, ...(isFixed ? {} : { look: 'input' }) };
    return [
      item === undefined ? name : itemLabel(name),
      value,
      item?.low ?? null,
      item?.high ?? null,
      item?.unit ?? null,
      item?.source ?? (input.place === null ? 'worked out by the program' : null),
      placeText(input.place, input.lines),
      item === undefined ? null : name,
    ];
  });
}

/** Every figure with its formula, as cells and in words. */
export function figureRows(
  result: CostCaseFound,
  { cellOf, fixed }: BookCells,
  other: (figure: string) => string | null,
): CellContent[][] {
  return result.audit.map((entry) => {
    const names = entry.inputs.map((input) => input.from ?? inputName(input));
    const formula =
      entry.how === 'formula' && !fixed.has(entry.result)
        ? sheetFormula(entry.formula, names, { cellOf, years: () => result.horizonYears })
        : other(entry.result);
    const found =
      entry.how === 'trials' && entry.value !== null ? chanceText(entry.value / 100) : entry.value;
    const value: CellContent = formula === null ? found : { formula, value: entry.value };
    const how = formula === null ? 'as found by the program' : 'formula';
    return [entry.result, value, how, entry.formula];
  });
}
