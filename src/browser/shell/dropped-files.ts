/** Files dropped on the page, those within dropped folders too. */
import { openBrowserFiles } from './open-buttons.js';

interface DroppedFile {
  readonly path: string;
  readonly file: File;
}

/** More than any cell has: a drop of a whole disk ends here. */
const MOST_FILES = 500;

export function listenForDrops(): void {
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', async (event) => {
    event.preventDefault();
    if (event.dataTransfer !== null) await openBrowserFiles(await droppedFiles(event.dataTransfer));
  });
}

async function droppedFiles(dropped: DataTransfer): Promise<DroppedFile[]> {
  const entries = [...dropped.items].map((item) => item.webkitGetAsEntry()).filter((entry) => entry !== null);
  const found: DroppedFile[] = [];
  for (const entry of entries) await gather(entry, found);
  return found;
}

async function gather(entry: FileSystemEntry, found: DroppedFile[]): Promise<void> {
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
    for (const inner of some) await gather(inner, found);
  }
}
