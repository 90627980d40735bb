/** costs.csv: the inputs of the cost case, one item a row. */
import type { CostItem } from '../core/model/cell.js';
import { connectionItems } from '../core/model/connection-items.js';
import { type CostItemFormat, costItemFormat, costItems } from '../core/model/cost-items.js';
import { readChoice } from './choice-column.js';
import { neededColumn, optional } from './column.js';
import type { Fault } from './complaint-list.js';
import { inBackticks } from './in-backticks.js';
import { textColumn } from './name-column.js';
import { nameHelp } from './nearest-name.js';
import { type NumberRule, readInRange } from './number-column.js';
import { sameWords } from './plain-words.js';
import { readNumber } from './read-number.js';
import { type NumberStyle, type Reading, read, readAs, refuse } from './reading.js';
import { firstOfEach } from './repeated-rows.js';
import { noteTaken, reportCell, type Sheet } from './sheet.js';
import { type TypedRow, typedRows } from './typed-rows.js';

const raw = (meaning: string, allowed: string) =>
  neededColumn<string>({ unit: 'as the item', meaning, allowed, read: (text) => read(text) });

export const costColumns = {
  item: neededColumn<CostItemFormat>({
    unit: '',
    meaning: 'name of the item',
    allowed: 'a known cost item, such as `box_price`',
    choices: costItems.map((item) => item.name),
    read: (text) => readItem(text),
  }),
  value: raw('its value', 'the value of the item'),
  low: optional(raw('lowest value thought possible', 'a number'), '', 'not given'),
  high: optional(raw('highest value thought possible', 'a number'), '', 'not given'),
  unit: optional(textColumn('unit, for the reader'), '', 'empty'),
  source: optional(textColumn('where the value comes from, for the reader'), '', 'empty'),
} as const;

type CostRow = TypedRow<typeof costColumns>;
type Bounds = Pick<CostItem, 'low' | 'high'>;

function readItem(text: string): Reading<CostItemFormat> {
  const found = costItemFormat(text);
  if (found) return read(found);
  const meant = costItems.filter((item) => sameWords(item.name, text));
  if (meant.length === 1) return readAs(meant[0]!, meant[0]!.name);
  const [, connection] = /^(.+)\.[^.]*$/.exec(text) ?? [];
  const names =
    connection === undefined
      ? costItems.map((item) => item.name)
      : connectionItems.map((item) => `${connection}.${item.name}`);
  const said = `found ${inBackticks(text)}, expected a known cost item`;
  return refuse({ code: 'COS01', text: said, help: nameHelp(text, names, 'items') });
}

export function readCosts(sheet: Sheet): CostItem[] {
  const rows = firstOfEach(
    sheet,
    typedRows(sheet, costColumns),
    'COS02',
    ['item'],
    ({ values }) => `the item ${inBackticks(values.item.name)}`,
  );
  const items = rows.flatMap((row) => costItemOf(sheet, row));
  for (const row of rows) askAbout(sheet, row, items);
  return items;
}

/** Values that may be meant, but are mistyped more often. */
function askAbout(sheet: Sheet, row: CostRow, items: readonly CostItem[]): void {
  const { name } = row.values.item;
  const value = items.find((item) => item.item === name)?.value;
  const ask = (code: 'COS07' | 'COS08' | 'COS09', text: string, help: string): void =>
    reportCell(sheet, row.row, 'value', code, () => ({ severity: 'warning', text, help }));
  if (name.endsWith('_pct') && typeof value === 'number' && value > 0 && value < 1)
    ask(
      'COS07',
      `found ${value} for ${name}, which is ${value} per cent`,
      `If ${Number((100 * value).toPrecision(12))} per cent is meant, write ${Number((100 * value).toPrecision(12))}.`,
    );
  if (name === 'currency' && typeof value === 'string' && value !== '' && !isCurrency(value))
    ask(
      'COS08',
      `found ${inBackticks(value)}, which is no currency code of ISO 4217`,
      'Write a code such as `EUR` or `USD`; this name is put behind the amounts.',
    );
  const price = items.find((item) => item.item === 'box_price')?.value;
  if (name === 'box_salvage' && typeof value === 'number' && typeof price === 'number' && value > price)
    ask(
      'COS09',
      `found a salvage of ${value} above the price of a box, ${price}`,
      'A box seldom fetches more than it cost; check both.',
    );
}

function isCurrency(code: string): boolean {
  return Intl.supportedValuesOf('currency').includes(code);
}

function costItemOf(sheet: Sheet, row: CostRow): CostItem[] {
  const { item, unit, source } = row.values;
  const value = cellOf(sheet, row, 'value');
  const bounds = boundsOf(sheet, row);
  if (value === null) return [];
  if (typeof value === 'number') checkInside(sheet, row, value, bounds);
  return [{ item: item.name, value, ...bounds, unit, source, at: row.at }];
}

function boundsOf(sheet: Sheet, row: CostRow): Bounds {
  const { item, low, high } = row.values;
  if (item.kind !== 'number') {
    for (const column of ['low', 'high'] as const)
      if (row.values[column] !== '')
        reportCell(sheet, row.row, column, 'COS03', () => boundOfText(row, column));
    return { low: null, high: null };
  }
  return {
    low: low === '' ? null : (cellOf(sheet, row, 'low') as number | null),
    high: high === '' ? null : (cellOf(sheet, row, 'high') as number | null),
  };
}

function boundOfText(row: CostRow, column: 'low' | 'high') {
  const text = `found ${inBackticks(row.values[column])}, but ${row.values.item.name} is not a number that varies`;
  return { text, help: 'Leave low and high empty.' };
}

/** The value of a cell by the kind of its item; null where it has a fault, which is reported. */
function cellOf(sheet: Sheet, row: CostRow, column: 'value' | 'low' | 'high'): number | string | null {
  const { item } = row.values;
  const reading = readValue(row.values[column], item, { decimalComma: sheet.delimiter === ';' });
  if (reading.ok) {
    noteTaken(sheet, row.row, column, reading);
    return reading.value;
  }
  const fault: Fault = reading.fault;
  reportCell(sheet, row.row, column, fault.code, () => ({
    ...fault,
    text: `for ${item.name} ${fault.text}`,
  }));
  return null;
}

function readValue(text: string, item: CostItemFormat, style: NumberStyle): Reading<number | string> {
  if (item.kind === 'choice') return readChoice(text, item.choices);
  if (item.kind === 'price breaks') return readPriceBreaks(text, style);
  if (item.kind === 'text') return costColumns.unit.read(text, style);
  return readInRange(text, style, ruleOf(item));
}

function ruleOf({ unit, min, aboveMin, max, whole }: CostItemFormat): NumberRule {
  const rule = { words: unit.replace(' from 0 to 1', '').replace('%', 'per cent'), min, aboveMin, whole };
  return max === null ? rule : { ...rule, max };
}

function checkInside(sheet: Sheet, row: CostRow, value: number, { low, high }: Bounds): void {
  const name = row.values.item.name;
  if (low !== null && high !== null && low > high) {
    const text = `found low ${low} above high ${high} for ${name}`;
    reportCell(sheet, row.row, 'low', 'COS04', () => ({ text, help: 'Exchange the two.' }));
    return;
  }
  const isOutside = (low !== null && value < low) || (high !== null && value > high);
  if (!isOutside) return;
  const text = `found ${value} outside its own range from ${low ?? 'any'} to ${high ?? 'any'} for ${name}`;
  const help = 'The value is the most likely one: correct whichever of the three is mistyped.';
  reportCell(sheet, row.row, 'value', 'COS05', () => ({ text, help }));
}

const ALLOWED = 'price breaks such as `1:900;4:820`, with quantities that rise';

/** Reads price breaks such as `1:900;4:820` into one spelling: decimal points, no spaces. */
export function readPriceBreaks(text: string, style: NumberStyle): Reading<string> {
  const breaks: string[] = [];
  let before = 0;
  let at = 0;
  for (const part of text.split(';')) {
    const [quantity, price, ...more] = part.split(':').map((side) => numberOr(side.trim(), style));
    const isRight =
      quantity != null && price != null && more.length === 0 && Number.isInteger(quantity) && price >= 0;
    if (!isRight || quantity <= before) {
      const found = `found ${inBackticks(part.trim())}, expected ${ALLOWED}`;
      const help = isRight
        ? `The quantity after ${before} must be larger than it.`
        : 'Each break is a whole number of boxes, a colon and the price of one.';
      return refuse({ code: 'COS06', text: found, help, span: [at, at + part.length] });
    }
    breaks.push(`${quantity}:${price}`);
    before = quantity;
    at += part.length + 1;
  }
  return read(breaks.join(';'));
}

function numberOr(text: string, style: NumberStyle): number | null {
  const reading = readNumber(text, style, ALLOWED);
  return reading.ok ? reading.value : null;
}
