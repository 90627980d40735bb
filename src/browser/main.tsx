/** Starts the page of a cell. */
import { render } from 'preact';
import { keepSaving } from './shell/autosave.js';
import { carriedDesk, keepText, workerHire } from './shell/carried.js';
import { listenForDrops } from './shell/dropped-files.js';
import { Page } from './shell/page.js';
import { listenForKeys } from './shell/shortcuts.js';
import { keepAnswering } from './state/answers.js';
import { EMPTY_DESK } from './state/desk.js';
import { beginWith } from './state/store.js';

keepText();
beginWith(carriedDesk() ?? EMPTY_DESK);
keepAnswering(workerHire());
keepSaving();
listenForKeys();
listenForDrops();
render(<Page />, document.getElementById('page')!);
