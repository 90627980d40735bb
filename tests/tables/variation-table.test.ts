/** Rules of variation.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, saidAbout, soundTables } from './sound-tables.js';

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL05 an unknown element',
    [['variation.csv', '*,cycle', '*,cycl']],
    `variation.csv, line 2, column element  error VAL05
  Found \`cycl\`, expected \`cycle\`, \`load\`, \`unload\`, \`travel\`, \`repair\` or \`response\`.
    2 │ *,cycl,lognormal,240,12,
      │   ~~~~
  Fix: Did you mean \`cycle\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL05 an unknown distribution',
    [['variation.csv', 'lognormal', 'normal']],
    `variation.csv, line 2, column distribution  error VAL05
  Found \`normal\`, expected \`constant\`, \`exponential\`, \`gamma\`, \`erlang\`, \`lognormal\`, \`triangular\`, \`pert\`, \`weibull\` or \`readings\`.
    2 │ *,cycle,normal,240,12,
      │         ~~~~~~
  Fix: Did you mean \`lognormal\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL09 an unknown station',
    [['variation.csv', 'mill_1,repair', 'mill_9,repair']],
    `variation.csv, line 3, column station  error VAL09
  Found \`mill_9\`, expected a station of stations.csv.
    3 │ mill_9,repair,readings,4.1|5|7.25,,
      │ ~~~~~~
  Fix: Did you mean \`mill_1\` or \`mill_2\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAR01 an element given twice',
    [['variation.csv', 'mill_1,repair,readings,4.1|5|7.25,,', '*,cycle,constant,4,,']],
    `variation.csv, line 3, column element  error VAR01
  The variation of cycle at \`*\` is already given on line 2.
    3 │ *,cycle,constant,4,,
      │   ~~~~~
  Fix: Keep one of the two rows.

1 error in 1 file. No results.
`,
  ],
  [
    'VAR02 a parameter is missing',
    [['variation.csv', '240,12,', '240,,']],
    `variation.csv, line 2, column b  error VAR02
  Found nothing, expected a standard deviation from 0.0001 to 1000000 of lognormal.
    2 │ *,cycle,lognormal,240,,
      │                       ~
  Fix: Parameters of lognormal: mean, standard deviation (both of the time itself, not of its logarithm).

1 error in 1 file. No results.
`,
  ],
  [
    'VAR02 one reading only',
    [['variation.csv', '4.1|5|7.25', '4.1']],
    `variation.csv, line 3, column a  error VAR02
  Found one reading, \`4.1\`, expected 2 or more.
    3 │ mill_1,repair,readings,4.1,,
      │                        ~~~
  Fix: Set bars between them, such as \`12.1|12.4|11.9\`; for one value write \`constant\`.

1 error in 1 file. No results.
`,
  ],
  [
    'VAR03 a parameter too many',
    [['variation.csv', '240,12,', '240,12,3']],
    `variation.csv, line 2, column c  error VAR03
  Found \`3\`, but lognormal takes only: mean, standard deviation.
    2 │ *,cycle,lognormal,240,12,3
      │                          ~
  Fix: Leave the cell empty, or choose another distribution.

1 error in 1 file. No results.
`,
  ],
  [
    'VAR04 a mean of 0',
    [['variation.csv', '240,12,', '0,12,']],
    `variation.csv, line 2, column a  error VAR04
  Found \`0\`, expected a mean from 0.01 to 1000000.
    2 │ *,cycle,lognormal,0,12,
      │                   ~

1 error in 1 file. No results.
`,
  ],
  [
    'VAR04 stages that are not whole',
    [['variation.csv', 'lognormal,240,12', 'erlang,240,2.5']],
    `variation.csv, line 2, column b  error VAR04
  Found \`2.5\`, expected a whole number of stages from 1 to 1000.
    2 │ *,cycle,erlang,240,2.5,
      │                    ~~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAR04 a reading below 0',
    [['variation.csv', '4.1|5|7.25', '4.1|-5|7.25']],
    `variation.csv, line 3, column a  error VAR04
  Found \`-5\`, expected readings from 0 to 1000000.
    3 │ mill_1,repair,readings,4.1|-5|7.25,,
      │                            ~~

1 error in 1 file. No results.
`,
  ],
  [
    'VAR04 three points out of order',
    [['variation.csv', 'lognormal,240,12,', 'pert,250,240,300']],
    `variation.csv, line 2, column a  error VAR04
  Found low 250, likely 240, high 300, expected low <= likely <= high with low < high.
    2 │ *,cycle,pert,250,240,300
      │              ~~~
  Fix: Column a holds the low value, b the likely one, c the high one.

1 error in 1 file. No results.
`,
  ],
  [
    'VAR05 something that does not happen at a station of this kind',
    [['variation.csv', 'mill_1,repair,readings,4.1|5|7.25,,', 'rack,load,constant,4,,']],
    `variation.csv, line 3, column element  warning VAR05
  Found load at \`rack\`, which a station of kind infeed does not have; it is not used.
    3 │ rack,load,constant,4,,
      │      ~~~~
  Fix: Take the row out, or name the station that it is meant for.

1 warning in 1 file.
`,
  ],
  [
    'VAL02 a reading that is no number',
    [['variation.csv', '4.1|5|7.25', '4.1|five|7.25']],
    `variation.csv, line 3, column a  error VAL02
  Found \`five\`, expected readings from 0 to 1000000.
    3 │ mill_1,repair,readings,4.1|five|7.25,,
      │                            ~~~~

1 error in 1 file. No results.
`,
  ],
];

test('an element of two stations is no repeat', () => {
  expect(saidAbout(['variation.csv', 'mill_1,repair', 'mill_1,cycle'])).toBe('');
});

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

test('what does not happen at a station of a kind is warned of, there alone, and not at all stations together', () => {
  const warned = ['rack', 'done', 'brush', 'gauge', 'mill_1', '*'].map((station) => {
    const rows = ['cycle', 'load', 'unload', 'travel', 'repair', 'response'].map(
      (element) => `${station},${element},constant,4,,`,
    );
    const { complaints } = inspectTables({
      ...soundTables,
      'variation.csv': `station,element,distribution,a,b,c\n${rows.join('\n')}\n`,
    });
    return complaints.map(({ code, excerpt }) => `${code} ${excerpt?.text.split(',', 2)}`);
  });
  expect(warned).toEqual([
    ['VAR05 rack,load', 'VAR05 rack,repair'],
    ['VAR05 done,unload', 'VAR05 done,repair'],
    ['VAR05 brush,repair'],
    [],
    [],
    [],
  ]);
});
