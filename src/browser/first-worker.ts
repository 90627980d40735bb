/** Runs before the script of the page is read: the worker that finds the first answer starts meanwhile. */
import { rateWorker } from './shell/rate-worker.js';

declare global {
  var firstWorker: Worker | undefined;
}

globalThis.firstWorker = rateWorker();
