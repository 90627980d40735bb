/** Writes measured values as tables into a folder or workbook of their own, which builds on the cell. */
import { dirname, relative, resolve } from 'node:path';
import { cellBook } from '../render/starter-book.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { tableText } from '../tables/table-text.js';
import { type Workbook, workbookKind } from '../workbook/workbook.js';
import type { Io } from './io.js';
import { type RunFiles, writeRun } from './outputs.js';

export interface MeasuredFolder {
  /** Folder to write, as the user gave it. */
  readonly out: string;
  /** Name of the command. */
  readonly command: 'log' | 'readings';
  /** What the values come from. */
  readonly source: string;
  /** Folder of the cell, as the user gave it; null where there is none. */
  readonly base: string | null;
  /** Folders and files that were read, absolute. */
  readonly inputs: readonly string[];
  /** Tables of a cell, with the measured values, by file name. */
  readonly tables: Readonly<Record<string, string>>;
  /** Texts and figures that go with them. */
  readonly texts: Readonly<Record<string, string>>;
  /** The figures as a workbook, and its name in a folder; alone, it holds the tables too. */
  readonly book: RunFiles['book'];
}

/** @returns paths as shown */
export function writeMeasuredFolder(to: MeasuredFolder, io: Io): Promise<string[]> {
  const head = `# Written by \`roundsman ${to.command}\` from ${to.source}.\n`;
  const isBook = workbookKind(to.out) !== null;
  const from = isBook ? dirname(resolve(io.cwd, to.out)) : resolve(io.cwd, to.out);
  const base = to.base === null ? null : baseRows(from, resolve(io.cwd, to.base));
  const tables = { ...to.tables, ...(base === null ? {} : { [BASE_FILE]: tableText(base) }) };
  const files = Object.entries({ ...tables, ...to.texts }).map(([name, content]) => [
    name,
    `${head}${content}`,
  ]);
  const { command, out, inputs } = to;
  const book = isBook ? { ...to.book, content: withTables(to.book.content, to.tables, base) } : to.book;
  return writeRun({ command, out, inputs, files: Object.fromEntries(files), book }, io);
}

type BaseRows = readonly (readonly string[])[];

function baseRows(from: string, base: string): BaseRows {
  const path = (relative(from, base) || '.').replaceAll('\\', '/');
  return [['folder'], [path]];
}

/** The sheets of the figures, then those of a cell; what they are named is no table of a cell. */
function withTables(figures: Workbook, tables: MeasuredFolder['tables'], base: BaseRows | null): Workbook {
  const sheets = base === null ? [] : [{ name: BASE_FILE.replace('.csv', ''), rows: base }];
  return {
    ...figures,
    sheets: [...figures.sheets, ...cellBook('', tables).sheets, ...sheets],
  };
}
