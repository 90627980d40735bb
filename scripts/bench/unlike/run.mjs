// Unlike cells: what the schedule makes, held against the plain rules on calls, against the best robot cycle of at most
// 32 visits, and against the limit that no sequence exceeds. The cells of the published file with their optimum over
// every sequence (asserted), then random ones. Writes reports/bench-unlike.md. `--quick` leaves the largest out.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { loadSupport } from '../load-support.mjs';
import { median, table } from '../schedule/report.mjs';

const { bestSchedule } = await import('../../../dist/core/schedule/best-schedule.js');
const { goalOf } = await import('../../../dist/core/schedule/plan/weights.js');
const { CellPlays } = await import('../../../dist/core/schedule/search/cell-plays.js');
const { setsByRule } = await import('../../../dist/core/schedule/search/played-sets.js');
const { unlikeCell, unlikeMachines } = await loadSupport('unlike-cells');
const { drawFrom, drawMachines, drawRoute, ends, makeCell } = await loadSupport('random-shops');
const { cells: published } = JSON.parse(
  readFileSync(new URL('../../../tests/reference/recomputed/unlike-machines.json', import.meta.url), 'utf8'),
);

const quick = process.argv.includes('--quick');
const largest = quick ? 6 : 12;
const seeds = quick ? [1] : [1, 2, 3];

function worthPerS(cell, { partsPerH }) {
  const { weight } = goalOf(cell);
  return cell.routes.reduce((sum, { part }, r) => sum + (weight[r] * (partsPerH[part] ?? 0)) / 3600, 0);
}

/** The most that a plain rule makes, played without chance until it repeats. */
function ruleWorthPerS(cell) {
  const limits = { maxVisits: 1000, partsPerPeriod: null, untilMs: Number.POSITIVE_INFINITY };
  const sets = setsByRule(new CellPlays(cell, goalOf(cell)), limits);
  return sets.reduce((most, { set, order }) => Math.max(most, set.value / order.periodS), 0);
}

function rowOf(name, cell, optimum) {
  const before = process.cpuUsage();
  const found = bestSchedule(cell);
  const { user, system } = process.cpuUsage(before);
  const made = worthPerS(cell, found);
  if (optimum !== null && Math.abs(made / optimum - 1) > 1e-9)
    throw new Error(`${name}: made ${made}, the optimum is ${optimum}`);
  const rule = ruleWorthPerS(cell);
  if (made < rule * (1 - 1e-9)) throw new Error(`${name}: made ${made}, a plain rule ${rule}`);
  const short = bestSchedule(cell, { improvements: false, maxVisits: 32 });
  const row = {
    name,
    toRule: made / rule,
    toShort: 'order' in short ? made / worthPerS(cell, short) : Number.NaN,
    gapPct: found.gapPct,
    proven: found.proven,
    cpuS: (user + system) / 1e6,
  };
  console.log(
    `${name}: ${row.toRule.toFixed(3)} of a plain rule, ${row.toShort.toFixed(3)} of 32 visits, gap ${row.gapPct.toFixed(2)}%${row.proven ? ' proven' : ''}, ${row.cpuS.toFixed(2)} s`,
  );
  return row;
}

/** Three parts over one station. Each earns its machine seconds: without a contribution all would be made in equal numbers, which the plain rules do not do. */
function sharedStation(seed, hands) {
  const draw = drawFrom(seed);
  const cell = makeCell(
    draw,
    { hands, indexS: hands === 2 ? 1 : 0 },
    [...ends, ...drawMachines(draw, 4)],
    [1, 2, 3].map((m) => drawRoute(draw, `p${m}`, [{ at: `m${m}` }, { at: 'm4' }], 150)),
  );
  const parts = cell.routes.map(({ part, steps }) => ({
    part,
    contribution: steps.reduce((sum, { cycleS }) => sum + cycleS, 0),
    perShift: null,
    ratio: null,
    yieldPct: 100,
  }));
  return { ...cell, parts };
}

const kinds = [
  ...[2, 3, 4, 6, 8, 12]
    .filter((n) => n <= largest)
    .flatMap((n) =>
      [1, 2].map((hands) => [
        `${n} machines, ${hands} hand${hands === 1 ? '' : 's'}`,
        (seed) => unlikeCell(unlikeMachines(seed, n), hands),
      ]),
    ),
  ...[1, 2].map((hands) => [
    `3 routes over a shared station, ${hands} hand${hands === 1 ? '' : 's'}`,
    (seed) => sharedStation(seed, hands),
  ]),
];

const sections = [];
const head = [
  'cells',
  'made to the best plain rule',
  'to 32 visits',
  'gap to the limit %, median',
  'largest',
  'proven',
  'CPU s, median',
];
const lineOf = (name, rows) => {
  const of = (field) => median(rows.map((row) => row[field]));
  const proven = rows.filter((row) => row.proven).length;
  return [
    name,
    of('toRule').toFixed(3),
    of('toShort').toFixed(3),
    of('gapPct').toFixed(2),
    Math.max(...rows.map((row) => row.gapPct)).toFixed(2),
    `${proven} of ${rows.length}`,
    of('cpuS').toFixed(2),
  ];
};

const publishedCell = ({ travelS, fetchS, putS, loadS, unloadS, cycleS }) =>
  unlikeCell({
    travel: travelS,
    fetchS,
    putS,
    loadS: [0, ...loadS],
    unloadS: [0, ...unloadS],
    cycleS: [0, ...cycleS],
  });
const known = published
  .filter(({ machines }) => machines <= largest)
  .map((one) => lineOf(one.id, [rowOf(one.id, publishedCell(one), one.bestMachineSecondsPerS)]));
sections.push(`## Cells with known values\n\n${table(head, known)}`);
const random = kinds.map(([name, cellOf]) =>
  lineOf(
    name,
    seeds.map((seed) => rowOf(`${name} ${seed}`, cellOf(seed), null)),
  ),
);
sections.push(`## Random cells\n\n${table(head, random)}`);

mkdirSync('reports', { recursive: true });
writeFileSync(
  'reports/bench-unlike.md',
  `# Unlike cells\n\nWhat the schedule makes against the best plain rule played without chance (first, nearest, longest), against the best found of at most 32 visits a robot cycle, and against the limit that no sequence exceeds.\n\n${sections.join('\n\n')}\n`,
);
