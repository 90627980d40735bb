/** A single file of results: nothing is written over that the program did not write, or that was changed since. */
import { createHash } from 'node:crypto';
import { createReadStream, promises as fs } from 'node:fs';
import { basename, dirname } from 'node:path';
import { inBackticks } from '../tables/in-backticks.js';
import { BASE_FILE } from '../tables/overrides/base-table.js';
import { SEAL_CHARACTERS, sealLine, sealOf } from '../tables/seal.js';
import { tableFiles } from '../tables/table-formats.js';
import { probeFolder } from './make-folder.js';
import { OutputRefused } from './output-refused.js';
import { replaceFile, writeAtomically } from './write-files.js';
import { sha256 } from './written-list.js';

export interface OutputFile {
  /** Absolute path. */
  readonly path: string;
  /** As the user gave it. */
  readonly shown: string;
  /** Files and folders that the run reads, absolute. */
  readonly inputs?: readonly string[];
}

/**
 * Whether the file may be written, and can be.
 * @throws OutputRefused or WriteError where not
 */
export async function checkOutputFile(to: OutputFile): Promise<void> {
  const { path, shown } = to;
  if ([...tableFiles, BASE_FILE].includes(basename(path).toLowerCase()))
    throw new OutputRefused(
      `${inBackticks(shown)} has the name of a table of a cell. ${NOTHING} Choose another name for the file.`,
    );
  const there = await fs.lstat(path).catch(() => null);
  if (there?.isDirectory() || there?.isSymbolicLink())
    throw new OutputRefused(
      `${inBackticks(shown)} is a ${there.isDirectory() ? 'folder' : 'link'}, expected the name of a file. ${NOTHING}`,
    );
  if (there !== null && (await isInput(to)))
    throw new OutputRefused(
      `This run reads ${inBackticks(shown)}. ${NOTHING} Choose another name for the file.`,
    );
  if (there !== null && !(await isSealed(path, there.size)))
    throw new OutputRefused(
      `${inBackticks(shown)} is there already, and not as roundsman wrote it. ${NOTHING} Name another file, or move this one away.`,
    );
  await probeFolder(dirname(path));
}

const NOTHING = 'Nothing was written, so that nothing is lost.';

async function isInput({ path, inputs = [] }: OutputFile): Promise<boolean> {
  const real = (p: string) => fs.realpath(p).catch(() => p);
  return (await Promise.all(inputs.map(real))).includes(await real(path));
}

/** Writes the text with a seal below it. */
export async function writeOutputFile(to: OutputFile, text: string): Promise<void> {
  await checkOutputFile(to);
  await writeAtomically(to.path, `${text}${sealLine(sha256(text))}`);
}

/**
 * The same for a workbook. Its seal stands in the comment that ends every zip file, which spreadsheets pass over.
 * @param book bytes of an .xlsx or .ods file without a comment
 */
export async function writeOutputBook(to: OutputFile, book: Uint8Array): Promise<void> {
  await checkOutputFile(to);
  const bytes = Buffer.from(book);
  if (bytes.readUInt32LE(bytes.length - ZIP_END_BYTES) !== ZIP_END)
    throw new RangeError('the workbook does not end as a zip file does');
  bytes.writeUInt16LE(SEAL_CHARACTERS, bytes.length - 2);
  await writeAtomically(to.path, Buffer.concat([bytes, Buffer.from(sealLine(sha256(bytes)))]));
}

/** The last record of a zip file; its last two bytes are the length of the comment that follows. */
const ZIP_END = 0x06054b50;
const ZIP_END_BYTES = 22;

/** The same for a page, whose seal is a comment after its end. */
export async function writeOutputPage(to: OutputFile, html: string): Promise<void> {
  await writeOutputFile(to, `${html}<!--\n`);
}

/** The same for a text that `write` writes, seal and all, under the path that it is given. */
export async function writeOutputPieces<T>(
  to: OutputFile,
  write: (temporary: string) => Promise<T>,
): Promise<T> {
  await checkOutputFile(to);
  return replaceFile(to.path, write);
}

/** The file ends with the seal of all before it. */
async function isSealed(path: string, size: number): Promise<boolean> {
  const end = size - SEAL_CHARACTERS;
  if (end < 0) return false;
  const hash = createHash('sha256');
  if (end > 0)
    for await (const piece of createReadStream(path, { end: end - 1 })) hash.update(piece as Buffer);
  let last = '';
  for await (const piece of createReadStream(path, { start: end, encoding: 'utf8' })) last += piece;
  return sealOf(last.replace(/\n$/, '')) === hash.digest('hex');
}
