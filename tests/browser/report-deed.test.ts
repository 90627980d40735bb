// The report that the page's worker writes is the one of the command, to the letter.
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Done } from '../../src/browser/engine/messages.js';
import { reportDeed } from '../../src/browser/engine/report-deed.js';
import { firstCell } from '../../src/browser/start/first-cell.js';
import { pageScript } from '../../src/cli/page-script.js';
import { programVersion } from '../../src/cli/version.js';
import { complaintLines } from '../../src/render/complaint-lines.js';
import { PROGRAM } from '../../src/render/result-json.js';
import { inspectTables, type Tables } from '../../src/tables/inspect-tables.js';
import { freshFolder, runIn } from '../cli/run-in.js';

/** Long times: a week of few parts, and few machines that its robot could tend. */
const ONE_MACHINE = firstCell({ cyclesS: [300], loadS: 60, unloadS: 40 });

function written(tables: Tables, files: readonly { file: string; sha256: string }[]): Promise<Done> {
  const { cell, complaints } = inspectTables(tables);
  const facts = {
    files,
    program: `${PROGRAM} ${programVersion()}`,
    warnings: complaintLines(complaints),
  };
  const wanted = { name: 'my-cell', cell: cell!, tables, facts, script: pageScript() };
  return reportDeed(wanted, () => undefined);
}

test('every text of the report is that of the command', async () => {
  const cwd = freshFolder();
  mkdirSync(join(cwd, 'my-cell'));
  for (const [file, text] of Object.entries(ONE_MACHINE)) writeFileSync(join(cwd, 'my-cell', file), text);
  const said = await runIn(cwd, ['report', 'my-cell', '--out', 'out', '--workers', '1', '--json']);
  expect(said.exit).toBe(0);
  const done = await written(ONE_MACHINE, (JSON.parse(said.out) as { inputs: [] }).inputs);
  const files = 'files' in done ? done.files : {};
  // The command's own list of what it wrote is no part of the report.
  const theirs = readdirSync(join(cwd, 'out')).filter((file) => !file.endsWith('.json'));
  expect(Object.keys(files).sort()).toEqual(theirs.sort());
  for (const [file, content] of Object.entries(files)) {
    expect(Buffer.from(content as string).equals(readFileSync(join(cwd, 'out', file))), file).toBe(true);
  }
});

test('what needs the solver is said, and nothing is written', async () => {
  const tables = { ...ONE_MACHINE, 'parts.csv': 'part,contribution\npart,3\n' };
  expect(await written(tables, [])).toEqual({ refused: expect.stringContaining('parts.csv') });
});
