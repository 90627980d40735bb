/** Rules of costs.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { costItems } from '../../src/core/model/cost-items.js';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'COS01 an unknown item near a known one',
    [['costs.csv', 'box_price,900', 'box_prize,900']],
    `costs.csv, line 3, column item  error COS01
  Found \`box_prize\`, expected a known cost item.
    3 │ box_prize,900,800,1100,money,quotation
      │ ~~~~~~~~~
  Fix: Did you mean \`box_price\`?

1 error in 1 file. No results.
`,
  ],
  [
    'COS01 an unknown item near none',
    [['costs.csv', 'box_price,900', 'windows,900']],
    `costs.csv, line 3, column item  error COS01
  Found \`windows\`, expected a known cost item.
    3 │ windows,900,800,1100,money,quotation
      │ ~~~~~~~
  Fix: Known items: labour_per_h, box_price, box_inputs, box_outputs, box_amps, box_mount_h, box_wire_min_per_signal, box_upkeep_per_year, box_salvage, cable_set_price and ${costItems.length - 10} more.

1 error in 1 file. No results.
`,
  ],
  [
    'COS02 an item listed twice',
    [['costs.csv', 'depreciation,none,,,,', 'labour_per_h,40,,,,']],
    `costs.csv, line 4, column item  error COS02
  The item \`labour_per_h\` is already given on line 2.
    4 │ labour_per_h,40,,,,
      │ ~~~~~~~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'COS03 a range of an item that is no number',
    [['costs.csv', 'none,,', 'none,1,']],
    `costs.csv, line 4, column low  error COS03
  Found \`1\`, but depreciation is not a number that varies.
    4 │ depreciation,none,1,,,
      │                   ~
  Fix: Leave low and high empty.

1 error in 1 file. No results.
`,
  ],
  [
    'COS04 low above high',
    [['costs.csv', '800,1100', '1100,800']],
    `costs.csv, line 3, column low  error COS04
  Found low 1100 above high 800 for box_price.
    3 │ box_price,900,1100,800,money,quotation
      │               ~~~~
  Fix: Exchange the two.

1 error in 1 file. No results.
`,
  ],
  [
    'COS05 a value outside its range',
    [['costs.csv', '900,800,1100', '700,800,1100']],
    `costs.csv, line 3, column value  error COS05
  Found 700 outside its own range from 800 to 1100 for box_price.
    3 │ box_price,700,800,1100,money,quotation
      │           ~~~
  Fix: The value is the most likely one: correct whichever of the three is mistyped.

1 error in 1 file. No results.
`,
  ],
  [
    'COS07 a percentage typed as a fraction',
    [['costs.csv', 'depreciation,none', 'tax_pct,0.28']],
    `costs.csv, line 4, column value  warning COS07
  Found 0.28 for tax_pct, which is 0.28 per cent.
    4 │ tax_pct,0.28,,,,
      │         ~~~~
  Fix: If 28 per cent is meant, write 28.

1 warning in 1 file.
`,
  ],
  [
    'COS08 a currency that is no code',
    [['costs.csv', 'depreciation,none', 'currency,Euros']],
    `costs.csv, line 4, column value  warning COS08
  Found \`Euros\`, which is no currency code of ISO 4217.
    4 │ currency,Euros,,,,
      │          ~~~~~
  Fix: Write a code such as \`EUR\` or \`USD\`; this name is put behind the amounts.

1 warning in 1 file.
`,
  ],
  [
    'COS09 a salvage above the price',
    [['costs.csv', 'depreciation,none', 'box_salvage,950']],
    `costs.csv, line 4, column value  warning COS09
  Found a salvage of 950 above the price of a box, 900.
    4 │ box_salvage,950,,,,
      │             ~~~
  Fix: A box seldom fetches more than it cost; check both.

1 warning in 1 file.
`,
  ],
  [
    'COS06 price breaks that fall',
    [['costs.csv', '1:900;4:820', '4:900;1:820']],
    `costs.csv, line 5, column value  error COS06
  For box_price_breaks found \`1:820\`, expected price breaks such as \`1:900;4:820\`, with quantities that rise.
    5 │ box_price_breaks,4:900;1:820,,,,
      │                        ~~~~~
  Fix: The quantity after 4 must be larger than it.

1 error in 1 file. No results.
`,
  ],
  [
    'COS06 price breaks without a colon',
    [['costs.csv', '1:900;4:820', '1:900;4-820']],
    `costs.csv, line 5, column value  error COS06
  For box_price_breaks found \`4-820\`, expected price breaks such as \`1:900;4:820\`, with quantities that rise.
    5 │ box_price_breaks,1:900;4-820,,,,
      │                        ~~~~~
  Fix: Each break is a whole number of boxes, a colon and the price of one.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL02 a value that is no number',
    [['costs.csv', 'box_price,900', 'box_price,"about 900"']],
    `costs.csv, line 3, column value  error VAL02
  For box_price found \`about 900\`, expected money, 0 or more.
    3 │ box_price,"about 900",800,1100,money,quotation
      │            ~~~~~~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a discount of -100',
    [['costs.csv', 'depreciation,none', 'discount_pct,-100']],
    `costs.csv, line 4, column value  error VAL03
  For discount_pct found \`-100\`, expected per cent a year from -90 to 1000.
    4 │ discount_pct,-100,,,,
      │              ~~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a chance above 1',
    [['costs.csv', 'depreciation,none', 'fault_chance_box,5']],
    `costs.csv, line 4, column value  error VAL03
  For fault_chance_box found \`5\`, expected chance from 0 to 1.
    4 │ fault_chance_box,5,,,,
      │                  ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a horizon of 0 years',
    [['costs.csv', 'depreciation,none', 'horizon_years,0']],
    `costs.csv, line 4, column value  error VAL03
  For horizon_years found \`0\`, expected a whole number of years from 1 to 100.
    4 │ horizon_years,0,,,,
      │               ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL04 a horizon of half a year',
    [['costs.csv', 'depreciation,none', 'horizon_years,1.5']],
    `costs.csv, line 4, column value  error VAL04
  For horizon_years found \`1.5\`, expected a whole number of years from 1 to 100.
    4 │ horizon_years,1.5,,,,
      │               ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 an unknown depreciation',
    [['costs.csv', 'depreciation,none', 'depreciation,macrs-6']],
    `costs.csv, line 4, column value  error VAL05
  For depreciation found \`macrs-6\`, expected \`none\`, \`straight-line\`, \`macrs-3\`, \`macrs-5\` or \`macrs-7\`.
    4 │ depreciation,macrs-6,,,,
      │              ~~~~~~~
  Fix: Did you mean \`macrs-3\`?

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

const inspect = (rows: readonly string[]) =>
  inspectTables(
    changedTables([['costs.csv', null, `item,value,low,high,unit,source\n${rows.join('\n')}\n`]]),
  );
/** The code and column of each complaint about these rows. */
const about = (...rows: readonly string[]) =>
  inspect(rows).complaints.map(({ code, column }) => `${code} ${column}`);

test('an item has its value, its bounds and its words', () => {
  const rows = ['box_price,900,800,1100,money,quotation', 'box_amps,2,,,,', 'depreciation,macrs-5,,,,law'];
  expect(inspect(rows).cell?.costs).toMatchObject([
    { item: 'box_price', value: 900, low: 800, high: 1100, unit: 'money', source: 'quotation' },
    { item: 'box_amps', value: 2, low: null, high: null, unit: '', source: '' },
    { item: 'depreciation', value: 'macrs-5', low: null, high: null, unit: '', source: 'law' },
  ]);
});

test('a value lies between its bounds, at either end and where one is not given', () => {
  for (const bounds of ['900,900', '900,', ',900', '800,900', '900,1000'])
    expect(about(`box_price,900,${bounds},,`), bounds).toEqual([]);
  expect(about('box_price,900,1000,,,')).toEqual(['COS05 value']);
  expect(about('box_price,900,,800,,')).toEqual(['COS05 value']);
  const texts = (row: string) => inspect([row]).complaints.map(({ text }) => text);
  expect(texts('box_price,900,1000,,,')).toEqual([
    'found 900 outside its own range from 1000 to any for box_price',
  ]);
  expect(texts('box_price,900,,800,,')).toEqual([
    'found 900 outside its own range from any to 800 for box_price',
  ]);
  expect(about('box_price,900,1000,800,,')).toEqual(['COS04 low']);
});

test('each of the three that is wrong is told where it is', () => {
  expect(about('box_price,x,y,z,,')).toEqual(['VAL02 value', 'VAL02 low', 'VAL02 high']);
  expect(about('box_price,900,y,800,,')).toEqual(['COS05 value', 'VAL02 low']);
  expect(about('depreciation,none,1,2,,')).toEqual(['COS03 low', 'COS03 high']);
});

test('a share below one per cent is asked about, of percentages alone', () => {
  expect(about('discount_pct,0.08,,,,')).toEqual(['COS07 value']);
  expect(about('discount_pct,0,,,,', 'tax_pct,1,,,,', 'hurdle_pct,12,,,,', 'box_amps,0.5,,,,')).toEqual([]);
  expect(inspect(['discount_pct,0.07,,,,']).complaints).toMatchObject([
    {
      severity: 'warning',
      text: 'found 0.07 for discount_pct, which is 0.07 per cent',
      help: 'If 7 per cent is meant, write 7.',
    },
  ]);
});

test('a currency is a code of ISO 4217', () => {
  for (const code of ['EUR', 'USD', 'JPY']) expect(about(`currency,${code},,,,`), code).toEqual([]);
  expect(about('currency,Euro,,,,')).toEqual(['COS08 value']);
});

test('a salvage above the price of a box is asked about', () => {
  expect(about('box_price,900,,,,', 'box_salvage,901,,,,')).toEqual(['COS09 value']);
  expect(about('box_salvage,901,,,,', 'box_price,900,,,,')).toEqual(['COS09 value']);
  expect(about('box_price,900,,,,', 'box_salvage,900,,,,')).toEqual([]);
  expect(about('box_salvage,901,,,,')).toEqual([]);
  expect(about('box_price,900,,,,', 'cable_set_price,901,,,,')).toEqual([]);
});

test('an item in other words is read, and named', () => {
  const { cell, readAs } = inspect(['Box-Price,"1,5",,,,']);
  expect(cell?.costs).toMatchObject([{ item: 'box_price', value: 1.5 }]);
  expect(readAs.map(({ column, found, taken }) => [column, found, taken])).toEqual([
    ['item', 'Box-Price', 'box_price'],
    ['value', '1,5', '1.5'],
  ]);
});

test('of a connection its own items are offered', () => {
  expect(inspect(['coupling.price,40,,,,']).cell?.costs).toMatchObject([
    { item: 'coupling.price', value: 40 },
  ]);
  const help = (item: string) => inspect([`${item},40,,,,`]).complaints.map((one) => one.help);
  expect(help('coupling.once_prize')).toEqual(['Did you mean `coupling.once_price`?']);
  expect(help('a.b.once_prize')).toEqual(['Did you mean `a.b.once_price`?']);
  expect(help('coupling.xxxxxxxxxxxxxxxxxxxxxxx')[0]).toMatch(
    /^Known items: coupling\.price, coupling\.once_price, /,
  );
});

test('between semicolons a comma is a decimal one, between commas it is asked about', () => {
  const semicolons = 'item;value;low;high;unit;source\nbox_price;1,250;;;;\n';
  const { cell } = inspectTables(changedTables([['costs.csv', null, semicolons]]));
  expect(cell?.costs).toMatchObject([{ item: 'box_price', value: 1.25 }]);
  expect(about('box_price,"1,250",,,,')).toEqual(['VAL02 value']);
});
