/**
 * Files dropped on the page, those within dropped folders too. A page opened from disk cannot read a file through its
 * entry in Chromium, so files are taken as they are and folders by their handles; entries are for browsers without those.
 */
import { status } from '../state/store.js';
import { openBrowserFiles } from './open-buttons.js';

interface DroppedFile {
  readonly path: string;
  readonly file: File;
}

/** More than any cell has: a drop of a whole disk ends here. */
const MOST_FILES = 500;

type WithHandle = DataTransferItem & {
  readonly getAsFileSystemHandle?: () => Promise<FileSystemHandle | null>;
};

export function listenForDrops(): void {
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', async (event) => {
    event.preventDefault();
    if (event.dataTransfer === null) return;
    try {
      await openBrowserFiles(await droppedFiles(event.dataTransfer));
    } catch {
      status.value = 'This browser does not let the page read what was dropped: open it with the buttons.';
    }
  });
}

async function droppedFiles(dropped: DataTransfer): Promise<DroppedFile[]> {
  // All at once: after the first wait the browser has taken back what was dropped.
  const given = [...dropped.items]
    .filter(({ kind }) => kind === 'file')
    .map((item: WithHandle) => {
      const entry = item.webkitGetAsEntry();
      const isFolder = entry?.isDirectory === true;
      return {
        entry,
        file: isFolder ? null : item.getAsFile(),
        handle: isFolder && item.getAsFileSystemHandle?.(),
      };
    });
  const found: DroppedFile[] = [];
  for (const { entry, file, handle } of given) {
    const folder = handle ? await handle : null;
    if (file !== null) found.push({ path: file.name, file });
    else if (folder?.kind === 'directory')
      await gatherHandle(folder as FileSystemDirectoryHandle, folder.name, found);
    else if (entry !== null) await gatherEntry(entry, found);
  }
  return found;
}

async function gatherHandle(
  folder: FileSystemDirectoryHandle,
  path: string,
  found: DroppedFile[],
): Promise<void> {
  for await (const inner of folder.values()) {
    if (found.length >= MOST_FILES) return;
    const at = `${path}/${inner.name}`;
    if (inner.kind === 'directory') await gatherHandle(inner as FileSystemDirectoryHandle, at, found);
    else found.push({ path: at, file: await (inner as FileSystemFileHandle).getFile() });
  }
}

async function gatherEntry(entry: FileSystemEntry, found: DroppedFile[]): Promise<void> {
  if (found.length >= MOST_FILES) return;
  if (entry.isFile) {
    const file = await new Promise<File>((resolve, reject) =>
      (entry as FileSystemFileEntry).file(resolve, reject),
    );
    found.push({ path: entry.fullPath.replace(/^\//, ''), file });
    return;
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  // A reader gives a hundred entries at a time, then none.
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (some.length === 0) return;
    for (const inner of some) await gatherEntry(inner, found);
  }
}
