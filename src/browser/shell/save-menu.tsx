/** What can be taken away: this page with the cell, a workbook, the tables, a link, the documents. */
import { desk, inspection, status } from '../state/store.js';
import { pageWith } from './carried.js';
import { foldersOf } from './desk-folders.js';
import { cellHash, LONG_LINK } from './link.js';
import { saveBook, saveCase, saveReport, zipped } from './save-documents.js';
import { fileName, saveFile } from './save-file.js';
import { canSaveFolder, saveFolder } from './save-folder.js';

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
        {canSaveFolder() && (
          <button type="button" onClick={() => saveFolder(desk.value)}>
            The tables into a folder
          </button>
        )}
        <button type="button" onClick={copyLink}>
          Copy a link with the cell in it
        </button>
        <button type="button" disabled={cell === null} onClick={saveCase}>
          The cost case as a document
        </button>
        <button type="button" disabled={cell === null} onClick={saveReport}>
          The whole report
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
