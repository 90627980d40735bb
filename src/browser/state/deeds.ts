/** Has the worker do what takes or gives files. */
import type { Hired } from '../engine/asker.js';
import type { Deed, Doing, Done } from '../engine/messages.js';

let hire: (() => Hired) | null = null;

/** @param start starts a worker */
export function deedsBy(start: () => Hired): void {
  hire = start;
}

/** @param onProgress called while longer work goes on */
export function askForDeed(
  deed: Deed,
  onProgress: (done: number, of: number) => void = () => undefined,
): Promise<Done> {
  const worker = hire!();
  return new Promise<Done>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<Done | Doing>) => {
      if ('doing' in data) onProgress(...data.doing);
      else resolve(data);
    };
    worker.onerror = (event) => resolve({ refused: `The program failed: ${event.message}` });
    worker.postMessage(deed);
  }).finally(() => worker.terminate());
}
