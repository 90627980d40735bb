/** Writes measured values as tables into a folder or workbook of their own, which builds on the cell. */
import { basename, dirname, relative, resolve } from 'node:path';
import type { InputFile } from '../files/read-table-file.js';
import { cellBook } from '../render/starter-book.js';
import { pieces, printer } from '../render/text-section.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { tableText } from '../tables/table-text.js';
import { type Workbook, workbookKind } from '../workbook/workbook.js';
import type { Answer } from './answer.js';
import type { OptionValues } from './command-spec.js';
import type { Io } from './io.js';
import { type RunFiles, writeRun } from './outputs.js';

interface Measured {
  /** Name of the command. */
  readonly command: 'log' | 'readings';
  /** What the values come from, as the user gave it. */
  readonly file: string;
  /** Folder of the cell, as the user gave it, and what was read of it; null where there is none. */
  readonly folder: string | null;
  readonly cellInputs: readonly InputFile[];
  /** Does what is written build on the folder? */
  readonly builds: boolean;
}

interface Content {
  /** Tables of a cell, with the measured values, by file name. */
  readonly tables: Readonly<Record<string, string>>;
  /** Texts and figures that go with them. */
  readonly texts: Readonly<Record<string, string>>;
  /** The figures as a workbook, and its name in a folder; alone, it holds the tables too. */
  readonly book: RunFiles['book'];
}

/** The answer, and where `--out` is given, also as files: the answer then names them. */
export async function withMeasuredFolder(
  answer: Answer,
  of: Measured,
  content: () => Content,
  values: OptionValues,
  io: Io,
): Promise<Answer> {
  const out = values.out as string | undefined;
  if (out === undefined) return answer;
  const written = await writeMeasured(out, of, content(), io);
  const next = of.builds ? ` Compare with \`roundsman schedule ${out}\`.` : '';
  const said = `Written: ${written.join(', ')}.${next}`;
  return {
    ...answer,
    fields: { ...answer.fields, out, written },
    text: (style) =>
      written.length === 0 ? answer.text(style) : pieces(answer.text(style), printer(style).said(said)),
  };
}

/** @returns paths as shown */
function writeMeasured(out: string, of: Measured, content: Content, io: Io): Promise<string[]> {
  const { command, folder, builds } = of;
  const at = (path: string) => resolve(io.cwd, path);
  const head = `# Written by \`roundsman ${command}\` from ${basename(of.file)}.\n`;
  const isBook = workbookKind(out) !== null;
  const base = builds && folder !== null ? baseRows(isBook ? dirname(at(out)) : at(out), at(folder)) : null;
  const tables = { ...content.tables, ...(base === null ? {} : { [BASE_FILE]: tableText(base) }) };
  const files = Object.entries({ ...tables, ...content.texts }).map(([name, text]) => [
    name,
    `${head}${text}`,
  ]);
  const book = isBook
    ? { ...content.book, content: withTables(content.book.content, content.tables, base) }
    : content.book;
  const inputs = [at(of.file), ...(folder === null ? [] : foldersRead(at(folder), of.cellInputs))];
  return writeRun({ command, out, inputs, files: Object.fromEntries(files), book }, io);
}

/** The folders that a cell was read from: its own, and those that it builds on. */
function foldersRead(folder: string, inputs: readonly InputFile[]): string[] {
  return [...new Set([folder, ...inputs.map(({ file }) => dirname(resolve(folder, file)))])];
}

type BaseRows = readonly (readonly string[])[];

function baseRows(from: string, base: string): BaseRows {
  const path = (relative(from, base) || '.').replaceAll('\\', '/');
  return [['folder'], [path]];
}

/** The sheets of the figures, then those of a cell; what they are named is no table of a cell. */
function withTables(figures: Workbook, tables: Content['tables'], base: BaseRows | null): Workbook {
  const sheets = base === null ? [] : [{ name: BASE_FILE.replace('.csv', ''), rows: base }];
  return {
    ...figures,
    sheets: [...figures.sheets, ...cellBook('', tables).sheets, ...sheets],
  };
}
