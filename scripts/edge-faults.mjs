// Faults from outside, limits and large cells for `edge-cases.mjs`: a name, a line for the shell, the exit status that is
// right. `roundsman` stands for the program; each line leaves no file behind.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { jobWeek } from './bench/jobs/cells.mjs';

const LOG_ROWS = 5_000_000;

/** Folders that the lines below need. */
export function faultFolders(cwd) {
  const write = (folder, tables) => {
    mkdirSync(join(cwd, folder));
    for (const [file, text] of Object.entries(tables)) writeFileSync(join(cwd, folder, file), text);
  };
  write('week10', jobWeek({ jobs: 10, parts: 10, machines: 6, seed: 1 }));
  write('week20', jobWeek({ jobs: 20, parts: 15, machines: 6, seed: 1 }));
  write('week200', jobWeek({ jobs: 200, parts: 80, machines: 6, seed: 1 }));
  const twelve = Array.from({ length: 12 }, (_, k) => `m${k + 1}`);
  const steps = [0, 3, 6, 9].map(
    (k, s) => `p,${s + 2},${twelve.slice(k, k + 3).join('|')},${90 + 10 * s},8,8`,
  );
  write('four-steps', {
    'stations.csv': `station,kind\nin,infeed\n${twelve.map((m) => `${m},machine`).join('\n')}\nout,outfeed\n`,
    'routes.csv': `part,step,stations,cycle_s,load_s,unload_s\np,1,in,0,0,4\n${steps.join('\n')}\np,6,out,0,4,0\n`,
    'robot.csv': 'setting,value\ntravel_s,3\n',
  });
  write('too-much', {
    'stations.csv': 'station,kind\nin,infeed\nm1,machine\nm2,machine\nout,outfeed\n',
    'routes.csv': `part,step,stations,cycle_s,load_s,unload_s\n${['a', 'b', 'c']
      .map((p, k) => `${p},1,in,0,0,4\n${p},2,m${1 + (k % 2)},${101 + 37 * k},8,8\n${p},3,out,0,4,0\n`)
      .join('')}`,
    'robot.csv': 'setting,value\ntravel_s,3\n',
    'parts.csv': 'part,per_shift\na,350\nb,290\nc,260\n',
  });
}

/** Own files in a folder that is not there for anything else; they and nothing else may be left in it. */
const within = (line) =>
  `mkdir own; cp -r cell/. own; cd own; ${line}; s=$?; cd ..; diff -r cell own >/dev/null || s=99; rm -r own; exit $s`;
/** A disk of 64 kB that nothing else uses; the folder must be empty afterwards. Needs a system that lets users mount. */
const onDisk = (line, options = 'size=64k') => `mkdir disk; unshare -rm bash <<'X'
mount -t tmpfs -o ${options} none disk || exit 98
${line}
s=$?; [ -z "$(ls -A disk)" ] || s=99; exit $s
X
s=$?; rmdir disk; exit $s`;
/** A signal after some seconds; nothing but what \`left\` names may be in the folder afterwards. */
const ended = (signal, seconds, line, left) =>
  `mkdir k; timeout -s ${signal} ${seconds} ${line} >/dev/null; s=$?; [ "$(ls -A k)" = "${left}" ] || s=99; rm -r k; exit $s`;

export const faultCases = [
  ['report from within the cell', within('roundsman report . --out .'), 1],
  ['log from within the cell', within('roundsman log log.csv . --out .'), 1],
  ['readings from within the cell', within('roundsman readings readings.csv . --out .'), 1],
  ['full disk: report', onDisk('roundsman report other --out disk/r'), 1],
  [
    'full disk: log of a simulation',
    onDisk('roundsman simulate other --hours 80 --replications 1 --log disk/x.log'),
    1,
  ],
  ['full disk: init', onDisk('roundsman init disk/new', 'size=8k'), 1],
  [
    'read-only disk: sweep',
    onDisk(`roundsman sweep cell --sweep robot.cost_per_h=1,2 --out disk/s.csv`, 'size=64k,ro'),
    1,
  ],
  ['standard output full: json', 'roundsman schedule other --json > /dev/full', 1],
  [
    'ended while a log is written',
    ended('TERM', 6, 'roundsman simulate cell --hours 100000 --replications 1 --log k/x.log', ''),
    124,
  ],
  [
    'interrupted sweep keeps its points',
    ended(
      'INT',
      30,
      'roundsman sweep other --sweep robot.cost_per_h=1:9000:1 --workers 1 --out k/s.csv',
      's.csv',
    ),
    124,
  ],
  [
    'parts of a sweep put together into one of them',
    'for k in 1 2; do roundsman sweep other --sweep robot.cost_per_h=1,2 --part $k/2 --out p$k.csv >/dev/null; done; cp p1.csv before.csv; roundsman sweep --merge p1.csv p2.csv --out p1.csv; s=$?; cmp -s p1.csv before.csv || s=99; rm p1.csv p2.csv before.csv; exit $s',
    1,
  ],
  [
    'what a killed run left is not in the way',
    'mkdir k; (roundsman simulate other --hours 100000 --replications 1 --log k/x.log >/dev/null 2>&1 & p=$!; until [ -n "$(ls -A k)" ]; do sleep 0.1; done; kill -9 $p); roundsman simulate other --hours 1 --replications 1 --log k/x.log >/dev/null && roundsman schedule other --out k; s=$?; [ -s k/x.log ] && [ -s k/schedule.xlsx ] || s=99; rm -r k; exit $s',
    0,
  ],
  [
    'two runs into one folder',
    'roundsman report other --out two >/dev/null & roundsman report other --out two >/dev/null; s=$?; wait $! || s=$?; ls -A two | grep -q tmp && s=99; [ -s two/report.html ] || s=98; rm -r two; exit $s',
    0,
  ],
  ['reader of an answer gone', 'roundsman schedule other --json | true; exit $PIPESTATUS', 0],
  [
    'a part of the program is missing',
    `mkdir broken; cp -r "$ROOT/dist" "$ROOT/package.json" broken; ln -s "$ROOT/node_modules" broken/node_modules; rm broken/dist/bundles/start-program*; node broken/dist/cli/main.js check cell; s=$?; rm -r broken; exit $s`,
    1,
  ],
  ['jobs: 10 jobs, 10 parts, 6 machines', 'roundsman jobs week10', 0],
  ['jobs: 20 jobs', 'roundsman jobs week20', 0],
  ['jobs: 200 jobs', 'roundsman jobs week200', 0],
  ['jobs: 200 jobs in 5 s', 'roundsman jobs week200 --time-limit 5', 4],
  ['jobs: 200 jobs in 1 s', 'roundsman jobs week200 --time-limit 1', 4],
  ['mix with too much demand', 'roundsman mix too-much', 0],
  ['4 steps of 3 alternatives', 'roundsman schedule four-steps', 0],
  ['4 steps of 3 alternatives, 2 s', 'roundsman schedule four-steps --time-limit 2', 0],
  ['200 stations: check', 'roundsman check many', 0],
  ['200 stations: schedule, 5 s', 'roundsman schedule many --time-limit 5', 4],
  [
    'log of five million rows',
    `node -e 'const fs=require("fs"),f=fs.openSync("big.csv","w");fs.writeSync(f,"time,station,signal,value\\n");let b="";for(let i=0;i<${LOG_ROWS / 2};i++){b+=i*60+",mill_1,start,\\n"+(i*60+50)+",mill_1,finish,\\n";if(b.length>1e6){fs.writeSync(f,b);b=""}}fs.writeSync(f,b)'; roundsman log big.csv; s=$?; rm big.csv; exit $s`,
    0,
  ],
];
