/** What keeps the cost case from being worked out: values outside their range, and items that are not there. */
import type { Cell, CostItem } from '../model/cell.js';
import type { Complaint } from '../model/complaint.js';
import { type CostItemFormat, costItemFormat, costItems } from '../model/cost-items.js';
import { costNumber, costWord, givenCost } from '../model/cost-value.js';
import type { StandingFacts } from './standing/standing-facts.js';

/** An item that is not given, and the results that cannot be worked out without it. */
export interface MissingItem {
  readonly item: string;
  readonly file: string;
  readonly neededFor: readonly string[];
}

const NEEDED_FOR: Readonly<Record<string, readonly string[]>> = {
  labour_per_h: ['the cost of a minute', 'the saving of every machine', 'the cash flows'],
  box_price: ['the capital for boxes', 'the selection under a budget', 'the cash flows'],
  harness_connectors: ['the minutes of moving the harness', 'the saving of every machine'],
  harness_min_per_connector: ['the minutes of moving the harness', 'the saving of every machine'],
  horizon_years: ['the cash flows', 'the break-even number of changeovers'],
  discount_pct: ['the net present value', 'the discounted payback', 'the break-even number of changeovers'],
  box_inputs: ['the number of boxes'],
  box_outputs: ['the number of boxes'],
  box_amps: ['the number of boxes'],
};

/** Everything that is missing, all at once, in the order of the list of items. */
export function missingItems(cell: Cell, facts: StandingFacts | null): MissingItem[] {
  const lacking = costItems.filter((format) => isLacking(cell, format)).map((format) => format.name);
  const missing = lacking.map((item) => missingCost(item, NEEDED_FOR[item] ?? ['the cost case']));
  if (contributionIsLacking(cell, facts))
    missing.push(
      missingCost('contribution_per_machine_h', ['the contribution lost while a machine is down']),
    );
  if (cell.changeovers.length === 0)
    missing.push({
      item: 'changeovers.csv',
      file: 'changeovers.csv',
      neededFor: ['the number of changeovers of each machine', 'every saving'],
    });
  return missing;
}

function missingCost(item: string, neededFor: readonly string[]): MissingItem {
  return { item, file: 'costs.csv', neededFor };
}

function isLacking(cell: Cell, format: CostItemFormat): boolean {
  if (givenCost(cell.costs, format.name)) return false;
  const rating = ['box_inputs', 'box_outputs', 'box_amps'].includes(format.name);
  return format.needed || (rating && cell.signals.length > 0);
}

function contributionIsLacking(cell: Cell, facts: StandingFacts | null): boolean {
  if (costWord(cell.costs, 'machine_constrained') !== 'yes') return false;
  if (costNumber(cell.costs, 'contribution_per_machine_h') !== null) return false;
  if (cell.changeovers.length === 0) return false;
  if (facts === null) return true;
  return !cell.parts.some((part) => (part.contribution ?? 0) > 0);
}

/** Every value that is outside its range, and every low and high that do not enclose their value. */
export function wrongValues(cell: Cell): Complaint[] {
  const costs = cell.costs.flatMap((row) => {
    const format = costItemFormat(row.item);
    if (format?.kind !== 'number') return [];
    return [...rangeComplaints(row, format), ...orderComplaints(row)];
  });
  return [...costs, ...allTaxedAway(cell), ...countComplaints(cell)];
}

/** Nothing is left of the rate before tax that a rate after tax could be worked out from. */
function allTaxedAway(cell: Cell): Complaint[] {
  const tax = givenCost(cell.costs, 'tax_pct');
  if (tax?.value !== 100 || costWord(cell.costs, 'discount_tax') !== 'after-tax') return [];
  return [
    complaint(
      'CASE006',
      tax,
      'value',
      'tax_pct is 100 and discount_pct is meant after tax, so no rate before tax goes with it',
      'Lower tax_pct, or say with discount_tax that the rate is meant before tax or for both.',
    ),
  ];
}

function rangeComplaints(row: CostItem, format: CostItemFormat): Complaint[] {
  const fields = { value: row.value, low: row.low, high: row.high } as const;
  return Object.entries(fields).flatMap(([column, value]) => {
    if (value === null) return [];
    if (typeof value === 'number' && inRange(value, format)) return [];
    return [
      complaint(
        'CASE001',
        row,
        column,
        `${row.item} is ${value}, expected ${rangeText(format)}`,
        `${row.item} means: ${format.meaning}.`,
      ),
    ];
  });
}

function inRange(value: number, format: CostItemFormat): boolean {
  if (!Number.isFinite(value)) return false;
  if (format.aboveMin ? value <= format.min : value < format.min) return false;
  if (format.max !== null && value > format.max) return false;
  return !format.whole || Number.isInteger(value);
}

function rangeText(format: CostItemFormat): string {
  const number = format.whole ? 'a whole number' : 'a number';
  const least = format.aboveMin ? `above ${format.min}` : `of ${format.min} or more`;
  const most = format.max === null ? '' : `, at most ${format.max}`;
  return `${number} ${least}${most} (${format.unit})`;
}

function orderComplaints(row: CostItem): Complaint[] {
  const { low, high, value } = row;
  if (typeof value !== 'number') return [];
  if (low !== null && high !== null && low > high)
    return [
      complaint(
        'CASE002',
        row,
        'low',
        `low of ${row.item} is ${low}, above its high of ${high}`,
        'Exchange the two, or leave both empty where the value is certain.',
      ),
    ];
  if ((low !== null && low > value) || (high !== null && high < value))
    return [
      complaint(
        'CASE003',
        row,
        low !== null && low > value ? 'low' : 'high',
        `${row.item} is ${value}, outside its own low and high of ${low ?? 'none'} to ${high ?? 'none'}`,
        'The value is the most likely one: low must not be above it, high not below it.',
      ),
    ];
  return [];
}

function countComplaints(cell: Cell): Complaint[] {
  return cell.changeovers.flatMap((row) => {
    const faults: [string, number, boolean, string][] = [
      ['per_year', row.perYear, row.perYear >= 0, 'a number of 0 or more'],
      [
        'internal_pct',
        row.internalPct,
        row.internalPct >= 0 && row.internalPct <= 100,
        'a number from 0 to 100',
      ],
      ['people', row.people, row.people >= 0, 'a number of 0 or more'],
      ['minutes_other', row.minutesOther, row.minutesOther >= 0, 'a number of 0 or more'],
    ];
    return faults
      .filter(([, value, right]) => !right || !Number.isFinite(value))
      .map(([column, value, , allowed]) => ({
        code: 'CASE004',
        severity: 'error' as const,
        file: row.at?.file ?? 'changeovers.csv',
        line: row.at?.line ?? null,
        column,
        text: `${column} of ${row.station} is ${value}, expected ${allowed}`,
        excerpt: null,
        help: null,
      }));
  });
}

function complaint(code: string, row: CostItem, column: string, text: string, help: string): Complaint {
  const { file = 'costs.csv', line = null } = row.at ?? {};
  return { code, severity: 'error', file, line, column, text, excerpt: null, help };
}
