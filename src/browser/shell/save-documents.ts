/** The workbook and the documents of the cell, written by the worker with the renderers of the command line. */
import { strToU8, zipSync } from 'fflate';
import { complaintLines } from '../../render/complaint-lines.js';
import { PROGRAM } from '../../render/result-json.js';
import { PROGRAM_VERSION, tableSeals } from '../answers/result-file.js';
import type { Deed, DocumentFacts } from '../engine/messages.js';
import { askForDeed } from '../state/deeds.js';
import { desk, inspection, status } from '../state/store.js';
import { reportScript } from './carried.js';
import { fileName, saveFile } from './save-file.js';

/** The day that every zip carries, so that the same tables give the same bytes. */
const NO_DAY = new Date(2000, 0, 1);

/** @param files contents by their path in the zip */
export function zipped(files: Readonly<Record<string, string | Uint8Array>>): Uint8Array {
  const packed = Object.entries(files).map(([path, content]) => {
    const bytes = typeof content === 'string' ? strToU8(content) : content;
    return [path, [bytes, { mtime: NO_DAY }] as [Uint8Array, { mtime: Date }]] as const;
  });
  return zipSync(Object.fromEntries(packed));
}

export async function saveBook(): Promise<void> {
  const { name, tables } = desk.value;
  await saveDeed({ deed: 'save workbook', name: fileName(name), tables }, 'tables');
}

export async function saveCase(): Promise<void> {
  const { cell } = inspection.value;
  if (cell === null) return;
  await saveDeed({ deed: 'cost document', name: desk.value.name, cell, facts: facts() }, 'cost-case');
}

export async function saveReport(): Promise<void> {
  const { cell } = inspection.value;
  if (cell === null) return;
  const { name, tables } = desk.value;
  const wanted = { name, cell, tables, facts: facts(), script: reportScript() };
  await saveDeed({ deed: 'report', ...wanted }, 'report');
}

function facts(): DocumentFacts {
  return {
    files: tableSeals(desk.value.tables),
    program: `${PROGRAM} ${PROGRAM_VERSION}`,
    warnings: complaintLines(inspection.value.complaints),
  };
}

/** One file as it is, several in a zip. @param kind what the zip holds */
async function saveDeed(deed: Deed, kind: string): Promise<void> {
  const name = fileName(desk.value.name);
  status.value = 'Writing …';
  const done = await askForDeed(deed, (part, of) => {
    status.value = `Working out the ${kind}: ${part} of ${of} parts.`;
  });
  if ('refused' in done) status.value = done.refused;
  if (!('files' in done)) return;
  const [only, ...others] = Object.entries(done.files);
  const inFolder = Object.entries(done.files).map(([path, of]) => [`${name}/${path}`, of] as const);
  const [file, content] =
    others.length === 0 ? only! : [`${name}-${kind}.zip`, zipped(Object.fromEntries(inFolder))];
  saveFile(file, content, 'application/octet-stream');
  status.value = `Saved as ${file}.`;
}
