/** Starts the page of a cell. */
import { render } from 'preact';
import { keepSaving } from './shell/autosave.js';
import { carriedDesk, engineHire, keepPage } from './shell/carried.js';
import { listenForDrops } from './shell/dropped-files.js';
import { deskInHash } from './shell/link.js';
import { Page } from './shell/page.js';
import { rateWorker } from './shell/rate-worker.js';
import { listenForKeys } from './shell/shortcuts.js';
import { keepAnswering } from './state/answers.js';
import { deedsBy } from './state/deeds.js';
import { EMPTY_DESK } from './state/desk.js';
import { keepRateNews } from './state/rate-news.js';
import { beginWith } from './state/store.js';

keepPage();
const first = deskInHash(location.hash) ?? carriedDesk();
beginWith(first ?? EMPTY_DESK, first === null ? '' : `${first.name} is open.`);
const engine = engineHire();
deedsBy(engine);
keepSaving();
listenForKeys();
listenForDrops();
keepAnswering((question) => (question === 'schedule' ? hireForRate() : engine()));
keepRateNews();
render(<Page />, document.getElementById('page')!);

/** The first of them has been started before this script was read. */
function hireForRate(): Worker {
  const first = globalThis.firstWorker;
  globalThis.firstWorker = undefined;
  return first ?? rateWorker();
}
