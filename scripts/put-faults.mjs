// Puts faults of the kind that people make into the program, one at a time, runs the tests that are to notice each, and
// puts the program back: `npm run faults`. Ends with 1 where one is not noticed. No part of the checks of every change.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

/** What stands in the file, once, what is put in its place, and the tests that are to notice it. */
const FAULTS = [
  {
    what: 'the rule `nearest` takes the longest cycle',
    file: 'src/core/floor/dispatch/call-order.ts',
    from: 'nearest: (cell, { pick }, _op, at) => cell.travelEmptyS[at * cell.stationCount + pick.station]!',
    to: 'nearest: (cell, _round, op) => -cell.opCycleS[op]!',
    tests: 'tests/core/simulate/dispatch-rules.test.ts',
  },
  {
    what: 'a comparison runs its cells under the best program, not under the one asked for',
    file: 'src/core/compare/compare-cells.ts',
    from: 'pattern, { program: dispatch }',
    to: "pattern, { program: 'best' }",
    tests: 'tests/core/simulate/dispatch-rules.test.ts',
  },
  {
    what: 'a plain rule against the sequence is always `first`',
    file: 'src/core/simulate/plain-rule.ts',
    from: '    program: rule,',
    to: "    program: 'first',",
    tests: 'tests/core/simulate/dispatch-rules.test.ts',
  },
  {
    what: 'size.csv: parts an hour and parts a shift change places',
    file: 'src/render/result-tables/size-tables.ts',
    from: 'r.partsPerH,\n      r.partsPerShift,',
    to: 'r.partsPerShift,\n      r.partsPerH,',
    tests: 'tests/render/report-page/report-files.test.ts',
  },
  {
    what: 'points.csv: inputs and outputs change places',
    file: 'src/render/result-tables/point-tables.ts',
    from: 's.inputs,\n          s.outputs,',
    to: 's.outputs,\n          s.inputs,',
    tests: 'tests/render/report-page/report-files.test.ts',
  },
  {
    what: 'compare.csv: the ends of the interval change places',
    file: 'src/render/result-tables/result-table.ts',
    from: 'e.mean, e.ciLow, e.ciHigh]',
    to: 'e.mean, e.ciHigh, e.ciLow]',
    tests: 'tests/render/report-page/report-files.test.ts',
  },
  {
    what: 'setups-by-shift.csv: the part before and the part after change places',
    file: 'src/render/result-tables/job-tables.ts',
    from: 's.from, s.to]',
    to: 's.to, s.from]',
    tests: 'tests/render/report-page/report-files.test.ts',
  },
];

let unnoticed = 0;
for (const { what, file, from, to, tests } of FAULTS) {
  const path = join(root, file);
  const sound = readFileSync(path, 'utf8');
  if (sound.split(from).length !== 2) throw new Error(`${file} does not hold once: ${from}`);
  const restore = () => writeFileSync(path, sound);
  process.on('exit', restore);
  writeFileSync(
    path,
    sound.replace(from, () => to),
  );
  const { stdout } = spawnSync(
    'npx',
    ['vitest', 'run', '--config', 'tests/vitest.config.ts', tests, '--reporter=json'],
    {
      cwd: root,
      encoding: 'utf8',
    },
  );
  restore();
  process.off('exit', restore);
  const { testResults } = JSON.parse(stdout.slice(stdout.indexOf('{"num')));
  const failed = testResults
    .flatMap((result) => result.assertionResults)
    .filter(({ status }) => status === 'failed')
    .map(({ title }) => title);
  if (failed.length === 0) unnoticed++;
  process.stdout.write(
    `${what}: ${failed.length === 0 ? 'NOT NOTICED' : `noticed by “${failed.join('”, “')}”`}\n`,
  );
}
process.exitCode = unnoticed === 0 ? 0 : 1;
