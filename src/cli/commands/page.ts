/** `page`: one HTML file in which a cell can be changed and its answers seen, without a network. */
import { basename, resolve } from 'node:path';
import { Option } from 'commander';
import { writeOutputPage } from '../../files/output-file.js';
import { readCellFolder } from '../../files/read-cell-folder.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { paragraph } from '../../render/paragraph.js';
import { inBackticks } from '../../tables/in-backticks.js';
import { applySettings } from '../../tables/overrides/apply-settings.js';
import { tableFiles } from '../../tables/table-formats.js';
import type { Answer } from '../answer.js';
import { type CarriedCell, cellPage } from '../cell-page.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { outputFile } from '../outputs.js';
import { wrongInput } from '../wrong-input.js';

const DEFAULT_OUT = 'cell.html';

export const pageCommand: CommandBody = {
  argument: 'folder or workbook that holds the tables of the cell; without it the page is empty',
  options: () => [
    new Option('--out <file>', `file to write; default ${DEFAULT_OUT}`),
    new Option(
      '--solver',
      'also carry the solver, so that the page plans the mix and the jobs and writes a report of a cell that has parts.csv or jobs.csv (about 2 MB more)',
    ),
  ],
  writes: { option: 'out', kind: 'file', unasked: DEFAULT_OUT },
  examples: [
    'page my-cell',
    'page my-cell --out my-page.html',
    'page my-cell --solver',
    'page --out empty.html',
  ],
  run: async (folder, values, io) => {
    const out = (values.out as string | undefined) ?? DEFAULT_OUT;
    const withSolver = values.solver === true;
    if (folder === undefined) return written({ out, withSolver, cell: null }, { inputs: [] }, io);
    const { cell, complaints, inputs, notes, layers } = await readCellFolder(
      resolve(io.cwd, folder),
      io.settings,
    );
    if (cell === null || layers === null) return wrongInput(complaints, inputs);
    const { tables: all } = applySettings(layers, io.settings ?? []);
    const tables = Object.fromEntries(Object.entries(all).filter(([file]) => tableFiles.includes(file)));
    const name = basename(resolve(io.cwd, folder)).replace(/\.(xlsx|ods)$/i, '');
    const before = { inputs, assumptions: notes, warnings: complaintLines(complaints) };
    return written({ out, withSolver, cell: { name, tables } }, before, io);
  },
};

interface Wanted {
  readonly out: string;
  readonly cell: CarriedCell | null;
  readonly withSolver: boolean;
}

async function written(
  { out, withSolver, cell }: Wanted,
  before: Pick<Answer, 'inputs' | 'assumptions' | 'warnings'>,
  io: Io,
): Promise<Answer> {
  await writeOutputPage(outputFile(out, io), cellPage(cell, withSolver));
  const what = cell === null ? 'an empty page' : `the page of ${cell.name}`;
  const text = `Wrote ${what} as ${inBackticks(out)}. Open it in any browser; it needs no network.`;
  return {
    exit: EXIT.done,
    fields: { status: 'written', written: [out] },
    text: (style) => `${paragraph(text, style.columns)}\n`,
    ...before,
  };
}
