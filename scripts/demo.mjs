// The main job on the demo cell: prints the answer and writes the files in reports/. `--quiet` prints no answer.
import { fileURLToPath } from 'node:url';
import { runProgram } from '../dist/cli/run-program.js';

const isQuiet = process.argv.includes('--quiet');
const say = (text) => {
  if (!isQuiet) process.stdout.write(text);
};

say('The demo cell in data/demo: an invented shop with one robot and four machines.\n\n');
process.exitCode = await runProgram(['report', 'data/demo', '--out', 'reports'], {
  stdout: say,
  stderr: (text) => process.stderr.write(text),
  cwd: fileURLToPath(new URL('..', import.meta.url)),
  isTTY: process.stdout.isTTY === true,
  isErrorTTY: process.stderr.isTTY === true,
  columns: process.stdout.columns,
  env: process.env,
  platform: process.platform,
});
say('Your own cell: `roundsman init my-cell`, then `roundsman report my-cell`; see README.md.\n');
