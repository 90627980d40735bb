// Replays what has gone wrong at the edges of the program: places that must not be written, values that no shop has,
// limits of time, faults around it. Prints a line each: exit status (and what is right), seconds of processor and clock,
// memory, and the first line that was said. Ends with 1 where a status differs, a trace is shown or a cell was changed.
// `node scripts/edge-cases.mjs [words]` runs only cases whose name holds these words; `--write` puts what was run into the
// table of docs/edge-cases.md, with the date. Build first.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { faultCases, faultFolders } from './edge-faults.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const main = join(root, 'dist/cli/main.js');
const cwd = mkdtempSync(join(tmpdir(), 'edge-cases-'));
const PATIENCE_MS = 600_000;

for (const [from, to] of [
  ['starter', 'cell'],
  ['two-hands', 'other'],
])
  cpSync(join(root, 'data', from), join(cwd, to), { recursive: true });

/** A cell of so many machines with so many parts, each of which may run on any of them. */
function wideCell(name, machines, parts, cycleS = 240) {
  const folder = join(cwd, name);
  cpSync(join(root, 'data', 'two-hands'), folder, { recursive: true });
  for (const file of readdirSync(folder)) rmSync(join(folder, file));
  const names = Array.from({ length: machines }, (_, i) => `m${i + 1}`);
  const rows = names.map((m) => `${m},machine`).join('\n');
  writeFileSync(join(folder, 'stations.csv'), `station,kind\nin,infeed\n${rows}\nout,outfeed\n`);
  const route = (p) => `p${p},1,in,0,0,4\np${p},2,${names.join('|')},${cycleS},8,8\np${p},3,out,0,4,0\n`;
  const routes = Array.from({ length: parts }, (_, i) => route(i + 1)).join('');
  writeFileSync(join(folder, 'routes.csv'), `part,step,stations,cycle_s,load_s,unload_s\n${routes}`);
  writeFileSync(join(folder, 'robot.csv'), 'setting,value\ntravel_s,3\n');
}
wideCell('wide', 30, 8);
wideCell('many', 198, 1);
wideCell('zero', 2, 1, 0);
faultFolders(cwd);
for (const [file, from, to] of [
  ['robot.csv', 'travel_s,3', 'travel_s,0'],
  ['routes.csv', /,0,0,4\n/g, ',0,0,0\n'],
  ['routes.csv', /,0,8,8\n/g, ',0,0,0\n'],
  ['routes.csv', /,0,4,0\n/g, ',0,0,0\n'],
])
  writeFileSync(join(cwd, 'zero', file), readFileSync(join(cwd, 'zero', file), 'utf8').replace(from, to));

const set = (path) => ['--set', path];
const size = ['size', '--cycle', '240', '--load', '12', '--unload', '10', '--travel', '4'];
const SWEEP = ['sweep', 'cell', '--sweep', 'robot.cost_per_h=1,2'];

/** Name, words of the command, exit status that is right; a text in place of the words is a line for the shell. */
const cases = [
  ['report into the cell', ['report', 'cell', '--out', 'cell'], 1],
  ['report into nowhere', ['report', 'cell', '--out', ''], 2],
  ['report into another cell', ['report', 'cell', '--out', 'other'], 1],
  ['cost case into the cell', ['costcase', 'cell', '--out', 'cell'], 1],
  ['jobs into the cell', ['jobs', 'cell', '--out', 'cell'], 1],
  ['readings into the cell', ['readings', 'cell/readings.csv', 'cell', '--out', 'cell'], 1],
  ['log into the cell', ['log', 'cell/log.csv', 'cell', '--out', 'cell'], 1],
  ['sweep over a table', [...SWEEP, '--out', 'cell/stations.csv'], 1],
  ['simulated log over a table', ['simulate', 'cell', '--log', 'cell/stations.csv'], 1],
  ['simulated log over the real one', ['simulate', 'cell', '--log', 'cell/log.csv'], 1],
  ['no folder can be made', ['report', 'cell', '--out', '/proc/none/x'], 1],
  ['a file in the way', ['report', 'cell', '--out', 'cell/robot.csv/x'], 1],
  [
    'mtbf of a nanohour',
    ['check', 'cell', ...set('stations.mill_1.mtbf_h=1e-9'), ...set('stations.mill_1.mttr_min=10')],
    1,
  ],
  [
    'mtbf at its least',
    [
      'simulate',
      'cell',
      '--replications',
      '5',
      ...set('stations.mill_1.mtbf_h=0.01'),
      ...set('stations.mill_1.mttr_min=1'),
    ],
    0,
  ],
  [
    'repair of 10^12 minutes',
    ['check', 'cell', ...set('stations.mill_1.mtbf_h=10'), ...set('stations.mill_1.mttr_min=1e12')],
    1,
  ],
  ['stop of 10^12 minutes', ['check', 'cell', ...set('stops.mill_1.tool change.minutes=1e12')], 1],
  ['cycle of a nanosecond', ['check', 'cell', ...set('routes.cap.2.cycle_s=1e-9')], 1],
  ['cycle of 10^12 seconds', ['check', 'cell', ...set('routes.cap.2.cycle_s=1e12')], 1],
  ['10^9 changeovers a year', ['check', 'cell', ...set('changeovers.mill_1.per_year=1e9')], 1],
  [
    'more changeovers than hours',
    [
      'shifts',
      'cell',
      ...set('changeovers.mill_1.per_year=20000'),
      ...set('changeovers.mill_1.minutes_other=40'),
    ],
    1,
  ],
  [
    'more changeovers than hours with people',
    [
      'check',
      'cell',
      ...set('changeovers.mill_1.per_year=4000'),
      ...set('changeovers.mill_1.minutes_other=40'),
    ],
    0,
  ],
  [
    'a name that a spreadsheet would run, in a log',
    'cp -r other run; sed -i "s/raw/=raw/" run/*.csv; roundsman simulate run --hours 1 --replications 1 --log run.log >/dev/null && roundsman log run.log run >/dev/null && ! grep -q ",=" run.log; s=$?; rm -r run run.log; exit $s',
    0,
  ],
  ['capacity of 10^6', ['check', 'cell', ...set('stations.mill_1.capacity=1e6')], 1],
  ['capacity of 10^12', ['check', 'cell', ...set('stations.mill_1.capacity=1e12')], 1],
  [
    'capacity at its most',
    ['schedule', 'cell', ...set('stations.mill_1.capacity=10000'), '--time-limit', '5'],
    0,
  ],
  [
    '500 parts a cycle',
    [
      'schedule',
      'cell',
      ...set('stations.mill_1.capacity=500'),
      ...set('stations.mill_2.capacity=500'),
      ...set('routes.cap.2.parts_per_cycle=500'),
      '--time-limit',
      '5',
    ],
    4,
  ],
  ['size with a tiny mtbf', [...size, '--mtbf', '1e-9', '--mttr', '10'], 2],
  ['size at the least mtbf', [...size, '--mtbf', '0.01', '--mttr', '10'], 0],
  ['size of 100 machines', [...size, '--max', '100'], 0],
  ['size of a folder with 198 machines', ['size', 'many'], 0],
  ['30 machines, 8 parts, 2 s', ['schedule', 'wide', '--time-limit', '2'], 4],
  ['30 machines, 8 parts', ['schedule', 'wide', '--dispatch', 'first'], 0],
  ['all times 0', ['schedule', 'zero'], 1],
  ['all times 0, simulated', ['simulate', 'zero'], 1],
  ['all times 0, report', ['report', 'zero', '--out', 'zero-report'], 1],
  ['merge without end', ['sweep', '--merge', '/dev/zero', '--out', 'x.csv'], 2],
  ['a pattern that steers the terminal', ['simulate', 'cell', '--pattern', 'a\u001b[2J'], 2],
  ['a change with a line break', ['check', 'cell', ...set('parts.cap.contribution=1\n2')], 1],
  [
    'a changeover at a rack',
    'printf "station,per_year\\nrack,5\\n" > other/changeovers.csv; roundsman check other; s=$?; rm other/changeovers.csv; exit $s',
    1,
  ],
  ['standard output full', 'roundsman check cell > /dev/full', 1],
  ...faultCases,
  ['reader gone', 'roundsman check nowhere --json | true; exit $PIPESTATUS', 1],
];

function run([, what]) {
  const usage = join(cwd, 'usage.json');
  const preload = `import{writeFileSync as w}from'node:fs';process.on('exit',()=>w(${JSON.stringify(usage)},JSON.stringify(process.resourceUsage())))`;
  const node = ['--import', `data:text/javascript,${encodeURIComponent(preload)}`, main];
  const began = performance.now();
  rmSync(usage, { force: true });
  const env = { ...process.env, ROOT: root };
  const options = {
    cwd,
    env,
    encoding: 'utf8',
    timeout: PATIENCE_MS,
    killSignal: 'SIGKILL',
    maxBuffer: 1 << 28,
  };
  const said =
    typeof what === 'string'
      ? spawnSync(
          'bash',
          [
            '-c',
            what.replaceAll(
              'roundsman',
              [process.execPath, ...node].map((w) => `'${w.replaceAll("'", `'\\''`)}'`).join(' '),
            ),
          ],
          options,
        )
      : spawnSync(process.execPath, [...node, ...what], options);
  const seconds = (performance.now() - began) / 1000;
  const used = readUsage(usage);
  return { ...said, seconds, ...used };
}

function readUsage(file) {
  try {
    const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(readFileSync(file, 'utf8'));
    return { cpuS: (userCPUTime + systemCPUTime) / 1e6, memoryMB: maxRSS / 1024 };
  } catch {
    return { cpuS: null, memoryMB: null };
  }
}

const content = () =>
  JSON.stringify(
    ['cell', 'other'].map((folder) =>
      readdirSync(join(cwd, folder))
        .sort()
        .map((name) => [name, readFileSync(join(cwd, folder, name), 'utf8')]),
    ),
  );

const words = process.argv.slice(2);
const asked = words.filter((word) => word !== '--write').join(' ');
const said = [];
function say(line) {
  said.push(line);
  console.log(line.replaceAll(cwd, '.'));
}
const before = content();
let wrong = 0;
try {
  say('| case | exit (right) | processor s | clock s | MB | said |\n| --- | --- | --- | --- | --- | --- |');
  for (const one of cases) {
    if (!one[0].includes(asked)) continue;
    const { status, stdout, stderr, seconds, cpuS, memoryMB } = run(one);
    const faults = [
      ...(status === one[2] ? [] : ['STATUS']),
      ...(/^ +at .*:\d+/m.test(stderr) || /fault of its own/.test(stderr) ? ['TRACE'] : []),
      ...(content() === before ? [] : ['A CELL WAS CHANGED']),
    ];
    if (faults.length > 0) wrong += 1;
    const number = (value, digits) => (value === null ? '?' : value.toFixed(digits));
    const line = (stderr || stdout).split('\n').slice(0, 3).join(' ').replace(/\s+/g, ' ').trim();
    say(
      `| ${one[0]} | ${status ?? 'none'} (${one[2]})${faults.map((f) => ` ${f}`).join('')} | ${number(cpuS, 1)} | ${number(seconds, 1)} | ${number(memoryMB, 0)} | ${line.slice(0, 140).replaceAll('|', '\\|')} |`,
    );
  }
} finally {
  rmSync(cwd, { recursive: true, force: true });
}
if (words.includes('--write')) writeTable();
console.log(wrong === 0 ? '\nAll as it should be.' : `\n${wrong} not as it should be.`);
process.exitCode = wrong === 0 ? 0 : 1;

/** Rows that were run take the place of those of the same name in the table; the others stay. */
function writeTable() {
  const file = join(root, 'docs/edge-cases.md');
  const isRow = (line) => line.startsWith('| ') && !/^\| (case|---)/.test(line);
  const before = existsSync(file) ? readFileSync(file, 'utf8').split('\n').filter(isRow) : [];
  const date = new Date().toISOString().slice(0, 10);
  const rows = new Map(before.map((line) => [line.split(' | ')[0], line]));
  for (const line of said.filter(isRow))
    rows.set(line.split(' | ')[0], `${line.replaceAll(cwd, '.')} ${date} |`);
  const text = `# At the edge

What the program does where a disk is full, a run is killed, a place must not be written, a value is one that no shop has,
or a cell is large. \`node scripts/edge-cases.mjs --write\` runs every case and writes this table; the status that is right
is in brackets. Times and memory are of one run on a busy machine with two cores, so seconds of the clock say little.

| case | exit (right) | processor s | clock s | MB | said | run on |
| --- | --- | --- | --- | --- | --- | --- |
${[...rows.values()].join('\n')}
`;
  writeFileSync(file, text);
}
