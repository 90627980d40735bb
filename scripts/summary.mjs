// Prints one plain line from JSON reports of vitest, summed: `N passed, N failed`. Ends with 1 where a test failed.
import { readFileSync } from 'node:fs';

const reports = process.argv.slice(2).map((path) => JSON.parse(readFileSync(path, 'utf8')));
const sum = (name) => reports.reduce((total, report) => total + report[name], 0);
const skipped = sum('numPendingTests') > 0 ? `, ${sum('numPendingTests')} skipped` : '';
process.stdout.write(`${sum('numPassedTests')} passed, ${sum('numFailedTests')} failed${skipped}\n`);
process.exitCode = reports.every(({ success }) => success) && sum('numFailedTests') === 0 ? 0 : 1;
