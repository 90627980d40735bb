/** What a command writes: checked before the work, written whole after it. */
import { join, resolve } from 'node:path';
import { checkOutputFile, type OutputFile, writeOutputBook } from '../files/output-file.js';
import { checkOutputFolder, writeOutputFolder } from '../files/output-folder.js';
import type { OutputRefused } from '../files/output-refused.js';
import type { FileContent } from '../files/write-files.js';
import { paragraph } from '../render/paragraph.js';
import { visibleText } from '../render/visible-text.js';
import { type Workbook, workbookKind } from '../workbook/workbook.js';
import { workbookBytes } from '../workbook/write-workbook.js';
import type { Answer } from './answer.js';
import type { CommandSpec, OptionValues, Writes } from './command-spec.js';
import { EXIT } from './exit-codes.js';
import type { Io } from './io.js';
import { UsageError } from './usage-error.js';

/**
 * @param reads folders and files that the run reads, as the user gave them
 * @throws UsageError for an empty name; OutputRefused or WriteError where it could not be written
 */
export async function checkOutputs(
  spec: CommandSpec,
  values: OptionValues,
  reads: readonly string[],
  io: Io,
): Promise<void> {
  const { name, writes, tables } = spec;
  const inputs = reads.map((path) => resolve(io.cwd, path));
  refuseIdleCsv(spec, values);
  if (writes !== undefined) await checkOutput(name, writes, values, inputs, io);
  if (tables !== undefined) await checkOutput(name, tableWrites(spec, tables), values, inputs, io);
}

/** A form of CSV where none is written would be passed over in silence. */
function refuseIdleCsv(spec: CommandSpec, values: OptionValues): void {
  const { writes, tables } = spec;
  const all = [writes, tables === undefined ? undefined : tableWrites(spec, tables)].filter(
    (one) => one !== undefined,
  );
  if (values.csv === undefined || all.length === 0) return;
  const options = all.map(({ option }) => `\`--${option}\``).join(' or ');
  const outs = all.flatMap(({ option, unasked }) => values[option] ?? unasked ?? []) as string[];
  if (outs.length === 0)
    throw new UsageError(`\`--csv\` is the form of what ${options} writes; name a place with it too.`);
  if (outs.every((out) => workbookKind(out) !== null))
    throw new UsageError(
      `\`--csv\` is the form of CSV files; a workbook has none. Leave it out, or name a place for CSV with ${options}.`,
    );
}

/** Where a command that answers with tables writes them. */
function tableWrites({ name, page }: CommandSpec, tables: readonly string[]): Writes {
  const pages = page === true ? [pageName(name)] : [];
  return { option: 'out', kind: 'folder', names: [...tables, ...pages, bookName(name)] };
}

/** The page in a folder of tables. */
export function pageName(command: string): string {
  return `${command}.html`;
}

/** The workbook in a folder of tables. */
export function bookName(command: string): string {
  return `${command}.xlsx`;
}

async function checkOutput(
  command: string,
  writes: Writes,
  values: OptionValues,
  inputs: readonly string[],
  io: Io,
): Promise<void> {
  const shown = (values[writes.option] ?? writes.unasked) as string | undefined;
  if (shown === undefined) return;
  if (shown.trim() === '')
    throw new UsageError(
      `\`--${writes.option}\` needs the name of a ${writes.kind}; the one given is empty.`,
    );
  const path = resolve(io.cwd, shown);
  if (writes.kind === 'file' || workbookKind(shown) !== null) await checkOutputFile({ path, shown, inputs });
  else await checkOutputFolder({ path, shown, command, inputs }, writes.names);
}

export interface RunFiles {
  /** Name of the command. */
  readonly command: string;
  /** Folder to write, or the workbook alone, as the user gave it. */
  readonly out: string;
  /** Contents by file name. */
  readonly files: Readonly<Record<string, FileContent>>;
  /** The workbook, and its name in a folder. */
  readonly book: { readonly name: string; readonly content: Workbook };
  /** Folders that the run reads and that the command does not refuse by itself, absolute. */
  readonly inputs?: readonly string[];
}

/** @returns the paths written, as shown to the user; without files a folder stays as it is */
export async function writeRun(run: RunFiles, io: Io): Promise<string[]> {
  const { command, out, files, book, inputs = [] } = run;
  const kind = workbookKind(out);
  if (kind !== null) {
    await writeOutputBook(outputFile(out, io), await workbookBytes(book.content, kind));
    return [visibleText(out)];
  }
  if (Object.keys(files).length === 0) return [];
  const all = { ...files, [book.name]: await workbookBytes(book.content, 'xlsx') };
  const names = await writeOutputFolder({ path: resolve(io.cwd, out), shown: out, command, inputs }, all);
  return names.map((name) => visibleText(join(out, name)));
}

/** @param reads files that the run reads, as the user gave them */
export function outputFile(shown: string, io: Io, reads: readonly string[] = []): OutputFile {
  const inputs = reads.map((path) => resolve(io.cwd, path));
  return { path: resolve(io.cwd, shown), shown, inputs };
}

export function refusedAnswer({ message }: OutputRefused): Answer {
  return {
    exit: EXIT.wrongInput,
    fields: { status: 'refused', reason: message },
    text: (style) => `${paragraph(message, style.columns)}\n`,
    inputs: [],
  };
}
