// The studies of several cells, and sizes by figures: what the map gives is what the command prints, and the report shows.
import { writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, test } from 'vitest';
import { identicalCell } from '../../src/core/size/identical-machines.js';
import { cellsStudies } from '../../src/core/studies/cells-studies.js';
import { runStudy, studies } from '../../src/core/studies/studies.js';
import { readCellFolder } from '../../src/files/read-cell-folder.js';
import { highsSolver } from '../../src/solver/highs-solver.js';
import { freshFolder } from '../cli/run-in.js';
import { quickShop } from '../support/quick-shop.js';
import { isDeep } from '../support/size.js';
import { type Json, jsonOf } from './json-of.js';

const cwd = freshFolder();
const context = { mixedSolver: highsSolver };
const shop = quickShop(join(cwd, 'shop'));
const slower = quickShop(join(cwd, 'slower'));
writeFileSync(join(slower, 'robot.csv'), 'setting,value\nhands,1\ntravel_s,4\ncost_per_h,5\n');
const terms = 'item,value\nhorizon_years,4\ndiscount_pct,6\ninvest_price,5000\n';
for (const folder of [shop, slower]) writeFileSync(join(folder, 'costs.csv'), terms);

const named = async (): Promise<{ name: string; cell: Json }[]> =>
  Promise.all(
    [shop, slower].map(async (folder) => ({
      name: basename(folder),
      cell: (await readCellFolder(folder, [])).cell!,
    })),
  );

/** Without what every result has around it, and without times that the work took. */
async function fieldsOf(...words: readonly string[]): Promise<Json> {
  const { program, version, command, inputs, assumptions, warnings, cautions, ...fields } = await jsonOf(
    ...[cwd, ...words],
  );
  return plain(fields);
}

const plain = (value: Json): Json =>
  JSON.parse(JSON.stringify(value), (key, v) => (/^(seconds|eventsPerSecond)$/.test(key) ? 0 : v));

test('compare', async () => {
  const variants = (await named()).map((one) => ({ ...one, dispatch: 'best' as const }));
  const few = { replications: 2, hours: 8 };
  const found = plain(cellsStudies.compare.fields(await cellsStudies.compare.run(variants, few, context)));
  const words = ['--replications', '2', '--hours', '8', '--workers', '1'];
  const { changes, ...printed } = await fieldsOf('compare', shop, slower, ...words);
  expect(printed).toEqual(found);
  expect(changes).toHaveLength(1);
});

test.runIf(isDeep)('compare: the report shows what the command prints', async () => {
  const report = await fieldsOf('report', shop, slower, '--out', 'out', '--workers', '1');
  expect(report.compare).toEqual(await fieldsOf('compare', shop, slower, '--workers', '1'));
});

test('invest: each cell under the program that `shifts` takes', async () => {
  const variants = (await named()).map((one) => ({ ...one, pattern: 'day' }));
  const found = await cellsStudies.invest.run(variants, { replications: 2 }, context);
  const words = ['--replications', '2', '--workers', '1'];
  const printed = await fieldsOf('invest', shop, slower, ...words);
  expect(printed).toMatchObject(plain(cellsStudies.invest.fields(found)));
  const programs = await Promise.all(
    [shop, slower].map(async (folder) => (await fieldsOf('shifts', folder)).patterns[0].program),
  );
  expect(printed.programs).toEqual(programs);
});

test('size by figures', async () => {
  const figures = { cycleS: 90, loadS: 8, unloadS: 7, travelS: 3 };
  const inputs = { cell: identicalCell(figures, 3), schedule: null };
  const asked = { figures: { ...figures, hands: 1 as const }, maxMachines: 3 };
  const study = await runStudy('size', inputs, asked, context);
  const words = '--cycle 90 --load 8 --unload 7 --travel 3 --max 3'.split(' ');
  const printed = await fieldsOf('size', ...words);
  expect(printed).toEqual(plain(studies.size.fields(study)));
  expect(printed.rows.map((row: Json) => row.machines)).toEqual([1, 2, 3]);
});
