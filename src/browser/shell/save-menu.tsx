/** What can be taken away: the tables as a zip, or this page with the cell in it. */
import { strToU8, zipSync } from 'fflate';
import { desk, status } from '../state/store.js';
import { pageWith } from './carried.js';
import { fileName, saveFile } from './save-file.js';

/** The day that every zip carries, so that the same tables give the same bytes. */
const NO_DAY = new Date(2000, 0, 1);

export function SaveMenu() {
  return (
    <details class="menu">
      <summary>Save</summary>
      <div class="sheet">
        <button type="button" onClick={savePage}>
          This page with the cell in it
        </button>
        <button type="button" onClick={saveZip}>
          The tables as a zip
        </button>
      </div>
    </details>
  );
}

function savePage(): void {
  const { name } = desk.value;
  saveFile(`${fileName(name)}.html`, pageWith(desk.value), 'text/html');
  status.value = `Saved as ${fileName(name)}.html: it opens anywhere, without a network.`;
}

function saveZip(): void {
  const { name, tables } = desk.value;
  const folder = fileName(name);
  const files = Object.fromEntries(
    Object.entries(tables).map(([file, text]) => [
      `${folder}/${file}`,
      [strToU8(text), { mtime: NO_DAY }] as const,
    ]),
  );
  saveFile(`${folder}.zip`, zipSync(files as Parameters<typeof zipSync>[0]), 'application/zip');
  status.value = `Saved as ${folder}.zip.`;
}
