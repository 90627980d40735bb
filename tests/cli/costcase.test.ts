// `costcase` as a user meets it: the document, its options, and what is said where the tables are wrong or too thin.
import { cpSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { quickShop } from '../support/quick-shop.js';
import { deepTest } from '../support/size.js';
import { freshFolder, run, runIn } from './run-in.js';

const cwd = freshFolder();
const shop = quickShop(join(cwd, 'shop'));
const words = (text: string) => text.replace(/\s+/g, ' ');

/** Few trials: what is tested here does not hang on their number. */
const costcase = ['costcase', shop, '--trials', '200'];

describe('--out', () => {
  test('writes the document twice, with the list of what is written, and says where', async () => {
    const said = await runIn(cwd, [...costcase, '--out', 'case']);
    expect(said.exit).toBe(0);
    expect(said.err).toBe('');
    expect(said.out).toContain('Written: case/cost-case.html, case/cost-case.md, case/cost-case.xlsx.');
    expect(readdirSync(join(cwd, 'case')).sort()).toEqual([
      'cost-case.html',
      'cost-case.md',
      'cost-case.xlsx',
      'written-by-roundsman.json',
    ]);
    expect(readFileSync(join(cwd, 'case/cost-case.md'), 'utf8')).toMatch(
      /over 5 years this is worth €[\d,]+ more than moving the harness/,
    );
  });

  deepTest('the same tables give the same files', async () => {
    await runIn(cwd, [...costcase, '--out', 'again']);
    for (const name of ['cost-case.html', 'cost-case.md', 'cost-case.xlsx'])
      expect(readFileSync(join(cwd, 'again', name), 'latin1')).toBe(
        readFileSync(join(cwd, 'case', name), 'latin1'),
      );
  });

  test('--locale writes numbers and money the way of a country; --json names the files', async () => {
    const args = [...costcase, '--out', 'de', '--locale', 'de-DE', '--json'];
    const said = await runIn(cwd, [...args, '--set', 'costs.tax_pct.value=30']);
    expect(said.exit).toBe(0);
    expect(JSON.parse(said.out).written).toEqual([
      'de/cost-case.html',
      'de/cost-case.md',
      'de/cost-case.xlsx',
    ]);
    const text = readFileSync(join(cwd, 'de/cost-case.md'), 'utf8');
    expect(text).toMatch(/\d\.\d{3}\u00A0€ more than moving the harness/);
    expect(text).toContain('Cash flow by year after tax (EUR)');
    expect(text).toContain('tax\\_pct');
    expect(text).toContain('command line');
  });

  test('a folder that cannot be written is told in a sentence', async () => {
    writeFileSync(join(cwd, 'a-file'), 'x');
    const said = await runIn(cwd, [...costcase, '--out', 'a-file']);
    expect(said.exit).toBe(1);
    expect(said.out).toBe('');
    expect(said.err).toMatch(/a-file.*cannot be written: /);
  });
});

test('--correlate: two items move together in the trials, and the answer and the document say so', async () => {
  const args = [...costcase, '--full', '--correlate', 'box_price,cable_set_price=0.6', '--out', 'tied'];
  const said = await runIn(cwd, args);
  expect(words(said.out)).toContain(
    'rank correlations price of one box and cables for one box 0.6, all others independent',
  );
  expect(readFileSync(join(cwd, 'tied/cost-case.md'), 'utf8')).toContain(
    'rank correlations price of one box and cables for one box 0.6, all others independent',
  );
});

describe('wrong use', () => {
  test.each([
    [
      ['--correlate', 'box_prise,cable_set_price=0.6'],
      '`--correlate`: box_prise is not drawn in the risk trials: only an item with a low and a high can move together with another. Did you mean `box_price`?\n',
    ],
    [
      ['--correlate', 'box_price=2'],
      'For the option `--correlate`: found `box_price=2`, expected two items and a number from -1 to 1, such as `box_price,cable_set_price=0.6`.\nOptions: `roundsman costcase --help`\n',
    ],
    [
      ['--locale', 'de_DE', '--out', 'x'],
      'For the option `--locale`: found `de_DE`, expected a language tag that is known here, such as `en`, `de-DE` or `fr-CH` (did you mean `de-DE`?).\nOptions: `roundsman costcase --help`\n',
    ],
    [
      ['--changeovers', '-3'],
      'For the option `--changeovers`: found `-3`, expected changeovers from 0 to 10000000.\nOptions: `roundsman costcase --help`\n',
    ],
  ])('%j', async (more, text) => {
    expect(await run(['costcase', shop, ...more])).toEqual({ exit: 2, out: '', err: text });
  });
});

describe('wrong values: the place, what is allowed, nothing computed', () => {
  test.each([
    ['discount_pct.value=-100', 'For discount_pct found `-100`, expected per cent a year from -90 to 1000.'],
    ['horizon_years.value=0', 'For horizon_years found `0`, expected a whole number of years from 1 to 100.'],
    ['box_price.value=-5', 'For box_price found `-5`, expected money, 0 or more.'],
    ['box_price.low=3000', 'Found low 3000 above high 1100 for box_price. Fix: Exchange the two.'],
  ])('%s', async (set, text) => {
    const said = await run(['costcase', shop, '--set', `costs.${set}`]);
    expect(said.exit).toBe(1);
    expect(said.out).toBe('');
    expect(words(said.err).replace(/ │ \S+ │ ~+/, '')).toContain(text);
    expect(said.err).toMatch(/1 error in 1 file\. No results\.\n$/);
  });
});

describe('too little to say is an answer', () => {
  test('everything that is missing, at once, with what it is needed for; no document', async () => {
    const folder = join(cwd, 'bare');
    cpSync(shop, folder, { recursive: true });
    writeFileSync(join(folder, 'costs.csv'), 'item,value\nbox_price,100\n');
    rmSync(join(folder, 'changeovers.csv'));
    const said = await runIn(cwd, ['costcase', 'bare', '--out', 'none']);
    expect(said.exit).toBe(0);
    expect(said.out.split('\nMore: ')[0]).toBe(
      `Too little data to say; no results. Missing:
- labour_per_h in costs.csv: needed for the cost of a minute, the saving of
  every machine, the cash flows
- box_inputs in costs.csv: needed for the number of boxes
- box_outputs in costs.csv: needed for the number of boxes
- box_amps in costs.csv: needed for the number of boxes
- harness_connectors in costs.csv: needed for the minutes of moving the harness,
  the saving of every machine
- harness_min_per_connector in costs.csv: needed for the minutes of moving the
  harness, the saving of every machine
- horizon_years in costs.csv: needed for the cash flows, the break-even number
  of changeovers
- discount_pct in costs.csv: needed for the net present value, the discounted
  payback, the break-even number of changeovers
- changeovers.csv: needed for the number of changeovers of each machine, every
  saving
No document was written, since there is no case to show.`,
    );
    expect(existsSync(join(cwd, 'none'))).toBe(false);
  });

  test('a budget under the cheapest box: buy none, and why', async () => {
    const said = await run([...costcase, '--set', 'costs.budget.value=100']);
    expect(said.exit).toBe(0);
    expect(words(said.out)).toContain('no box within the budget earns what it costs');
    expect(words(said.out)).toContain(
      'The budget of 100 EUR buys no box that pays. The first that does is on mill_2 and takes 1,103 EUR with its installation.',
    );
  });

  test('no changeovers: do nothing, and no claim about breaking even', async () => {
    const said = await run([...costcase, '--changeovers', '0']);
    expect(said.exit).toBe(0);
    expect(words(said.out)).toMatch(/^Do nothing: no changeovers are planned, so a box saves no minute/);
    expect(said.out).not.toContain('break even');
  });

  test('--changeovers takes another count in the same proportions', async () => {
    const said = await run(['costcase', shop, '--changeovers', '640', '--json', '--trials', '50']);
    const { plannedChangeovers, byStation } = JSON.parse(said.out);
    expect(plannedChangeovers).toBeCloseTo(640, 9);
    expect(byStation.map((s: { changeoversPerYear: number }) => s.changeoversPerYear)).toEqual([80, 48]);
  });
});
