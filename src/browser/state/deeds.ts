/** Has the worker do what takes or gives files. */
import type { Deed, Done } from '../engine/messages.js';

let hire: (() => Worker) | null = null;

/** @param start starts a worker */
export function deedsBy(start: () => Worker): void {
  hire = start;
}

export function askForDeed(deed: Deed): Promise<Done> {
  const worker = hire!();
  return new Promise<Done>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<Done>) => resolve(data);
    worker.onerror = (event) => resolve({ refused: `The program failed: ${event.message}` });
    worker.postMessage(deed);
  }).finally(() => worker.terminate());
}
