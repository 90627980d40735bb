// The main job on the demo cell: prints the answer and writes the files in reports/. `--quiet` prints no answer.
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runProgram } from '../dist/cli/run-program.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const reports = join(root, 'reports');
const isQuiet = process.argv.includes('--quiet');
const say = (text) => {
  if (!isQuiet) process.stdout.write(text);
};

say('The demo cell in data/demo: an invented shop with one robot and four machines.\n\n');
// Written elsewhere first: the program itself writes over nothing that it does not know as its own, and after a checkout
// with other line ends, or one of an older state, it would not know these files.
const elsewhere = mkdtempSync(join(tmpdir(), 'roundsman-demo-'));
try {
  process.exitCode = await runProgram(['report', join(root, 'data/demo'), '--out', 'reports'], {
    stdout: say,
    stderr: (text) => process.stderr.write(text),
    cwd: elsewhere,
    isTTY: process.stdout.isTTY === true,
    isErrorTTY: process.stderr.isTTY === true,
    columns: process.stdout.columns,
    env: process.env,
    platform: process.platform,
  });
  if (process.exitCode === 0) takeOver(join(elsewhere, 'reports'));
} finally {
  rmSync(elsewhere, { recursive: true, force: true });
}
say('Your own cell: `roundsman init my-cell`, then `roundsman report my-cell`; see README.md.\n');

/** What a former run left goes, what somebody else put there stays. */
function takeOver(fresh) {
  const list = join(reports, 'written-by-roundsman.json');
  const former = existsSync(list) ? Object.keys(JSON.parse(readFileSync(list, 'utf8')).files) : [];
  for (const name of former) rmSync(join(reports, name), { force: true });
  for (const name of readdirSync(fresh)) cpSync(join(fresh, name), join(reports, name));
}
