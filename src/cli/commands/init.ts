/** `init`: writes a filled-in starter folder whose comments explain every column. */
import { existsSync, promises as fs } from 'node:fs';
import { resolve } from 'node:path';
import { type CsvForm, PLAIN_CSV } from '../../core/model/csv-form.js';
import { writeAtomically, writeFiles } from '../../files/write-files.js';
import { paragraph } from '../../render/paragraph.js';
import { starterBook } from '../../render/starter-book.js';
import { withColumnComments } from '../../render/table-comments.js';
import { inCsvForm } from '../../tables/in-csv-form.js';
import { besideFormats, tableFormats } from '../../tables/table-formats.js';
import { type WorkbookKind, workbookKind } from '../../workbook/workbook.js';
import { workbookBytes } from '../../workbook/write-workbook.js';
import type { Answer } from '../answer.js';
import type { CommandBody } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { csvFormAsked, csvOption } from '../option-values.js';
import { packagePath } from '../package-path.js';
import { UsageError } from '../usage-error.js';

export const initCommand: CommandBody = {
  argument:
    'folder to write; it is made where it is missing; or a workbook: a name that ends in .xlsx or .ods',
  options: () => [csvOption('comma-point')],
  examples: ['init my-cell', 'init my-shop --csv semicolon-comma', 'init my-cell.xlsx'],
  run: async (given, values, io) => {
    const kind = workbookKind(given!);
    if (kind !== null && values.csv !== undefined)
      throw new UsageError('`--csv` is the form of a folder of tables; a workbook has none. Leave it out.');
    if (kind !== null) return bookAnswer(given!, kind, io);
    const folder = resolve(io.cwd, given!);
    const files = await starterFiles(csvFormAsked(values, PLAIN_CSV));
    const there = Object.keys(files).filter((name) => existsSync(resolve(folder, name)));
    if (there.length > 0)
      return refusal(
        given!,
        there,
        `The folder \`${given}\` already holds ${there.map((file) => `\`${file}\``).join(', ')}. Nothing was written, so that nothing is lost. Name another folder, or move ${there.length === 1 ? 'this file' : 'these files'} away first.`,
      );
    await writeFiles(folder, files);
    return written(
      given!,
      Object.keys(files),
      `Wrote ${tableFormats.length} tables into \`${given}\`, with examples of stopwatch readings (readings.csv) and of a log of signals (log.csv). Lines that begin with # explain the columns; change the figures to yours, and take out the tables that you do not need (only stations.csv, routes.csv and robot.csv must be there).`,
    );
  },
};

async function bookAnswer(given: string, kind: WorkbookKind, io: Io): Promise<Answer> {
  const path = resolve(io.cwd, given);
  if (existsSync(path))
    return refusal(
      given,
      [given],
      `\`${given}\` is there already. Nothing was written, so that nothing is lost. Choose another name.`,
    );
  await writeAtomically(path, await workbookBytes(starterBook(await starterTexts()), kind));
  return written(
    given,
    [given],
    `Wrote \`${given}\` with ${tableFormats.length} tables, each on a sheet, and an example of stopwatch readings. The first sheet explains the others; change the figures to yours, and take out the sheets that you do not need (only stations, routes and robot must be there).`,
  );
}

const formats = [...tableFormats, ...besideFormats];

async function starterTexts(): Promise<Record<string, string>> {
  const entries = await Promise.all(
    formats.map(async ({ file }) => {
      return [file, await fs.readFile(packagePath(`data/starter/${file}`), 'utf8')] as const;
    }),
  );
  return Object.fromEntries(entries);
}

/** The tables of the starter cell with comments on their columns, by file name. */
async function starterFiles(form: CsvForm): Promise<Record<string, string>> {
  const texts = await starterTexts();
  return Object.fromEntries(
    formats.map((format) => {
      const text = texts[format.file]!;
      return [format.file, withColumnComments(format, form === PLAIN_CSV ? text : inCsvForm(text, form))];
    }),
  );
}

function refusal(folder: string, existing: readonly string[], text: string): Answer {
  return {
    exit: EXIT.wrongInput,
    fields: { status: 'refused', folder, existing },
    text: (style) => `${paragraph(text, style.columns)}\n`,
    inputs: [],
  };
}

function written(folder: string, files: readonly string[], text: string): Answer {
  const path = /\s/.test(folder) ? `"${folder}"` : folder;
  const next = `Then run:\n  roundsman check ${path}\n  roundsman schedule ${path}\n`;
  return {
    exit: EXIT.done,
    fields: { status: 'written', folder, files },
    text: (style) => `${paragraph(text, style.columns)}\n\n${next}`,
    inputs: [],
  };
}
