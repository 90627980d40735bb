// `invest` as a user meets it: cells of one shop as investments, and what is said where something is missing.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { marks } from '../render/charts/drawings.js';
import { freshFolder, runIn } from './run-in.js';

const cwd = freshFolder();
const TABLES = {
  'stations.csv': 'station,kind\nin,infeed\nm1,machine\nout,outfeed\n',
  // Long times: a week of few parts.
  'routes.csv': 'part,step,stations,cycle_s,load_s,unload_s\na,1,in,,,20\na,2,m1,240,32,32\na,3,out,,20,\n',
  'robot.csv': 'setting,value\nhands,1\nindex_s,8\ntravel_s,24\n',
  'parts.csv': 'part,contribution\na,1.5\n',
  'shifts.csv':
    'pattern,shift,days,start,end,attended,operators,labour_per_h\nday,early,Mon-Fri,06:00,14:00,yes,1,30\n',
  'variation.csv': 'station,element,distribution,a,b,c\nm1,cycle,triangular,220,240,280\n',
};
const TERMS = 'item,value\nhorizon_years,5\ndiscount_pct,8\ncurrency,EUR\n';

function folder(name: string, changed: Readonly<Record<string, string>>): string {
  mkdirSync(join(cwd, name));
  for (const [file, text] of Object.entries({ ...TABLES, 'costs.csv': TERMS, ...changed }))
    writeFileSync(join(cwd, name, file), text);
  return name;
}
const now = folder('now', {});
const dual = folder('dual', {
  'robot.csv': 'setting,value\nhands,2\nindex_s,8\ntravel_s,24\n',
  'costs.csv': `${TERMS}invest_price,6000\ninvest_life_years,5\ninvest_yearly_cost,200\n`,
});
// A person: two hands, walking, a break in which the cell stops, and the wage of a second worker.
const person = folder('person', {
  'robot.csv': 'setting,value\nhands,2\nindex_s,4\ntravel_s,12\n',
  'shifts.csv':
    'pattern,shift,days,start,end,breaks,breaks_stop,attended,operators,labour_per_h\nday,early,Mon-Fri,06:00,14:00,09:00-09:30,yes,yes,2,30\n',
  'costs.csv': `${TERMS}invest_price,0\n`,
});

test('one line a cell, the money of the cost case’s own finance, and what is worth most', async () => {
  const said = await runIn(cwd, ['invest', now, dual, person, '--replications', '2', '--json']);
  expect(said.err).toBe('');
  const result = JSON.parse(said.out);
  expect(result.cells.map((cell: { name: string }) => cell.name)).toEqual([now, dual, person]);
  const [first, second, third] = result.cells;
  expect(second.partsPerWeek).toBeGreaterThan(first.partsPerWeek * 1.05);
  // One part of 1.50 each, one operator at 30 for 40 hours.
  expect(first.moneyPerWeek).toBeCloseTo(first.partsPerWeek * 1.5 - 40 * 30, 6);
  const yearly = 52 * (second.moneyPerWeek - first.moneyPerWeek) - 200;
  const npv = [1, 2, 3, 4, 5].reduce((sum, year) => sum + yearly / 1.08 ** year, -6000);
  expect(second.increment.npv).toBeCloseTo(npv, 4);
  expect(second.npvLow).toBeLessThanOrEqual(second.increment.npv + 1e-9);
  expect(second.npvHigh).toBeGreaterThanOrEqual(second.increment.npv - 1e-9);
  expect(third.moneyPerWeek).toBeLessThan(first.moneyPerWeek);
  expect(result.best).toBe(npv > 0 ? dual : now);
  const text = await runIn(cwd, ['invest', now, dual, '--replications', '1']);
  expect(text.out).toMatch(/dual +[\d,]+ +[-\d,]+ +6,000/);
});

test('`--out` writes a page of its own: the answer, a bar with its interval for each cell but the first, the flows', async () => {
  const said = await runIn(cwd, ['invest', now, dual, person, '--replications', '4', '--out', 'bought']);
  expect(said.out.replace(/\s+/g, ' ')).toContain(join('bought', 'invest.html'));
  const page = readFileSync(join(cwd, 'bought', 'invest.html'), 'utf8');
  expect(page).toMatch(new RegExp(`class="lead">(Keep ${now}|${dual} is worth most)`));
  const wide = /<svg[^>]*class="wide"[\s\S]*?<\/svg>/.exec(page)![0];
  expect(marks(wide, 'work')).toHaveLength(2);
  for (const name of [dual, person]) expect(wide).toContain(`>${name}<`);
  expect(page).toContain('Cash flow by year');
});

test('each cell in its own hours; what nothing can stop and a demand that grows with the shifts are said', async () => {
  const rows = (shifts: string) => `pattern,shift,days,start,end,attended,operators,labour_per_h\n${shifts}`;
  const alone =
    'with night,early,Mon-Fri,06:00,14:00,yes,1,30\nwith night,night,Mon-Fri,22:00,06:00,no,0,0\n';
  const asked = { 'parts.csv': 'part,contribution,per_shift\na,1.5,900\n' };
  const night = folder('night', {
    ...asked,
    'shifts.csv': rows(alone),
    'costs.csv': `${TERMS}invest_price,3000\n`,
  });
  const said = await runIn(cwd, ['invest', folder('day', asked), night, '--replications', '3', '--json']);
  const { cells, warnings } = JSON.parse(said.out);
  // Twice the hours and nobody more to pay: the interval is that of the weeks, not of a shift.
  expect(cells[1].partsPerWeek / cells[0].partsPerWeek).toBeCloseTo(2, 1);
  expect(cells[1].moneyPerWeek - cells[0].moneyPerWeek).toBeCloseTo(
    1.5 * (cells[1].partsPerWeek - cells[0].partsPerWeek),
    6,
  );
  expect(cells[1].npvHigh).toBeGreaterThan(cells[1].npvLow);
  expect(warnings.join(' ')).toContain('night: it runs 40 h a week unattended, and no table says');
  expect(warnings.join(' ')).toContain('night: 9000 a week of a are asked for, 4500 in day');
});

test('what is missing is said, all of it', async () => {
  const bare = folder('bare', { 'costs.csv': 'item,value\n', 'parts.csv': 'part,yield_pct\na,100\n' });
  const said = await runIn(cwd, ['invest', bare, folder('unpriced', {})]);
  expect(said.exit).toBe(0);
  const words = said.out.replace(/\s+/g, ' ');
  for (const what of [
    'horizon_years in bare',
    'discount_pct in bare',
    'contribution in bare',
    'invest_price in unpriced',
  ])
    expect(words).toContain(what);
  expect((await runIn(cwd, ['invest', now])).exit).toBe(2);
});
