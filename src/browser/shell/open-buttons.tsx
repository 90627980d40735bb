/** Buttons that open a folder, or files, through the browser's own dialogs. */

import { askForDeed } from '../state/deeds.js';
import { desk, openDesk, status } from '../state/store.js';
import { type OpenedFile, openedDesk } from './open-files.js';

export function OpenButtons() {
  return (
    <>
      <label class="button">
        Open a folder
        <input
          type="file"
          // @ts-expect-error: every browser knows it, the types of the elements do not
          webkitdirectory
          multiple
          class="away"
          onChange={(event) => opened(event.currentTarget)}
        />
      </label>
      <label class="button">
        Open files
        <input
          type="file"
          multiple
          accept=".csv,.zip,.xlsx,.ods"
          class="away"
          onChange={(event) => opened(event.currentTarget)}
        />
      </label>
    </>
  );
}

async function opened(input: HTMLInputElement): Promise<void> {
  const files = [...(input.files ?? [])];
  await openBrowserFiles(files.map((file) => ({ path: file.webkitRelativePath || file.name, file })));
  input.value = '';
}

/** Opens what was picked or dropped, or says why not. */
export async function openBrowserFiles(
  files: readonly { readonly path: string; readonly file: File }[],
): Promise<void> {
  if (files.length === 0) return;
  const read = await Promise.all(
    files.map(async ({ path, file }) => ({ path, bytes: new Uint8Array(await file.arrayBuffer()) })),
  );
  const outcome = openedDesk(read, desk.value);
  if ('book' in outcome) await openBook(outcome.book);
  else if ('refused' in outcome) status.value = outcome.refused;
  else openDesk(outcome.desk, [`Opened ${outcome.desk.name}.`, ...outcome.notes].join(' '));
}

async function openBook({ path, bytes }: OpenedFile): Promise<void> {
  const file = path.split('/').at(-1)!;
  const done = await askForDeed({ deed: 'open workbook', file, bytes });
  if ('refused' in done) status.value = done.refused;
  if (!('tables' in done)) return;
  const name = file.replace(/\.(xlsx|ods)$/i, '');
  openDesk({ name, tables: done.tables, variants: [] }, [`Opened ${file}.`, ...done.notes].join(' '));
}
