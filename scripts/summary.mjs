// Prints one plain line from JSON reports of vitest: `N passed, N failed`. A test that is in several of them, as those
// that do more in the deep run, counts once: failed where it failed in any, skipped where it ran in none. Ends with 1
// where a test failed or a report did not come to its end.
import { readFileSync } from 'node:fs';

const WORST = ['failed', 'passed', 'skipped'];
const reports = process.argv.slice(2).map((path) => JSON.parse(readFileSync(path, 'utf8')));
const statuses = new Map();
for (const { name, assertionResults } of reports.flatMap(({ testResults }) => testResults)) {
  // Tests of a table may share a name: they are told apart by their place among those.
  const places = new Map();
  for (const { fullName, status } of assertionResults) {
    const place = places.get(fullName) ?? 0;
    places.set(fullName, place + 1);
    const key = [name, fullName, place].join('\n');
    const one = WORST.includes(status) ? status : 'skipped';
    const known = statuses.get(key) ?? 'skipped';
    statuses.set(key, WORST[Math.min(WORST.indexOf(one), WORST.indexOf(known))]);
  }
}
const count = (status) => [...statuses.values()].filter((s) => s === status).length;
const skipped = count('skipped') > 0 ? `, ${count('skipped')} skipped` : '';
process.stdout.write(`${count('passed')} passed, ${count('failed')} failed${skipped}\n`);
process.exitCode = reports.every(({ success }) => success) && count('failed') === 0 ? 0 : 1;
