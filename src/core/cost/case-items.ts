/** The cost items as they count in a case, with what costs.csv says about each. */
import type { Cell } from '../model/cell.js';
import { type CostItemFormat, itemsOf } from '../model/cost-items.js';
import { costWord, givenCost } from '../model/cost-value.js';
import type { CaseInputs } from './case-inputs.js';
import type { CaseItem } from './result.js';

/** Items that have neither a value nor a default are left out. */
export function caseItems(cell: Pick<Cell, 'costs'>, inputs: CaseInputs): CaseItem[] {
  return itemsOf(cell.costs).flatMap((format) => {
    const { name } = format;
    const value = format.kind === 'number' ? (inputs.numbers[name] ?? null) : costWord(cell.costs, name);
    if (value === null || value === '') return [];
    const given = givenCost(cell.costs, format.name);
    const asGiven = given !== null && given.value === value;
    return [
      {
        item: format.name,
        value,
        low: asGiven ? given.low : null,
        high: asGiven ? given.high : null,
        unit: given?.unit || format.unit,
        source: asGiven ? given.source : sourceOfOther(format, given !== null),
        place: asGiven ? (given.at ?? null) : null,
        meaning: format.meaning,
      },
    ];
  });
}

/** A value that the table does not give: the default, or set aside by the command line's count of changeovers. */
function sourceOfOther(format: CostItemFormat, isReplaced: boolean): string {
  if (isReplaced) return 'command line: the number of changeovers is given there';
  return typeof format.default === 'string' && format.kind === 'number'
    ? `default: as ${format.default}`
    : 'default';
}
