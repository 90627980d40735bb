/**
 * Asks a worker one question at a time. A newer question ends the worker that is busy with an older one; while something
 * is dragged, the newest place waits for the answer that is on its way, so that answers keep coming.
 */
import type { Asked, Said } from './messages.js';

type Wanted = Omit<Asked, 'id'>;

/** What is used of a worker. */
export interface Hired {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: unknown): void;
  terminate(): void;
}

export interface Asker {
  readonly ask: (wanted: Wanted) => void;
  /** Ends what is on its way; its answers are not heard. */
  readonly stop: () => void;
}

/** @param hire starts a worker */
export function asker(hire: () => Hired, onSaid: (said: Said) => void): Asker {
  let worker: Hired | null = null;
  let running: Asked | null = null;
  let waiting: Wanted | null = null;
  let lastId = 0;

  const hear = ({ data: said }: MessageEvent<Said>): void => {
    if (said.id !== running?.id) return;
    if (said.kind === 'done' || said.kind === 'failed') running = null;
    onSaid(said);
    if (running !== null || waiting === null) return;
    const next = waiting;
    waiting = null;
    send(next);
  };

  const send = (wanted: Wanted): void => {
    if (worker === null) {
      worker = hire();
      worker.onmessage = hear;
      worker.onerror = (event) => {
        const question = running?.question ?? wanted.question;
        running = null;
        onSaid({ id: lastId, kind: 'failed', question, reason: event.message });
      };
    }
    lastId += 1;
    running = { ...wanted, id: lastId };
    worker.postMessage(running);
  };

  const stop = (): void => {
    waiting = null;
    if (running === null) return;
    worker?.terminate();
    worker = null;
    running = null;
  };

  return {
    ask: (wanted) => {
      if (running?.rateOnly && wanted.rateOnly) {
        waiting = wanted;
        return;
      }
      stop();
      send(wanted);
    },
    stop,
  };
}
