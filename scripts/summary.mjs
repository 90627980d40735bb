// Prints one plain line from the JSON report of vitest: `N passed, N failed`. Ends with 1 where a test failed.
import { readFileSync } from 'node:fs';

const report = JSON.parse(readFileSync(process.argv[2], 'utf8'));
const { numPassedTests, numFailedTests, numPendingTests, success } = report;
const skipped = numPendingTests > 0 ? `, ${numPendingTests} skipped` : '';
process.stdout.write(`${numPassedTests} passed, ${numFailedTests} failed${skipped}\n`);
process.exitCode = success && numFailedTests === 0 ? 0 : 1;
