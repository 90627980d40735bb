/** A worker whose script is still being unpacked: what it is given waits until then. */
import type { Hired } from '../engine/asker.js';

/** @param start gives the worker once it can be had */
export function lateWorker(start: Promise<() => Worker>): Hired {
  let worker: Worker | null = null;
  let isEnded = false;
  const waiting: unknown[] = [];
  const late: Hired = {
    onmessage: null,
    onerror: null,
    postMessage: (message) => {
      if (worker === null) waiting.push(message);
      else worker.postMessage(message);
    },
    terminate: () => {
      isEnded = true;
      worker?.terminate();
    },
  };
  start
    .then((begin) => {
      if (isEnded) return;
      worker = begin();
      worker.onmessage = (event) => late.onmessage?.(event);
      worker.onerror = (event) => late.onerror?.(event);
      for (const message of waiting) worker.postMessage(message);
    })
    .catch((error: unknown) => late.onerror?.(new ErrorEvent('error', { message: String(error) })));
  return late;
}
