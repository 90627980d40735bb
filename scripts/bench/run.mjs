// Runs the benchmarks: `npm run bench` runs all, `npm run bench -- schedule` (or `simulate`, `size`, `log`) one; `--quick` is
// shorter where a benchmark has a short form. Needs dist/ (npm run build).
const BENCHMARKS = ['simulate', 'floor', 'schedule', 'size', 'log', 'jobs', 'unlike', 'page'];

const names = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const unknown = names.find((name) => !BENCHMARKS.includes(name));
if (unknown !== undefined) {
  console.error(`There is no benchmark ${unknown}; there are ${BENCHMARKS.join(', ')}.`);
  process.exit(2);
}
for (const name of names.length > 0 ? names : BENCHMARKS) {
  console.log(`\n== ${name} ==`);
  await import(`./${name}/run.mjs`);
}
