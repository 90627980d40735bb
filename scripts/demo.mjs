// The main job on the demo cell: prints the answer and writes the files in reports/. `--quiet` prints no answer.
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PROGRAM, programVersion } from '../dist/cli/version.js';
import { costCase } from '../dist/core/cost/cost-case.js';
import { lostContribution } from '../dist/core/cost/lost-contribution.js';
import { costWord } from '../dist/core/model/cost-value.js';
import { bestSchedule } from '../dist/core/schedule/best-schedule.js';
import { shiftPatterns } from '../dist/core/shifts/shift-patterns.js';
import { sizeCell } from '../dist/core/size/size-cell.js';
import { sizeSearch } from '../dist/core/size/size-search.js';
import { readCellFolder } from '../dist/files/read-cell-folder.js';
import { writeFiles } from '../dist/files/write-files.js';
import { renderComplaints } from '../dist/render/complaints.js';
import { cellAnswer, reportFiles } from '../dist/render/report-files.js';
import { plainStyle } from '../dist/render/text-style.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const isQuiet = process.argv.includes('--quiet');
const say = (text) => {
  if (!isQuiet) process.stdout.write(`${text}\n`);
};

const { cell, complaints, inputs } = await readCellFolder(join(root, 'data', 'demo'));
process.stderr.write(renderComplaints(complaints, { colour: false }));
if (cell === null) process.exit(1);

say(
  'The demo cell in data/demo: an invented shop with one robot and four machines. This takes some seconds.\n',
);
const schedule = bestSchedule(cell, { whatIf: true });
if (!('order' in schedule)) {
  process.stderr.write(`No sequence was found for the demo cell: ${schedule.reason}\n`);
  process.exit(1);
}
const money = costCase(cell, lostContribution(cell, schedule));
if (money.status !== 'found') {
  process.stderr.write(`${money.recommendation}\n`);
  process.exit(1);
}
const results = {
  name: 'data/demo (an invented shop)',
  currency: costWord(cell.costs, 'currency') ?? '',
  schedule,
  shifts: shiftPatterns(cell, schedule),
  size: sizeCell({ cell, order: 'best' }, sizeSearch(cell)),
  costCase: money,
  files: inputs,
  program: `${PROGRAM} ${programVersion()}`,
};
const paths = await writeFiles(join(root, 'reports'), reportFiles(results));
say(cellAnswer(results, plainStyle));
say(`Written: ${paths.map((path) => relative(root, path)).join(', ')}.`);
say('Your own cell: `roundsman init my-cell`, then `roundsman schedule my-cell`; see README.md.');
