// A figure is one figure: in `--json`, in the terminal, on the page, in Markdown, in the CSV files and in the workbook.
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, test } from 'vitest';
import { numberText } from '../../src/render/numbers.js';
import { readGrids } from '../../src/workbook/read-grids.js';
import { data, freshFolder, run } from '../cli/run-in.js';
import { sharedShop, shopJson, shopReport } from '../support/shop-answers.js';
import { atSize } from '../support/size.js';
import { folders } from './folders.js';
import { type Json, jsonOf } from './json-of.js';

const cwd = freshFolder();
const said = async (...words: string[]): Promise<string> => (await run(words)).out.replace(/\s+/g, ' ');

function best(r: Json): Json {
  return r.shifts.patterns.find((p: Json) => p.pattern === r.shifts.best.byContribution);
}

/** The small cell, and in the larger runs folders of data/, in the long one all of them. */
const cells = [sharedShop, ...atSize([], ['wash-line', 'starter'], folders).map(data)];

describe.each(cells.map((cell) => [basename(cell), cell]))('%s', (name, cell) => {
  let folder: string;
  const text = (file: string): string => readFileSync(join(folder, file), 'utf8');
  let result: Json;
  /** The small cell has every table; a folder that lacks one is left out of what rests on it. */
  const has = (question: string): boolean => cell === sharedShop || Boolean(result[question]);
  const alone = (command: string): Promise<Json> =>
    cell === sharedShop ? shopJson(command) : jsonOf(cwd, command, cell);

  beforeAll(async () => {
    if (cell === sharedShop) ({ result, folder } = await shopReport());
    else {
      folder = join(cwd, name);
      result = await jsonOf(cwd, 'report', cell, '--out', name, '--workers', '1');
    }
  });

  test('every CSV file is a sheet of the workbook with the same cells', async () => {
    const bytes = readFileSync(join(folder, 'report.xlsx'));
    const { grids } = await readGrids(bytes, 'xlsx', () => true);
    const files = readdirSync(folder).filter((file) => file.endsWith('.csv'));
    expect(files.length).toBeGreaterThan(has('costcase') ? 10 : 3);
    for (const file of files) {
      const grid = grids.find((g: { name: string }) => `${g.name}.csv` === file);
      expect(grid, file).toBeDefined();
      const rows: string[][] = parse(text(file));
      for (const [r, row] of rows.entries())
        for (const [c, written] of row.entries()) {
          const found = grid!.rows.get(r)?.get(c);
          const shown =
            found === undefined
              ? ''
              : found.kind === 'number'
                ? String(Number(found.value.toFixed(4)) + 0)
                : found.kind === 'text'
                  ? found.text
                  : found.kind;
          expect(shown, `${file}, row ${r}, column ${c}`).toBe(written);
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
    if (!has(command)) return;
    const figure = shown(result);
    expect(shown({ ...result, [command]: await alone(command) })).toBe(figure);
    expect(await said(command, cell, '--full')).toContain(figure);
    for (const file of ['report.html', 'report.md']) expect(text(file), file).toContain(figure);
  });

  test('the cycle by moves has the times of its acts', () => {
    const { order, events, holds } = result.schedule;
    const rest: Record<string, Json[]> = { event: [...events], hold: [...holds] };
    const acts: Json[] = order.map((of: Json) => ({
      ...of,
      ...rest[of.action === 'hold' ? 'hold' : 'event']!.shift(),
    }));
    expect(Object.values(rest).flat()).toEqual([]);
    const moves: Record<string, string>[] = parse(text('robot-cycle.csv'), { columns: true });
    for (const move of moves) {
      const [first, last] = [acts[Number(move.first_step) - 1]!, acts[Number(move.last_step) - 1]!];
      expect(Number(move.start_s)).toBeCloseTo(first.startS, 3);
      expect(Number(move.end_s)).toBeCloseTo(last.endS, 3);
      expect(move.robot).toContain(last.station);
    }
  });

  test('the losses of a week lead from the maximum to the good parts', () => {
    if (!has('shifts')) return;
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
    if (!has('points')) return;
    expect(result.points.stations).toEqual((await alone('io')).stations);
  });
});
