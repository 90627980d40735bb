// Whether it is the schedule or its upper limit that falls short on unlike cells: what the program makes and says of
// them, beside what a long run of another method finds (anneal.mjs). Writes docs/unlike-cells.md. Takes some minutes;
// counted by sequences tried, so that every machine writes the same. Needs dist/ (npm run build).
import { readFileSync, writeFileSync } from 'node:fs';
import { loadSupport } from '../load-support.mjs';
import { table } from '../schedule/report.mjs';
import { anneal } from './anneal.mjs';

const { bestSchedule } = await import('../../../dist/core/schedule/best-schedule.js');
const { unlikeCell } = await loadSupport('unlike-cells');
const { cells } = JSON.parse(
  readFileSync(new URL('../../../tests/reference/recomputed/unlike-machines.json', import.meta.url), 'utf8'),
);

const SEEDS = [1, 2];
const TRIALS = 4_000_000;

const pct = (value) => `${value.toFixed(2)}%`;

/** Which of the two falls short, as far as the better of both sequences tells. */
function verdict(id, made, limit, other) {
  if (other > made)
    return `${id}: the schedule is at least ${pct(100 * (other / made - 1))} short, and the limit ${pct(100 * (limit / other - 1))} above the best sequence known.`;
  return `${id}: the other method finds nothing better.`;
}

const verdicts = [];
const rows = cells
  .filter(({ machines }) => machines >= 4)
  .map((cell) => {
    const { travelS: travel, fetchS, putS, loadS, unloadS, cycleS, machines } = cell;
    const spec = {
      travel,
      fetchS,
      putS,
      loadS: [0, ...loadS],
      unloadS: [0, ...unloadS],
      cycleS: [0, ...cycleS],
    };
    const found = bestSchedule(unlikeCell(spec));
    const made = cycleS.reduce((sum, s, i) => sum + s * found.partsPerPeriod[`p${i + 1}`], 0) / found.periodS;
    const visits = Object.values(found.partsPerPeriod).reduce((sum, n) => sum + n, 0);
    const limit = (made * found.periodS) / found.boundS;
    const runs = SEEDS.map((seed) => anneal(cell, seed, TRIALS, [3 * machines, 9 * machines]));
    const other = runs.reduce((best, run) => (run.rate > best.rate ? run : best));
    if (!found.proven) verdicts.push(verdict(cell.id, made, limit, other.rate));
    console.log(cell.id, made, limit, ...runs.map((run) => run.rate));
    return [
      cell.id,
      `${made.toFixed(4)}${found.proven ? ', proven' : ''}`,
      visits,
      limit.toFixed(4),
      pct(100 * (limit / made - 1)),
      runs.map((run) => run.rate.toFixed(4)).join(', '),
      other.services,
      pct(100 * (other.rate / made - 1)),
    ];
  });

const head = [
  'cell',
  'schedule',
  'its visits',
  'upper limit',
  'gap',
  'annealing, by seed',
  'visits of its best',
  'its best to the schedule',
];
writeFileSync(
  new URL('../../../docs/unlike-cells.md', import.meta.url),
  `# Unlike machines: is the schedule short, or its upper limit?

Independent machines with unlike cycles (tests/reference/recomputed/unlike-machines.json), machine-cycle seconds made a second.
\`schedule\` proves two to four such machines over every sequence; of six, eight and twelve it gives an upper limit that no
sequence exceeds, and the gap to it. To see which of the two falls short, another method that shares no code with the program
looked for sequences too: simulated annealing (S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, *Science* 220, 1983) over repeating
sequences, ${(TRIALS / 1e6).toFixed(0)} million of them for each of the seeds ${SEEDS.join(', ')}. Written by
\`node scripts/bench/unlike/long-run.mjs\` on ${new Date().toISOString().slice(0, 10)}; it counts sequences, not seconds, so the machine does not matter.

${table(head, rows)}

${verdicts.map((line) => `- ${line}`).join('\n')}
`,
);
