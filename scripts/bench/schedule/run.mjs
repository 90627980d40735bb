// Speed of the scheduler, with HiGHS (an outside mixed-integer solver, in WebAssembly) in the same run on the same
// cells. Optima are asserted while they are timed; times never are. Writes reports/bench-schedule.md and .svg.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { loadSupport } from '../load-support.mjs';
import { median, plot, ratioText, seconds, table } from './report.mjs';
import { highsSolve, ownSolve } from './timed.mjs';

const quick = process.argv.includes('--quick');
const HIGHS_LIMIT_S = quick ? 4 : 15;
const OWN_LIMIT_S = quick ? 6 : 20;
const PUBLISHED_LIMIT_S = quick ? 15 : 60;
const NODES = 1e9;

const { lineModel } = await loadSupport('highs-line');
const { twoHandModel } = await loadSupport('highs-two-hands');
const { lineCell, lineTimes, positionCell, positionTimes } = await loadSupport('line-cell');
const { repeatedLine } = await loadSupport('repeated-line');
const { randomSerial, serialCell } = await loadSupport('random-cells');
const { unlikeCell, unlikeMachines, visitsModel } = await loadSupport('unlike-cells');

const reference = (name) =>
  JSON.parse(readFileSync(new URL(`../../../tests/reference/${name}.json`, import.meta.url), 'utf8'));
const sections = [];
const series = [];
const started = performance.now();

function say(text) {
  console.log(`[${((performance.now() - started) / 1000).toFixed(0).padStart(3)} s] ${text}`);
}

/** Both to the end: the same period, or both without one. A proof that is wrong stops the benchmark. */
function expectAgreed(what, own, other) {
  if (other === null || !other.done || !own.proven) return;
  const same =
    own.periodS === null || other.periodS === null
      ? own.periodS === other.periodS
      : Math.abs(own.periodS - other.periodS) < 1e-4;
  if (!same) throw new Error(`${what}: found ${own.periodS}, HiGHS ${other.periodS}`);
}

function expectPeriod(what, own, periodS) {
  if (!own.proven) return;
  const same = periodS === null ? own.periodS === null : Math.abs(own.periodS - periodS) < 1e-6;
  if (!same) throw new Error(`${what}: found ${own.periodS}, published ${periodS}`);
}

function outcomeText(own) {
  if (own.periodS === null) return own.proven ? 'none possible' : 'none found in time';
  const period = Number(own.periodS.toFixed(3));
  return own.proven ? `${period} proven` : `${period}, gap ${own.gapPct.toFixed(2)} %`;
}

function highsText(other) {
  if (other === null) return '';
  if (other.failed !== undefined) return 'failed';
  return other.done ? seconds(other.cpuS) : `over ${seconds(other.cpuS)}`;
}

async function publishedLines() {
  const rows = [];
  const { lines } = reference('published/chsp');
  for (const line of lines) {
    const own = ownSolve(lineCell(line), {
      partsPerPeriod: 1,
      timeLimitS: PUBLISHED_LIMIT_S,
      nodeLimit: NODES,
    });
    expectPeriod(line.id, own, line.period);
    const other = await highsSolve(lineModel(lineTimes(line)), PUBLISHED_LIMIT_S);
    expectAgreed(line.id, own, other);
    if (other.done && Math.abs(other.periodS - line.period) > 1e-4)
      throw new Error(`${line.id}: HiGHS ${other.periodS}, published ${line.period}`);
    say(`${line.id}: ${outcomeText(own)}, ${seconds(own.cpuS)} s; HiGHS ${highsText(other)} s`);
    rows.push(lineRow(line.id, line.stations, own, other));
  }
  const triple = repeatedLine(lines[0], 3);
  const own = ownSolve(lineCell(triple), {
    partsPerPeriod: 1,
    timeLimitS: PUBLISHED_LIMIT_S,
    nodeLimit: NODES,
  });
  say(`${lines[0].id} three times in a row: ${outcomeText(own)}, ${seconds(own.cpuS)} s`);
  rows.push(lineRow(`${lines[0].id} three times in a row`, triple.stations, own, null));
  const sums = { own: 0, wall: 0, other: 0, nodes: 0 };
  let proven = 0;
  const { cells } = reference('recomputed/random-line-cells');
  for (const line of cells) {
    const own = ownSolve(positionCell(line), {
      partsPerPeriod: 1,
      timeLimitS: OWN_LIMIT_S,
      nodeLimit: NODES,
    });
    expectPeriod(line.id, own, line.periodS);
    const other = await highsSolve(lineModel(positionTimes(line)), HIGHS_LIMIT_S);
    expectAgreed(line.id, own, other);
    sums.own += own.cpuS;
    sums.wall += own.wallS;
    sums.other += other.cpuS;
    sums.nodes += own.nodes;
    if (own.proven) proven++;
  }
  const all = { cpuS: sums.own, wallS: sums.wall, nodes: sums.nodes };
  const name = `${cells.length} random line cells together`;
  say(`${name}: ${proven} proven, ${seconds(sums.own)} s; HiGHS ${seconds(sums.other)} s`);
  rows.push([
    name,
    '3 to 8',
    `${proven} proven`,
    all.nodes,
    seconds(all.cpuS),
    seconds(all.wallS),
    seconds(sums.other),
    ratioText(all, { cpuS: sums.other, done: true }),
  ]);
  sections.push(`## Published lines and agreed cells\n\n${table(LINE_HEAD, rows)}`);
}

const LINE_HEAD = ['line', 'machines', 'period', 'nodes', 'CPU s', 'wall s', 'HiGHS CPU s', 'times'];

function lineRow(id, machines, own, other) {
  return [
    id,
    machines,
    outcomeText(own),
    own.nodes,
    seconds(own.cpuS),
    seconds(own.wallS),
    highsText(other),
    ratioText(own, other),
  ];
}

const SIZE_HEAD = [
  'machines',
  'cells',
  'proven',
  'nodes, median',
  'CPU s, median',
  'CPU s, most',
  'wall s, most',
  'HiGHS on',
  'HiGHS done',
  'HiGHS CPU s, median',
  'times on the same cells, median',
];

/** One row a number of machines; HiGHS has the first few cells of each. */
async function bySize(title, name, note, plan, solve) {
  const rows = [];
  const own = { name, points: [] };
  const outside = { name: `HiGHS: ${name}`, points: [] };
  for (const { machines, cells, withHighs } of plan) {
    const runs = [];
    for (let seed = 1; seed <= cells; seed++) {
      const run = await solve(machines, seed, seed <= withHighs);
      expectAgreed(`${title}, ${machines} machines, seed ${seed}`, run.own, run.other);
      runs.push(run);
    }
    const both = runs.filter((r) => r.other !== null && r.other.failed === undefined);
    const done = both.filter((r) => r.other.done).length;
    const highsS = both.length > 0 ? median(both.map((r) => r.other.cpuS)) : null;
    const times = both.length > 0 ? median(both.map((r) => r.other.cpuS / r.own.cpuS)) : null;
    const proven = runs.filter((r) => r.own.proven).length;
    const cpuS = median(runs.map((r) => r.own.cpuS));
    rows.push([
      machines,
      cells,
      proven,
      Math.round(median(runs.map((r) => r.own.nodes))),
      seconds(cpuS),
      seconds(Math.max(...runs.map((r) => r.own.cpuS))),
      seconds(Math.max(...runs.map((r) => r.own.wallS))),
      both.length,
      done,
      highsS === null ? '' : `${done < both.length ? 'at least ' : ''}${seconds(highsS)}`,
      times === null ? '' : `${done < both.length ? 'at least ' : ''}${times.toFixed(times < 10 ? 1 : 0)}`,
    ]);
    own.points.push({ machines, cpuS, open: proven < cells / 2 });
    if (highsS !== null) outside.points.push({ machines, cpuS: highsS, open: done < both.length / 2 });
    say(
      `${name}, ${machines} machines: ${proven} of ${cells} proven, median ${seconds(cpuS)} s; HiGHS ${highsS === null ? 'not run' : `${seconds(highsS)} s`}`,
    );
  }
  series.push(own);
  if (outside.points.length > 0) series.push(outside);
  sections.push(`## ${title}\n\n${note === '' ? '' : `${note}\n\n`}${table(SIZE_HEAD, rows)}`);
}

function sizes(list) {
  return list.map(([machines, cells, withHighs]) => ({ machines, cells, withHighs }));
}

const oneHandSizes = quick
  ? sizes([
      [3, 3, 2],
      [6, 3, 2],
      [9, 3, 1],
      [12, 3, 1],
    ])
  : sizes([
      [3, 5, 3],
      [4, 5, 3],
      [5, 5, 3],
      [6, 5, 3],
      [7, 5, 3],
      [8, 5, 3],
      [10, 5, 2],
      [12, 10, 2],
      [14, 5, 1],
      [16, 10, 1],
      [18, 4, 1],
    ]);

/**
 * Longest machine cycle drawn, for each machine of the cell: the slowest machine then needs about as long as the robot
 * (the hard case), far less, or more.
 */
const CYCLE_RANGES_S = [22, 10, 30];

const CYCLES_NOTE =
  'In turn the slowest machine needs about as long as the robot (the hard case), far less, and more.';

async function oneHand(title, name, waits) {
  await bySize(title, name, CYCLES_NOTE, oneHandSizes, async (machines, seed, withHighs) => {
    const longestCycleS = CYCLE_RANGES_S[(seed - 1) % 3] * machines;
    const serial = randomSerial({ machines, seed, longestCycleS, ...waits });
    const own = ownSolve(serialCell(serial), {
      partsPerPeriod: 1,
      timeLimitS: OWN_LIMIT_S,
      nodeLimit: NODES,
    });
    return { own, other: withHighs ? await highsSolve(lineModel(serial), HIGHS_LIMIT_S) : null };
  });
}

async function twoHands() {
  const plan = quick
    ? sizes([
        [3, 2, 2],
        [4, 2, 1],
        [6, 2, 0],
      ])
    : sizes([
        [2, 4, 3],
        [3, 4, 3],
        [4, 4, 2],
        [5, 4, 1],
        [6, 4, 1],
      ]);
  await bySize('Random serial cells, two hands', 'two hands', '', plan, async (machines, seed, withHighs) => {
    const serial = randomSerial({ machines, seed, hands: 2, indexS: 1 });
    const own = ownSolve(serialCell(serial), {
      partsPerPeriod: 1,
      timeLimitS: OWN_LIMIT_S,
      nodeLimit: NODES,
    });
    return { own, other: withHighs ? await highsSolve(twoHandModel(serial), HIGHS_LIMIT_S) : null };
  });
}

/** HiGHS gets the visit counts that were chosen, where they come to no more moves than this. */
const HIGHS_MOVES = 14;

async function unlikeVisits() {
  const rows = [];
  const points = [];
  for (const machines of quick ? [2, 4, 8] : [2, 3, 4, 5, 6, 8, 10, 12]) {
    const runs = [];
    for (let seed = 1; seed <= (quick ? 2 : 4); seed++) {
      const spec = unlikeMachines(seed, machines);
      const own = ownSolve(unlikeCell(spec), { timeLimitS: OWN_LIMIT_S });
      if (own.periodS === null)
        throw new Error(`no round for ${machines} independent machines, seed ${seed}`);
      const { partsPerPeriod, partsPerH, rateBoundPerH } = own.outcome;
      const counts = [0, ...spec.cycleS.slice(1).map((_, i) => partsPerPeriod[`p${i + 1}`])];
      const moves = 2 * counts.reduce((sum, c) => sum + c, 0);
      const other =
        seed <= 2 && moves <= HIGHS_MOVES ? await highsSolve(visitsModel(spec, counts), HIGHS_LIMIT_S) : null;
      expectAgreed(`${machines} independent machines, seed ${seed}`, own, other);
      const worth = (perH) => spec.cycleS.reduce((sum, s, i) => sum + (i > 0 ? s * perH[`p${i}`] : 0), 0);
      const boundGapPct = 100 * (1 - worth(partsPerH) / rateBoundPerH.goal.perH);
      if (boundGapPct < -1e-6)
        throw new Error(`${machines} independent machines, seed ${seed}: above the rate bound`);
      runs.push({ own, other, boundGapPct, visits: moves / 2 });
    }
    const both = runs.filter((r) => r.other !== null && r.other.failed === undefined);
    const cpuS = median(runs.map((r) => r.own.cpuS));
    points.push({ machines, cpuS, open: false });
    rows.push([
      machines,
      runs.length,
      runs.map((r) => r.visits).join(', '),
      runs.map((r) => `${r.boundGapPct.toFixed(2)}${r.own.proven ? ' (proven)' : ''}`).join(', '),
      Math.round(median(runs.map((r) => r.own.nodes))),
      seconds(cpuS),
      seconds(Math.max(...runs.map((r) => r.own.cpuS))),
      both.map((r) => highsText(r.other)).join(', '),
    ]);
    say(`independent machines, ${machines}: median ${seconds(cpuS)} s, gaps ${rows[rows.length - 1][3]}`);
  }
  series.push({ name: 'independent machines', points });
  const head = [
    'machines',
    'cells',
    'visits in a round',
    'gap to the rate bound, % (proven best for its counts)',
    'nodes, median',
    'CPU s, median',
    'CPU s, most',
    'HiGHS CPU s, for the chosen counts alone',
  ];
  sections.push(
    `## Independent machines with unlike cycles\n\nThe visit counts are chosen among many part sets, so the time covers many searches; HiGHS is only asked for the order of the chosen counts.\n\n${table(head, rows)}`,
  );
}

// A first solve of each kind warms the compilers of both programs.
ownSolve(serialCell(randomSerial({ machines: 6, seed: 99 })), { partsPerPeriod: 1 });
await highsSolve(lineModel(randomSerial({ machines: 3, seed: 99 })), 5);

await publishedLines();
await oneHand('Random serial cells, one hand', 'one hand', {});
await oneHand(
  'Random serial cells, one hand, longest waits at half of the machines',
  'one hand, longest waits',
  {
    waitPct: 50,
    waitToS: 60,
  },
);
await twoHands();
await unlikeVisits();

const memoryMb = process.resourceUsage().maxRSS / 1024;
const text = [
  '# The scheduler against HiGHS',
  '',
  `Written by \`npm run bench -- schedule${quick ? ' --quick' : ''}\`. Node ${process.versions.node}, HiGHS 1.15 in WebAssembly, both in one process on the same cells in the same run. CPU seconds are those of the process (the machine may be shared); runs under 0.3 s are the quickest of three. HiGHS stops after ${HIGHS_LIMIT_S} s a cell (published lines ${PUBLISHED_LIMIT_S} s), the scheduler after ${OWN_LIMIT_S} s (${PUBLISHED_LIMIT_S} s). Every proven period is held against the published optimum or against HiGHS; a difference stops the run. "Times" is the CPU time of HiGHS over the scheduler's. Most memory of the whole process, HiGHS included: ${memoryMb.toFixed(0)} MB.`,
  '',
  '![CPU time against the number of machines](bench-schedule.svg)',
  '',
  sections.join('\n\n'),
  '',
].join('\n');
const folder = new URL('../../../reports/', import.meta.url);
mkdirSync(folder, { recursive: true });
if (quick) console.log(`\n${text}`);
else {
  writeFileSync(new URL('bench-schedule.md', folder), text);
  writeFileSync(new URL('bench-schedule.svg', folder), plot(series));
}
say(`done; most memory ${memoryMb.toFixed(0)} MB`);
