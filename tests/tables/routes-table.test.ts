/** Rules of routes.csv. Each rule is broken once, and the whole printed text is held against what it should be. */
import { expect, test } from 'vitest';
import { inspectTables } from '../../src/tables/inspect-tables.js';
import { type Change, changedTables, saidAbout } from './sound-tables.js';

const noOtherTables: readonly Change[] = [
  ['travel.csv', null],
  ['variation.csv', null],
  ['stops.csv', null],
  ['changeovers.csv', null],
  ['setups.csv', null],
  ['signals.csv', null],
];

/** Eight steps, each with three machines that may make it: 3^8 paths. */
const turns = Array.from({ length: 8 }, (_, i) => `cap,${i + 2},mill_1|mill_2|mill_3`).join('\n');
const turningCell: readonly Change[] = [
  ['routes.csv', null, `part,step,stations\ncap,1,rack\n${turns}\ncap,10,done\n`],
  [
    'stations.csv',
    null,
    'station,kind\nrack,infeed\nmill_1,machine\nmill_2,machine\nmill_3,machine\ndone,outfeed\n',
  ],
  ['robot.csv', null, 'setting,value\ntravel_s,2\n'],
  ...noOtherTables,
];

const cases: readonly (readonly [rule: string, changes: readonly Change[], said: string])[] = [
  [
    'VAL09 an unknown station near a known one',
    [['routes.csv', 'mill_1|mill_2', 'mill_1|mil_2']],
    `routes.csv, line 3, column stations  error VAL09
  Found \`mil_2\`, expected a station of stations.csv.
    3 │ cap,2,mill_1|mil_2,240,12,10,,,
      │              ~~~~~
  Fix: Did you mean \`mill_2\`?

1 error in 1 file. No results.
`,
  ],
  [
    'ROU15 alternatives that work differently',
    [['routes.csv', 'mill_1|mill_2', 'mill_1|gauge']],
    `routes.csv, line 3, column stations  warning ROU15
  \`gauge\` is a bench and \`mill_1\` a machine; both are taken with the same cycle_s, load_s and unload_s.
    3 │ cap,2,mill_1|gauge,240,12,10,,,
      │              ~~~~~
  Fix: If their times differ, give each its own part or step.

stations.csv, line 4, column station  warning STA04
  No route visits \`mill_2\`.
    4 │ mill_2,machine,2,0,,2,3,12,,
      │ ~~~~~~
  Fix: Name it in a step of routes.csv, or take the row out.

2 warnings in 2 files.
`,
  ],
  [
    'ROU17 more paths through the cell than are searched',
    [
      ...turningCell,
      ['routes.csv', 'cap,1,rack', 'lid,1,rack\nlid,2,mill_1|mill_2\nlid,3,done\ncap,1,rack'],
      ['routes.csv', 'cap,10,done', 'cap,10,done\nrod,1,rack\nrod,2,mill_1\nrod,3,done'],
    ],
    `routes.csv, line 6, column stations  warning ROU17
  The alternatives give 6564 paths through the cell, 6561 of them for \`cap\`; up to 4000 are searched one by one.
    6 │ cap,2,mill_1|mill_2|mill_3
      │       ~~~~~~~~~~~~~~~~~~~~
  Fix: \`schedule\` then compares only what the dispatch rules and runs of the cell make, takes long and proves little: name fewer stations in a step, or enter machines that are alike as one station with a capacity.

1 warning in 1 file.
`,
  ],
  [
    'ROU16 a part without any time',
    [
      ['routes.csv', null, 'part,step,stations\ncap,1,rack\ncap,2,gauge\ncap,3,done\n'],
      ['stations.csv', null, 'station,kind\nrack,infeed\nmill_1,machine\ngauge,bench\ndone,outfeed\n'],
      ['robot.csv', null, 'setting,value\ntravel_s,0\n'],
      ...noOtherTables,
    ],
    `routes.csv, line 2, column part  error ROU16
  \`cap\` takes no time at all: every cycle, load, unload and trip of it is 0.
    2 │ cap,1,rack
      │ ~~~
  Fix: Give at least one of its times; an estimate will do.

stations.csv, line 3, column station  warning STA04
  No route visits \`mill_1\`.
    3 │ mill_1,machine
      │ ~~~~~~
  Fix: Name it in a step of routes.csv, or take the row out.

1 error and 1 warning in 2 files. No results.
`,
  ],
  [
    'VAL09 an unknown station in another case',
    [['routes.csv', '3,brush', '3,Brush']],
    `routes.csv, line 4, column stations  error VAL09
  Found \`Brush\`, expected a station of stations.csv.
    4 │ cap,3,Brush,15,,,,,
      │       ~~~~~
  Fix: Did you mean \`brush\`?

1 error in 1 file. No results.
`,
  ],
  [
    'VAL09 an unknown station near none',
    [['routes.csv', '3,brush', '3,lathe']],
    `routes.csv, line 4, column stations  error VAL09
  Found \`lathe\`, expected a station of stations.csv.
    4 │ cap,3,lathe,15,,,,,
      │       ~~~~~
  Fix: Known stations: rack, mill_1, mill_2, gauge, brush, done.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU01 a step that falls',
    [['routes.csv', 'cap,4,gauge', 'cap,2.5,gauge']],
    `routes.csv, line 5, column step  error ROU01
  Found step 2.5 after step 3 of \`cap\`, expected steps that rise.
    5 │ cap,2.5,gauge,20,4,4,60,,5
      │     ~~~
  Fix: Set the rows of a part in the order in which it passes them.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU02 the first step is not at an infeed',
    [['routes.csv', 'cap,1,rack,,,4,,,\n', '']],
    `routes.csv, line 2, column stations  error ROU02
  The first step of \`cap\` is at \`mill_1|mill_2\` of kind machine, expected an infeed.
    2 │ cap,2,mill_1|mill_2,240,12,10,,,
      │       ~~~~~~~~~~~~~
  Fix: Add the step at the infeed, where the robot picks the part up.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU03 the last step is not at an outfeed',
    [['routes.csv', 'cap,5,done,,4,,,,\n', '']],
    `routes.csv, line 5, column stations  error ROU03
  The last step of \`cap\` is at \`gauge\` of kind bench, expected an outfeed.
    5 │ cap,4,gauge,20,4,4,60,,5
      │       ~~~~~
  Fix: Add the step at the outfeed, where the robot sets the part down.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU04 an infeed in the middle',
    [['routes.csv', 'cap,4,gauge,20,4,4,60,,5', 'cap,4,rack,,,4,,,']],
    `routes.csv, line 5, column stations  error ROU04
  Found the infeed \`rack\` between the first and the last step of \`cap\`.
    5 │ cap,4,rack,,,4,,,
      │       ~~~~
  Fix: An infeed is the first step, an outfeed the last; set a part down in between at a buffer or a bench.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU04 an outfeed in the middle',
    [['routes.csv', 'cap,4,gauge,20,4,4,60,,5', 'cap,4,done,,4,,,,']],
    `routes.csv, line 5, column stations  error ROU04
  Found the outfeed \`done\` between the first and the last step of \`cap\`.
    5 │ cap,4,done,,4,,,,
      │       ~~~~
  Fix: An infeed is the first step, an outfeed the last; set a part down in between at a buffer or a bench.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU05 alternatives of unlike kinds',
    [['routes.csv', 'mill_1|mill_2', 'mill_1|brush']],
    `routes.csv, line 3, column stations  error ROU05
  \`brush\` is a station of kind held and \`mill_1\` one of kind machine, expected alternatives of one kind.
    3 │ cap,2,mill_1|brush,240,12,10,,,
      │              ~~~~~
  Fix: Infeeds, outfeeds and held stations replace only their own kind; machines, benches and buffers for one another.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU06 an alternative named twice',
    [['routes.csv', 'mill_1|mill_2', 'mill_1|mill_1']],
    `routes.csv, line 3, column stations  error ROU06
  \`mill_1\` is named twice in one step.
    3 │ cap,2,mill_1|mill_1,240,12,10,,,
      │              ~~~~~~
  Fix: Name each alternative once.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU07 a station too small for the parts of one cycle',
    [
      ['stations.csv', 'mill_1,machine,1,0,', 'mill_1,machine,1,0,2'],
      ['routes.csv', '240,12,10,,', '240,12,10,,4'],
    ],
    `routes.csv, line 3, column parts_per_cycle  error ROU07
  Found 4 parts per cycle, but \`mill_1\` holds 2.
    3 │ cap,2,mill_1|mill_2,240,12,10,,4,
      │                                ~
  Fix: Raise its capacity in stations.csv, or load fewer parts before the machine starts.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU08 a part with one step',
    [['routes.csv', 'cap,5,done,,4,,,,\n', 'cap,5,done,,4,,,,\npin,1,rack,,,,,,\n']],
    `routes.csv, line 7, column step  error ROU08
  \`pin\` has one step, expected at least two.
    7 │ pin,1,rack,,,,,,
      │     ~
  Fix: A route leads from an infeed to an outfeed.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU09 a time to place at an infeed, to pick at an outfeed',
    [
      ['routes.csv', 'rack,,,4', 'rack,,6,4'],
      ['routes.csv', 'done,,4,', 'done,,4,5'],
    ],
    `routes.csv, line 2, column load_s  warning ROU09
  Found load_s 6 at the infeed \`rack\`, where the robot does not place; 0 is taken.
    2 │ cap,1,rack,,6,4,,,
      │             ~
  Fix: Leave the cell empty.

routes.csv, line 6, column unload_s  warning ROU09
  Found unload_s 5 at the outfeed \`done\`, where the robot does not pick; 0 is taken.
    6 │ cap,5,done,,4,5,,,
      │               ~
  Fix: Leave the cell empty.

2 warnings in 1 file.
`,
  ],
  [
    'ROU11 several parts at a held station',
    [['routes.csv', 'brush,15,,,,', 'brush,15,,,,2']],
    `routes.csv, line 4, column parts_per_cycle  error ROU11
  Found 2 parts at the held station \`brush\`, expected 1.
    4 │ cap,3,brush,15,,,,2,
      │                   ~
  Fix: The robot holds one part at a time at a wheel or brush.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU11 several parts at an infeed and at an outfeed, however many',
    [
      ['routes.csv', 'rack,,,4,,', 'rack,,,4,,3'],
      ['routes.csv', 'done,,4,,,', 'done,,4,,,101'],
    ],
    `routes.csv, line 2, column parts_per_cycle  error ROU11
  Found 3 parts at the infeed \`rack\`, expected 1.
    2 │ cap,1,rack,,,4,,3,
      │                 ~
  Fix: The robot picks one part at a time; parts that a machine works on together are loaded at its step.

routes.csv, line 6, column parts_per_cycle  error ROU11
  Found 101 parts at the outfeed \`done\`, expected 1.
    6 │ cap,5,done,,4,,,101,
      │                 ~~~
  Fix: The robot sets down one part at a time; parts that a machine works on together are loaded at its step.

2 errors in 1 file. No results.
`,
  ],
  [
    'ROU19 a longest wait at an infeed and at an outfeed',
    [
      ['routes.csv', 'rack,,,4,', 'rack,,,4,0'],
      ['routes.csv', 'done,,4,,', 'done,,4,,30'],
    ],
    `routes.csv, line 2, column max_wait_s  warning ROU19
  Found max_wait_s 0 at the infeed \`rack\`, where no wait is limited; it is not used.
    2 │ cap,1,rack,,,4,0,,
      │                ~
  Fix: Leave the cell empty: a longest wait counts from the end of the work at a machine, a bench or a buffer.

routes.csv, line 6, column max_wait_s  warning ROU19
  Found max_wait_s 30 at the outfeed \`done\`, where no wait is limited; it is not used.
    6 │ cap,5,done,,4,,30,,
      │                ~~
  Fix: Leave the cell empty: a longest wait counts from the end of the work at a machine, a bench or a buffer.

2 warnings in 1 file.
`,
  ],
  [
    'ROU18 a very large batch',
    [
      ['routes.csv', 'gauge,20,4,4,60,,5', 'gauge,20,4,4,60,120,5'],
      ['stations.csv', 'gauge,bench,1,1,,,,,,', 'gauge,bench,1,1,120,,,,,'],
    ],
    `routes.csv, line 5, column parts_per_cycle  warning ROU18
  Found 120 parts in one cycle of \`gauge\`; with more than 100 \`schedule\` takes long and proves little.
    5 │ cap,4,gauge,20,4,4,60,120,5
      │                       ~~~
  Fix: Enter a basket of them as one part, with the times of the whole basket.

1 warning in 1 file.
`,
  ],
  [
    'ROU12 a first step that some parts leave out',
    [['routes.csv', 'rack,,,4,,,', 'rack,,,4,,,2']],
    `routes.csv, line 2, column every  error ROU12
  Found every 2 at the first step of \`cap\`, expected 1.
    2 │ cap,1,rack,,,4,,,2
      │                  ~
  Fix: Every part passes the first and the last step.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU13 a step given twice',
    [['routes.csv', 'cap,4,gauge', 'cap,3,gauge']],
    `routes.csv, line 5, column step  error ROU13
  Step 3 of \`cap\` is already given on line 4.
    5 │ cap,3,gauge,20,4,4,60,,5
      │     ~
  Fix: Give each step its own number; write alternatives in one row, such as \`mill_1|mill_2\`.

1 error in 1 file. No results.
`,
  ],
  [
    'ROU14 a bar too many',
    [['routes.csv', 'mill_1|mill_2', 'mill_1|']],
    `routes.csv, line 3, column stations  error ROU14
  Found an empty place beside a bar in \`mill_1|\`, expected a station.
    3 │ cap,2,mill_1|,240,12,10,,,
      │       ~~~~~~~
  Fix: Leave out the bar that is too many.

1 error in 1 file. No results.
`,
  ],
];

test.each(cases)('%s', (_rule, changes, said) => {
  expect(saidAbout(...changes)).toBe(said);
});

const inspect = (...changes: readonly Change[]) => inspectTables(changedTables(changes));
const codes = (...changes: readonly Change[]) =>
  inspect(...changes).complaints.map(({ code, line }) => `${code} line ${line}`);

test('a step has its stations and times, and what is not given its default', () => {
  const plain = { cycleS: 0, loadS: 0, unloadS: 0, maxWaitS: null, partsPerCycle: 1, everyParts: 1 };
  const { cell } = inspect(['routes.csv', '240,12,10,,,', '240,12,10,,2,']);
  expect(cell?.routes[0]?.steps).toMatchObject([
    { ...plain, step: 1, stations: ['rack'], unloadS: 4 },
    {
      ...plain,
      step: 2,
      stations: ['mill_1', 'mill_2'],
      cycleS: 240,
      loadS: 12,
      unloadS: 10,
      partsPerCycle: 2,
    },
    { ...plain, step: 3, stations: ['brush'], cycleS: 15 },
    { ...plain, step: 4, stations: ['gauge'], cycleS: 20, loadS: 4, unloadS: 4, maxWaitS: 60, everyParts: 5 },
    { ...plain, step: 5, stations: ['done'], loadS: 4 },
  ]);
});

test('where the robot does not place or pick the part, its time there is 0, and no wait is limited', () => {
  const { cell, complaints } = inspect(
    ['routes.csv', 'cap,1,rack,,,4,', 'cap,1,rack,,3,4,50'],
    ['routes.csv', 'cap,5,done,,4,,', 'cap,5,done,,4,6,7'],
  );
  expect(complaints.map(({ code, severity }) => [code, severity])).toEqual([
    ['ROU09', 'warning'],
    ['ROU19', 'warning'],
    ['ROU09', 'warning'],
    ['ROU19', 'warning'],
  ]);
  const [first, , , , last] = cell!.routes[0]!.steps;
  expect([first!.loadS, first!.unloadS, last!.loadS, last!.unloadS]).toEqual([0, 4, 4, 0]);
  expect([first!.maxWaitS, last!.maxWaitS]).toEqual([null, null]);
});

/** What is said of a part through one machine where nothing takes time but what a case says. */
const timeless = (doors: string, step: string, travel: string | null, travelS: number) =>
  codes(
    ...noOtherTables,
    [
      'stations.csv',
      null,
      `station,kind,ready_s,close_s\nrack,infeed\nmill_1,machine${doors}\ndone,outfeed\n`,
    ],
    [
      'routes.csv',
      null,
      `part,step,stations,cycle_s,load_s,unload_s\ncap,1,rack\ncap,2,mill_1${step}\ncap,3,done\n`,
    ],
    ['robot.csv', null, `setting,value\ntravel_s,${travelS}\n`],
    ...(travel === null ? [] : [['travel.csv', null, `from,to,empty_s,loaded_s\n${travel}`] as const]),
  ).filter((said) => said.startsWith('ROU16'));

test.each([
  ['a cycle', '', ',5', null],
  ['a load', '', ',0,5', null],
  ['an unload', '', ',0,0,5', null],
  ['the time until its machine is ready', ',5', '', null],
  ['both times of the doors alike', ',5,5', '', null],
  ['doors and a cycle alike', ',2,3', ',5', null],
  ['a trip with the part', '', '', 'mill_1,done,0,5\n'],
  ['a trip that is given for the other direction', '', '', 'done,mill_1,0,5\n'],
])('a part with %s takes time', (_what, doors, step, travel) => {
  expect(timeless(doors, step, travel, 0)).toEqual([]);
});

test('a part takes none where only trips do that the robot never makes with it', () => {
  const there = 'rack,mill_1,3,0\nmill_1,done,4,0\n';
  const back = 'mill_1,rack,3,6\ndone,mill_1,4,8\n';
  expect(timeless('', '', there + back, 7)).toEqual(['ROU16 line 2']);
});

test('the ends of a part are not told of where one of its rows could not be read', () => {
  const last = 'cap,5,done,,4,,,,';
  expect(codes(['routes.csv', last, 'cap,5,done,,x,,,,'])).toEqual(['VAL02 line 6']);
  // A row without a part may belong to the one above.
  expect(codes(['routes.csv', last, ',5,done,,4,,,,'])).toEqual(['VAL01 line 6']);
  expect(codes(['routes.csv', last, 'cap,5,"done,,4,,,,'])).toEqual(['TAB09 line 6']);
  expect(codes(['routes.csv', `${last}\n`, ''])).toEqual(['ROU03 line 5']);
  // Another part is told of all the same.
  const lid = 'lid,1,rack,,,4,,,\nlid,2,mill_1,9,1,1,,,\n';
  expect(codes(['routes.csv', `${last}\n`, `cap,5,done,,x,,,,\n${lid}`])).toEqual([
    'VAL02 line 6',
    'ROU03 line 8',
  ]);
});

test('two hundred parts are read, one more is not', () => {
  const routes = (count: number) =>
    Array.from({ length: count }, (_, i) => `p${i},1,rack,4\np${i},2,done,4`).join('\n');
  const tooMany = (count: number) =>
    inspect(['routes.csv', null, `part,step,stations,load_s\n${routes(count)}\n`])
      .complaints.filter(({ code }) => code === 'ROU10')
      .map(({ text }) => text);
  expect(tooMany(200)).toEqual([]);
  expect(tooMany(201)).toEqual(['the table lists 201 parts, at most 200 are read']);
});
