/** Saves the tables into a folder of this machine, where the browser lets a page write into one that the user picks. */
import { BASE_FILE } from '../../tables/overrides/base-table.js';
import { tableFiles } from '../../tables/table-formats.js';
import type { Desk } from '../state/desk.js';
import { status } from '../state/store.js';
import { foldersOf } from './desk-folders.js';

type PickFolder = (options: { readonly mode: 'readwrite' }) => Promise<FileSystemDirectoryHandle>;

function pickFolder(): PickFolder | undefined {
  return (window as { showDirectoryPicker?: PickFolder }).showDirectoryPicker?.bind(window);
}

export function canSaveFolder(): boolean {
  return pickFolder() !== undefined;
}

/** Within the folder that is picked, the cell has a folder of its name, and each pinned state one beside it. */
export async function saveFolder(desk: Desk): Promise<void> {
  const folders = [...foldersOf(desk)];
  try {
    const picked = await pickFolder()!({ mode: 'readwrite' });
    const there: string[] = [];
    for (const [name] of folders) if (await isThere(picked, name)) there.push(name);
    const names = there.map((name) => `“${name}”`).join(', ');
    if (
      there.length > 0 &&
      !window.confirm(`${names} in ${picked.name}: put these tables in place of those there?`)
    ) {
      status.value = 'Nothing is saved.';
      return;
    }
    for (const [name, tables] of folders)
      await write(await picked.getDirectoryHandle(name, { create: true }), tables);
    status.value = `Saved into ${folders.map(([name]) => `${picked.name}/${name}`).join(', ')}.`;
  } catch (error) {
    const wasLeft = error instanceof DOMException && error.name === 'AbortError';
    status.value = wasLeft
      ? 'Nothing is saved.'
      : `The folder cannot be written: ${error instanceof Error ? error.message : String(error)}. Save a zip instead.`;
  }
}

async function isThere(folder: FileSystemDirectoryHandle, name: string): Promise<boolean> {
  return folder.getDirectoryHandle(name).then(
    () => true,
    () => false,
  );
}

async function write(
  folder: FileSystemDirectoryHandle,
  tables: Readonly<Record<string, string>>,
): Promise<void> {
  for (const [file, text] of Object.entries(tables)) {
    const stream = await (await folder.getFileHandle(file, { create: true })).createWritable();
    await stream.write(text);
    await stream.close();
  }
  // A table that the cell no longer has would still be read.
  for (const file of [...tableFiles, BASE_FILE])
    if (!Object.hasOwn(tables, file)) await folder.removeEntry(file).catch(() => undefined);
}
