/** What can be taken away: this page with the cell, a workbook, the tables, a link, the documents. */
import { strToU8, zipSync } from 'fflate';
import { complaintLines } from '../../render/complaint-lines.js';
import { PROGRAM } from '../../render/result-json.js';
import { PROGRAM_VERSION, tableSeals } from '../answers/result-file.js';
import type { Deed } from '../engine/messages.js';
import { askForDeed } from '../state/deeds.js';
import { desk, inspection, status } from '../state/store.js';
import { pageWith } from './carried.js';
import { foldersOf } from './desk-folders.js';
import { cellHash, LONG_LINK } from './link.js';
import { fileName, saveFile } from './save-file.js';

/** The day that every zip carries, so that the same tables give the same bytes. */
const NO_DAY = new Date(2000, 0, 1);

export function SaveMenu() {
  const { cell } = inspection.value;
  return (
    <details class="menu">
      <summary>Save</summary>
      <div class="sheet">
        <button type="button" onClick={savePage}>
          This page with the cell in it
        </button>
        <button type="button" onClick={saveBook}>
          A workbook (.xlsx)
        </button>
        <button type="button" onClick={saveZip}>
          The tables as a zip
        </button>
        <button type="button" onClick={copyLink}>
          Copy a link with the cell in it
        </button>
        <button type="button" disabled={cell === null} onClick={saveCase}>
          The cost case as a document
        </button>
      </div>
    </details>
  );
}

const name = (): string => fileName(desk.value.name);

function savePage(): void {
  saveFile(`${name()}.html`, pageWith(desk.value), 'text/html');
  status.value = `Saved as ${name()}.html: it opens anywhere, without a network.`;
}

/** @param files contents by their path in the zip */
function zipped(files: Readonly<Record<string, string | Uint8Array>>): Uint8Array {
  const packed = Object.entries(files).map(([path, content]) => {
    const bytes = typeof content === 'string' ? strToU8(content) : content;
    return [path, [bytes, { mtime: NO_DAY }] as [Uint8Array, { mtime: Date }]] as const;
  });
  return zipSync(Object.fromEntries(packed));
}

function saveZip(): void {
  const files = [...foldersOf(desk.value)].flatMap(([folder, of]) =>
    Object.entries(of).map(([file, text]) => [`${folder}/${file}`, text] as const),
  );
  saveFile(`${name()}.zip`, zipped(Object.fromEntries(files)), 'application/zip');
  status.value = `Saved as ${name()}.zip${pinnedWords(desk.value.variants.length)}.`;
}

function pinnedWords(pinned: number): string {
  return pinned === 0
    ? ''
    : `, with ${pinned === 1 ? 'a folder' : `${pinned} folders`} of changes for what is pinned`;
}

async function saveBook(): Promise<void> {
  await saveDeed({ deed: 'save workbook', name: name(), tables: desk.value.tables });
}

async function saveCase(): Promise<void> {
  const { cell, complaints } = inspection.value;
  if (cell === null) return;
  const facts = {
    files: tableSeals(desk.value.tables),
    program: `${PROGRAM} ${PROGRAM_VERSION}`,
    warnings: complaintLines(complaints),
  };
  await saveDeed({ deed: 'cost document', name: desk.value.name, cell, facts });
}

/** One file as it is, several in a zip. */
async function saveDeed(deed: Deed): Promise<void> {
  status.value = 'Writing …';
  const done = await askForDeed(deed);
  if ('refused' in done) status.value = done.refused;
  if (!('files' in done)) return;
  const [only, ...others] = Object.entries(done.files);
  const inFolder = Object.entries(done.files).map(([path, of]) => [`${name()}/${path}`, of] as const);
  const [file, content] =
    others.length === 0 ? only! : [`${name()}-cost-case.zip`, zipped(Object.fromEntries(inFolder))];
  saveFile(file, content, 'application/octet-stream');
  status.value = `Saved as ${file}.`;
}

async function copyLink(): Promise<void> {
  const link = `${location.href.split('#')[0]}${cellHash(desk.value)}`;
  const warning =
    link.length > LONG_LINK
      ? ` It is ${Math.round(link.length / 1024)} kB long: some mail programs cut links of more than 8 kB, so better save the page.`
      : '';
  try {
    await navigator.clipboard.writeText(link);
    status.value = `The link is copied; the cell travels in the link itself.${warning}`;
  } catch {
    history.replaceState(null, '', link);
    status.value = `The link is in the address line, ready to copy.${warning}`;
  }
}
