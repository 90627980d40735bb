/** Starts the page of a cell. */
import { render } from 'preact';
import { keepSaving } from './shell/autosave.js';
import { carriedDesk, keepText, workerHire } from './shell/carried.js';
import { listenForDrops } from './shell/dropped-files.js';
import { deskInHash } from './shell/link.js';
import { Page } from './shell/page.js';
import { listenForKeys } from './shell/shortcuts.js';
import { keepAnswering } from './state/answers.js';
import { deedsBy } from './state/deeds.js';
import { EMPTY_DESK } from './state/desk.js';
import { beginWith } from './state/store.js';

keepText();
beginWith(deskInHash(location.hash) ?? carriedDesk() ?? EMPTY_DESK);
const hire = workerHire();
deedsBy(hire);
keepSaving();
listenForKeys();
listenForDrops();
render(<Page />, document.getElementById('page')!);
afterDrawing(() => keepAnswering(hire));

/** Starting the workers takes as long as drawing the page, which should be seen first; a page out of sight is not drawn. */
function afterDrawing(start: () => void): void {
  let isStarted = false;
  const once = (): void => {
    if (isStarted) return;
    isStarted = true;
    start();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 1000);
}
