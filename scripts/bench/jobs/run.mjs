// The job plan of weeks of 5 to 200 jobs: processor seconds, memory, and how far the plan is from its bound.
// `node scripts/bench/jobs/run.mjs 20` runs that size alone; each size is best run by itself, as memory is that of the whole process.
import { jobWeek } from './cells.mjs';

const { readCell, weeklyJobs } = await import('../../../dist/index.js');
const { highsSolver } = await import('../../../dist/solver/highs-solver.js');

const SIZES = [
  { jobs: 5, parts: 5, machines: 4 },
  { jobs: 10, parts: 10, machines: 6 },
  { jobs: 20, parts: 15, machines: 6 },
  { jobs: 50, parts: 30, machines: 6 },
  { jobs: 100, parts: 50, machines: 6 },
  { jobs: 200, parts: 80, machines: 6 },
];

const asked = process.argv
  .slice(2)
  .filter((word) => /^\d+$/.test(word))
  .map(Number);
const solve = await highsSolver();
console.log('jobs parts machines  late  bound  not made  bound  set-up min  bound  proven  CPU s  MB');
for (const size of SIZES.filter(({ jobs }) => asked.length === 0 || asked.includes(jobs))) {
  const cell = readCell(jobWeek({ ...size, seed: 1 }));
  const before = process.cpuUsage();
  const { plans } = weeklyJobs(cell, { ways: {}, setUpFor: {} }, solve);
  const { user, system } = process.cpuUsage(before);
  const [plan] = plans;
  const wanted = cell.jobs.reduce((sum, job) => sum + job.quantity, 0);
  const made = plan.jobs.reduce(
    (sum, job) => sum + job.made.reduce((parts, share) => parts + share.parts, 0),
    0,
  );
  if (made + plan.notMade !== wanted) throw new Error('the parts of the plan do not add up');
  for (const goal of plan.goals)
    if (goal.bound > goal.value + 1e-6) throw new Error(`the bound of ${goal.goal} lies above its value`);
  const goals = plan.goals.flatMap(({ value, bound }) => [value.toFixed(1), bound.toFixed(1)]);
  console.log(
    [
      size.jobs,
      size.parts,
      size.machines,
      ...goals,
      plan.proven ? 'yes' : 'no',
      ((user + system) / 1e6).toFixed(1),
      Math.round(process.resourceUsage().maxRSS / 1024),
    ].join('  '),
  );
}
