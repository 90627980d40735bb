// A figure is one figure: in `--json`, in the terminal, on the page, in Markdown, in the CSV files and in the workbook.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeAll, expect, test } from 'vitest';
import { numberText } from '../../src/render/numbers.js';
import { readGrids } from '../../src/workbook/read-grids.js';
import { run } from '../cli/run-in.js';
import { sharedShop, shopJson, shopReport } from '../support/shop-answers.js';
import type { Json } from './json-of.js';

let folder: string;
const text = (name: string): string => readFileSync(join(folder, name), 'utf8');
const said = async (...words: string[]): Promise<string> => (await run(words)).out.replace(/\s+/g, ' ');
let result: Json;

beforeAll(async () => {
  ({ result, folder } = await shopReport());
});

test('every CSV file is a sheet of the workbook with the same cells', async () => {
  const bytes = readFileSync(join(folder, 'report.xlsx'));
  const { grids } = await readGrids(bytes, 'xlsx', () => true);
  const files = readdirSync(folder).filter((name) => name.endsWith('.csv'));
  expect(files.length).toBeGreaterThan(10);
  for (const file of files) {
    const grid = grids.find((g: { name: string }) => `${g.name}.csv` === file);
    expect(grid, file).toBeDefined();
    const rows: string[][] = parse(text(file));
    for (const [r, row] of rows.entries())
      for (const [c, cell] of row.entries()) {
        const found = grid!.rows.get(r)?.get(c);
        const shown =
          found === undefined
            ? ''
            : found.kind === 'number'
              ? String(Number(found.value.toFixed(4)) + 0)
              : found.kind === 'text'
                ? found.text
                : found.kind;
        expect(shown, `${file}, row ${r}, column ${c}`).toBe(cell);
      }
  }
});

test.each<[string, string, (r: Json) => string]>([
  ['parts an hour', 'schedule', (r) => numberText(r.schedule.partsPerH.total, 1)],
  ['the length of the cycle', 'schedule', (r) => numberText(r.schedule.periodS, 1)],
  ['good parts a week', 'shifts', (r) => numberText(best(r).partsPerWeek.total)],
  ['good parts a shift', 'shifts', (r) => numberText(best(r).partsPerShift.total, 1)],
  ['what boxes are worth', 'costcase', (r) => numberText(r.costcase.increment.npv)],
])('%s', async (_, command, shown) => {
  const figure = shown(result);
  const alone = await shopJson(command);
  expect(shown({ ...result, [command]: alone })).toBe(figure);
  expect(await said(command, sharedShop, '--full')).toContain(figure);
  for (const file of ['report.html', 'report.md']) expect(text(file), file).toContain(figure);
});

function best(r: Json): Json {
  return r.shifts.patterns.find((p: Json) => p.pattern === r.shifts.best.byContribution);
}

test('the cycle by moves has the times of its acts', () => {
  const acts: Json[] = result.schedule.events;
  const moves: Record<string, string>[] = parse(text('robot-cycle.csv'), { columns: true });
  for (const move of moves) {
    const [first, last] = [acts[Number(move.first_step) - 1]!, acts[Number(move.last_step) - 1]!];
    expect(Number(move.start_s)).toBeCloseTo(first.startS, 3);
    expect(Number(move.end_s)).toBeCloseTo(last.endS, 3);
    expect(move.robot).toContain(last.station);
  }
});

test('the losses of a week lead from the maximum to the good parts', () => {
  const rows: Record<string, string>[] = parse(text('shift-losses.csv'), { columns: true });
  for (const p of result.shifts.patterns) {
    const own = rows.filter((row) => row.pattern === p.pattern);
    const lost = own.reduce((total, row) => total + Number(row.parts_per_week), 0);
    expect(Number(own[0]!.remaining_per_week)).toBeCloseTo(p.ceilingPerWeek.total, 3);
    expect(Number(own.at(-1)!.remaining_per_week)).toBeCloseTo(p.partsPerWeek.total, 3);
    expect(p.ceilingPerWeek.total + lost).toBeCloseTo(p.partsPerWeek.total, 2);
    for (const loss of p.losses)
      expect(Number(own.find((row) => row.cause === loss.cause)!.parts_per_week)).toBeCloseTo(
        -loss.partsPerWeek,
        3,
      );
  }
});

test('the points of each machine are those of `io`', async () => {
  expect(result.points.stations).toEqual((await shopJson('io')).stations);
});
