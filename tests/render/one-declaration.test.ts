// A table says the same wherever it is drawn: terminal, page, Markdown, CSV and workbook.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { PLAIN_CSV } from '../../src/core/model/csv-form.js';
import { defaultReadingsOptions, studyReadings } from '../../src/core/readings/study-readings.js';
import { plainView } from '../../src/render/cost-document/case-view.js';
import type { CsvValue } from '../../src/render/csv.js';
import { documentHtml } from '../../src/render/document/document-html.js';
import { documentMarkdown } from '../../src/render/document/document-markdown.js';
import { blocksText } from '../../src/render/document/document-text.js';
import { tableBlock } from '../../src/render/document/table-block.js';
import { costTables, machineTable, optionTable } from '../../src/render/result-tables/cost-tables.js';
import { cycleTable, logTables, shareTable } from '../../src/render/result-tables/log-tables.js';
import { readingsTable, timesTable, variationTable } from '../../src/render/result-tables/readings-tables.js';
import { type ResultTable, resultFiles } from '../../src/render/result-tables/result-table.js';
import { scheduleTables, stationShareTable } from '../../src/render/result-tables/schedule-tables.js';
import { patternTable, shiftTables } from '../../src/render/result-tables/shift-tables.js';
import { sizeTable, sizeTables } from '../../src/render/result-tables/size-tables.js';
import { tablesBook } from '../../src/render/tables-book.js';
import { plainStyle } from '../../src/render/text-style.js';
import type { TableData } from '../../src/render/text-table.js';
import { readReadings } from '../../src/tables/readings-table.js';
import { readLog } from '../support/simulated-log.js';
import { stored } from './stored-results.js';

const starter = (file: string) =>
  readFileSync(new URL(`../../data/starter/${file}`, import.meta.url), 'utf8');

const schedule = stored('demo');
const shifts = stored('demo-shifts');
const size = stored('figures-size');
const cost = stored('demo-cost');
const readings = studyReadings(readReadings('readings.csv', starter('readings.csv')).readings!, null);
const log = readLog(starter('log.csv')).result;

const named = (tables: readonly ResultTable[], file: string) => tables.find((t) => t.file === file)!;

/** What people read, and the file of the same rows. */
const tables: Readonly<Record<string, readonly [TableData, ResultTable]>> = {
  'time of the stations': [stationShareTable(schedule), named(scheduleTables(schedule), 'station-times.csv')],
  patterns: [patternTable(shifts.patterns), named(shiftTables(shifts, [], null), 'patterns.csv')],
  machines: [sizeTable(size), named(sizeTables(size), 'size.csv')],
  'options of a cost case': [optionTable(plainView(cost)), named(costTables(cost), 'cost-options.csv')],
  'boxes alone': [machineTable(plainView(cost)), named(costTables(cost), 'cost-machines.csv')],
  'times of readings': [timesTable(readings, defaultReadingsOptions, false), readingsTable(readings)],
  'variation of readings': [variationTable(readings), readingsTable(readings)],
};

test.each(Object.keys(tables))('%s: the same headings and rows in terminal, page and Markdown', (name) => {
  const [read] = tables[name]!;
  const block = tableBlock(name, read);
  const document = { title: 'a', subtitle: 'b', blocks: [block] };
  const headings = block.columns.map(({ heading }) => heading);
  const page = documentHtml(document);
  expect([...page.matchAll(/<th scope="col"[^>]*>([^<]*)</g)].map(([, text]) => text)).toEqual(headings);
  expect(documentMarkdown(document)).toContain(`| ${headings.join(' | ')} |`);
  const text = blocksText([block], { ...plainStyle, columns: 400 });
  expect(text.split('\n')[1]!.trim().split(/ {2,}/)).toEqual(headings);
});

test.each(Object.keys(tables))('%s: what people read stands in the same row of file and workbook', (name) => {
  const [read, file] = tables[name]!;
  const [head, ...rows] = file.rows;
  expect(rows).toHaveLength(read.rows.length);
  for (const [k, row] of read.rows.entries())
    for (const cell of row) expect(isIn(cell, rows[k]!), `${cell} of row ${k + 1}: ${rows[k]}`).toBe(true);
  const csv = resultFiles([file], PLAIN_CSV)[file.file]!;
  expect(csv.split('\n')[0]).toBe(head!.join(','));
  const sheet = tablesBook('a', [], [file]).sheets[1]!;
  expect(sheet.rows[0]!.map((cell) => (cell as { value: string }).value)).toEqual(head);
});

/** Hours in the file are shares where people read, and each share is of the same hours. */
test('the shares of a log are those of the hours in its file', () => {
  const file = named(logTables(log), 'station-times.csv');
  const hours = file.rows[0]!.flatMap((name, c) =>
    /_h$/.test(`${name}`) && !/per_h$|^mtbf/.test(`${name}`) ? [c] : [],
  );
  const of = new Map(file.rows.slice(1).map((row) => [row[0], hours.map((c) => Number(row[c]))]));
  for (const [station, ...shares] of shareTable(log).rows) {
    const all = of.get(station!)!;
    const total = all.reduce((sum, h) => sum + h, 0);
    expect(shares).toEqual(all.map((h) => ((100 * h) / total).toFixed(1)));
  }
  expect(cycleTable(log).rows.length).toBeGreaterThan(1);
});

/** A figure rounded, a word, or a sentence made of such. */
function isIn(cell: string, row: readonly CsvValue[]): boolean {
  const texts = row.flatMap((v) =>
    typeof v === 'boolean' ? [v ? 'yes' : 'no'] : typeof v === 'string' ? [v] : [],
  );
  const isOf = (text: string): boolean => {
    const [, decimals = ''] = text.split('.');
    const digits = decimals.length;
    const figure = Number(text.replaceAll(',', '').replace('+', ''));
    return row.some((v) => typeof v === 'number' && Math.abs(v - figure) <= 0.5001 * 10 ** -digits);
  };
  if (cell === '' || cell === '-' || cell === 'never') return true;
  if (texts.some((text) => text !== '' && cell.includes(text))) return true;
  const pieces = cell.match(/[+-]?\d[\d,]*(?:\.\d+)?/g) ?? [];
  return pieces.length > 0 && pieces.every(isOf);
}
