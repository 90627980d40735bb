/** What a command writes: checked before the work, written whole after it. */
import { join, resolve } from 'node:path';
import { checkOutputFile, type OutputFile } from '../files/output-file.js';
import { checkOutputFolder, writeOutputFolder } from '../files/output-folder.js';
import type { OutputRefused } from '../files/output-refused.js';
import type { FileContent } from '../files/write-files.js';
import { paragraph } from '../render/paragraph.js';
import { visibleText } from '../render/visible-text.js';
import type { Answer } from './answer.js';
import type { CommandSpec, OptionValues } from './command-spec.js';
import { EXIT } from './exit-codes.js';
import type { Io } from './io.js';
import { UsageError } from './usage-error.js';

/** @throws UsageError for an empty name; OutputRefused or WriteError where it could not be written */
export async function checkOutputs(
  { name, writes }: CommandSpec,
  values: OptionValues,
  io: Io,
): Promise<void> {
  if (writes === undefined) return;
  const shown = (values[writes.option] ?? writes.unasked) as string | undefined;
  if (shown === undefined) return;
  if (shown.trim() === '')
    throw new UsageError(
      `\`--${writes.option}\` needs the name of a ${writes.kind}; the one given is empty.`,
    );
  const path = resolve(io.cwd, shown);
  if (writes.kind === 'file') await checkOutputFile({ path, shown });
  else await checkOutputFolder({ path, shown, command: name, inputs: [] }, writes.names);
}

export interface RunFiles {
  /** Name of the command. */
  readonly command: string;
  /** Folder to write, as the user gave it. */
  readonly out: string;
  /** Contents by file name. */
  readonly files: Readonly<Record<string, FileContent>>;
  /** Folders that the run reads and that the command does not refuse by itself, absolute. */
  readonly inputs?: readonly string[];
}

/** @returns the paths written, as shown to the user; without files the folder stays as it is */
export async function writeRun({ command, out, files, inputs = [] }: RunFiles, io: Io): Promise<string[]> {
  if (Object.keys(files).length === 0) return [];
  const names = await writeOutputFolder({ path: resolve(io.cwd, out), shown: out, command, inputs }, files);
  return names.map((name) => visibleText(join(out, name)));
}

export function outputFile(shown: string, io: Io): OutputFile {
  return { path: resolve(io.cwd, shown), shown };
}

export function refusedAnswer({ message }: OutputRefused): Answer {
  return {
    exit: EXIT.wrongInput,
    fields: { status: 'refused', reason: message },
    text: (style) => `${paragraph(message, style.columns)}\n`,
    inputs: [],
  };
}
