// Every formula of the cost case's workbook worked out again by an office program, from a file that holds no results: it
// finds the program's own figures. Without such a program these are left out with a word, unless CI=true.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, it } from 'vitest';
import { costCase } from '../../../src/core/cost/cost-case.js';
import type { CostCaseFound } from '../../../src/core/cost/result.js';
import { bestSchedule } from '../../../src/core/schedule/best-schedule.js';
import { standingHours } from '../../../src/core/standing/standing-hours.js';
import { costCaseBook } from '../../../src/render/cost-workbook/cost-case-book.js';
import { sheetFormula } from '../../../src/render/cost-workbook/sheet-formula.js';
import { readCell } from '../../../src/tables/read-cell.js';
import { isRich, type Workbook } from '../../../src/workbook/workbook.js';
import { workbookBytes } from '../../../src/workbook/write-workbook.js';
import {
  COUPLING,
  changeoverRow,
  costCell,
  type ItemValue,
  PLAIN_ITEMS,
  signalRows,
} from '../../core/cost/support/cost-cell.js';
import { atSize, isDeep } from '../../support/size.js';

const ITEMS: Readonly<Record<string, ItemValue>> = {
  ...PLAIN_ITEMS,
  harness_elsewhere_per_year: 12,
  inflation_pct: 3,
  connector_price: 90,
  connector_matings: 40,
  box_plug_price: 30,
  box_plug_matings: 70,
  box_inputs: 8,
  box_outputs: 8,
  box_amps: 4,
  box_mount_h: 2,
  install_learning_pct: 80,
  engineering_price: 300,
  contingency_pct: 10,
  box_fit_stand_h: 3,
  harness_price: 500,
  box_salvage: 100,
  contribution_per_machine_h: 45,
  box_price: 900,
  budget: 3500,
  currency: 'EUR',
};
const ROWS = [
  changeoverRow('a', 90),
  changeoverRow('b', 70, { people: 2, internalPct: 80 }),
  changeoverRow('c', 40),
];
const SIGNALS = [...signalRows('a', 7, 6), ...signalRows('b', 4, 4)];

function found(more: Record<string, ItemValue>): CostCaseFound {
  const outcome = costCase(costCell({ ...ITEMS, ...more }, ROWS, SIGNALS), null, {
    trials: 10,
    turns: false,
  });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

/** The same book without the results of its formulas, and with some inputs set anew. */
function bare(book: Workbook, inputs: Readonly<Record<string, number>> = {}): Workbook {
  return {
    ...book,
    sheets: book.sheets.map((sheet) => ({
      ...sheet,
      charts: [],
      rows: sheet.rows.map((row) =>
        row.map((cell, column) => {
          const item = row[7];
          if (sheet.name === 'inputs' && column === 1 && typeof item === 'string' && item in inputs)
            return inputs[item]!;
          return isRich(cell) && cell.formula !== undefined
            ? { value: null, formula: cell.formula }
            : isRich(cell)
              ? cell.value
              : cell;
        }),
      ),
    })),
  };
}

type Values = Readonly<Record<string, string[][]>>;

/**
 * Values of all cells by sheet, as the office program works them out: of all books at once, since starting it takes longer
 * than the work.
 */
async function recalculated(books: readonly Workbook[]): Promise<readonly Values[]> {
  const folder = mkdtempSync(join(tmpdir(), 'cost-book-'));
  try {
    const files = books.map((_, k) => join(folder, `book${k}.xlsx`));
    for (const [k, book] of books.entries()) writeFileSync(files[k]!, await workbookBytes(book, 'xlsx'));
    // Comma, quote, UTF-8, from row 1, no column formats, English, no quoting of all, values as stored, every sheet.
    const filter = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,false,false,false,false,false,-1';
    const profile = `-env:UserInstallation=file://${folder}/profile`;
    execFileSync('soffice', [profile, '--headless', '--convert-to', filter, '--outdir', folder, ...files], {
      stdio: 'ignore',
      timeout: 240_000,
    });
    const written = readdirSync(folder).filter((name) => name.endsWith('.csv'));
    return files.map((_, k) => {
      const own = written.filter((name) => name.startsWith(`book${k}-`));
      return Object.fromEntries(
        own.map((name) => [
          name.replace(/^book\d+-|\.csv$/g, ''),
          parse(readFileSync(join(folder, name), 'utf8'), { relax_column_count: true }) as string[][],
        ]),
      );
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Whether there is an office program: it is looked for, not started. */
function hasOffice(): boolean {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return process.env.CI === 'true' || folders.some((folder) => existsSync(join(folder, 'soffice')));
}

/** Cells that hold a formula with its result, against what was worked out again. */
function compareCells(book: Workbook, again: Values): number {
  let compared = 0;
  for (const sheet of book.sheets)
    sheet.rows.forEach((row, r) => {
      row.forEach((cell, c) => {
        if (!isRich(cell) || cell.formula === undefined || cell.value === null) return;
        const text = again[sheet.name]?.[r]?.[c] ?? '';
        const where = `${sheet.name} row ${r + 1} column ${c + 1}: ${cell.formula}`;
        if (typeof cell.value === 'number') {
          // To the cent; large figures to nine digits.
          const room = Math.max(0.005, 1e-9 * Math.abs(cell.value));
          expect(Math.abs(Number(text) - cell.value), `${where} = ${text}, not ${cell.value}`).toBeLessThan(
            room,
          );
        } else expect(text, where).toBe(cell.value);
        compared++;
      });
    });
  return compared;
}

describe.skipIf(!hasOffice())('an office program works out every formula again', () => {
  const cases: readonly (readonly [string, Record<string, ItemValue>])[] = [
    ['before tax, some machines within a budget', {}],
    [
      'after tax, with a real rate meant after tax',
      {
        tax_pct: 28,
        discount_tax: 'after-tax',
        discount_prices: 'real',
        box_price_breaks: '2:820;5:790',
        box_price_pct: 105,
        ...COUPLING,
      },
    ],
  ];
  /** A dearer hour and slower plugging, typed into the sheet of inputs. */
  const changed = { labour_per_h: 40, harness_min_per_connector: 3.5, box_price_pct: 96 };
  const books = cases.map(([, more]) => costCaseBook(found(more), 'test cell'));
  let plain: readonly Values[];
  let typed: readonly Values[];

  beforeAll(async () => {
    const all = await recalculated([...books.map((b) => bare(b)), ...books.map((b) => bare(b, changed))]);
    [plain, typed] = [all.slice(0, books.length), all.slice(books.length)];
  }, 600_000);

  it.each(cases.map(([name, more], k) => [name, more, k] as const))(
    '%s: the figures of the program, and with other inputs the program’s figures for these',
    (_, more, k) => {
      expect(compareCells(books[k]!, plain[k]!)).toBeGreaterThan(250);
      // The same as in the tables.
      const wanted = costCaseBook(found({ ...more, ...changed }), 'test cell');
      expect(wanted.sheets.map((s) => s.rows.length)).toEqual(books[k]!.sheets.map((s) => s.rows.length));
      compareCells(wanted, typed[k]!);
    },
  );
});

/** The cells of data/ that have a cost case; the search for the largest is left to the long run. */
describe.runIf(isDeep && hasOffice())('the cells of data/', () => {
  it('every formula of their workbooks gives the printed figure to the cent', async () => {
    const all = readdirSync(DATA).filter((name) => existsSync(new URL(`${name}/costs.csv`, DATA)));
    const folders = atSize(['starter'], ['starter', 'demo'], all);
    const books = folders.map((name) => costCaseBook(caseOf(new URL(`${name}/`, DATA)), name));
    const again = await recalculated(books.map((book) => bare(book)));
    const compared = books.map((book, k) => compareCells(book, again[k]!));
    expect(compared.length).toBeGreaterThan(1);
    for (const count of compared) expect(count).toBeGreaterThan(150);
  });
});

const DATA = new URL('../../../data/', import.meta.url);

function caseOf(folder: URL): CostCaseFound {
  const names = readdirSync(folder).filter((name) => !['log.csv', 'readings.csv'].includes(name));
  const cell = readCell(
    Object.fromEntries(names.map((name) => [name, readFileSync(new URL(name, folder), 'utf8')])),
  );
  const schedule = bestSchedule(cell, { improvements: false });
  if (!('order' in schedule)) throw new Error(schedule.reason);
  const outcome = costCase(cell, standingHours(cell, schedule), { trials: 10, turns: false });
  if (outcome.status !== 'found') throw new Error(outcome.recommendation);
  return outcome;
}

it('what the formulas of the audit become', () => {
  const cellOf = (name: string) =>
    ({ price: 'B2', rate: 'B3', 'flow of year 0': 'C1', 'flow of year 1': 'C2', n: 'B9' })[name] ?? null;
  const write = (text: string, names: string[]) => sheetFormula(text, names, { cellOf, years: () => 1 });
  expect(write('2 x (price + 3) ^ 2', ['price'])).toBe('2*((B2+3))^(2)');
  expect(write('max(0, log2(price) - 1)', ['price'])).toBe('MAX(0,LOG(B2,2)-1)');
  expect(
    write('sum(flow of year y / (1 + rate) ^ y, y = 0 to n)', [
      'flow of year 0',
      'flow of year 1',
      'rate',
      'n',
    ]),
  ).toBe('(C1/((1+B3))^(0)+C2/((1+B3))^(1))');
  expect(() => write('price x cost', ['price'])).toThrow('nothing known');
});
