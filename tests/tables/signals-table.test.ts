/** Rules of signals.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'SIG01 a signal listed twice',
    [['signals.csv', '0.5,no\n', '0.5,no\nmill_1,door open,out,,,,,,,\n']],
    `signals.csv, line 3, column signal  error SIG01
  The signal \`door open\` of \`mill_1\` is already given on line 2.
    3 │ mill_1,door open,out,,,,,,,
      │        ~~~~~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 an unknown direction',
    [['signals.csv', ',in,', ',inn,']],
    `signals.csv, line 2, column direction  error VAL05
  Found \`inn\`, expected \`in\` or \`out\`.
    2 │ mill_1,door open,inn,digital,24,8,open,12,0.5,no
      │                  ~~~
  Fix: Did you mean \`in\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 an unknown kind',
    [['signals.csv', 'digital', 'digitl']],
    `signals.csv, line 2, column kind  error VAL05
  Found \`digitl\`, expected \`digital\` or \`analog\`.
    2 │ mill_1,door open,in,digitl,24,8,open,12,0.5,no
      │                     ~~~~~~
  Fix: Did you mean \`digital\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 an unknown state at rest',
    [['signals.csv', ',open,', ',opened,']],
    `signals.csv, line 2, column normally  error VAL05
  Found \`opened\`, expected \`open\` or \`closed\`.
    2 │ mill_1,door open,in,digital,24,8,opened,12,0.5,no
      │                                  ~~~~~~
  Fix: Did you mean \`open\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL03 a cable without copper',
    [['signals.csv', '12,0.5', '12,0']],
    `signals.csv, line 2, column cable_mm2  error VAL03
  Found \`0\`, expected square millimetres above 0.
    2 │ mill_1,door open,in,digital,24,8,open,12,0,no
      │                                          ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAL09 an unknown station',
    [['signals.csv', 'mill_1,', 'mil_1,']],
    `signals.csv, line 2, column station  error VAL09
  Found \`mil_1\`, expected a station of stations.csv.
    2 │ mil_1,door open,in,digital,24,8,open,12,0.5,no
      │ ~~~~~
  Fix: Did you mean \`mill_1\`?

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

test('a signal has what its row says; two machines may have one of the same name', () => {
  const { cell, complaints } = inspectTables(
    changedTables([
      [
        'signals.csv',
        'mill_1,door open,in',
        'mill_2,door open,out,digital,24,8,open,3,1.5,yes\nmill_1,door open,in',
      ],
    ]),
  );
  expect(complaints).toEqual([]);
  const [first, second] = cell!.signals;
  expect(first).toEqual({
    station: 'mill_2',
    signal: 'door open',
    direction: 'out',
    kind: 'digital',
    volts: 24,
    milliamps: 8,
    normally: 'open',
    cableM: 3,
    cableMm2: 1.5,
    safety: true,
    at: expect.anything(),
  });
  expect(second).toMatchObject({
    station: 'mill_1',
    direction: 'in',
    cableM: 12,
    cableMm2: 0.5,
    safety: false,
  });
});
