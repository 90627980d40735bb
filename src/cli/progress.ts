/** A line on standard error while long work goes on, when a terminal is there to see it. */
import type { Io } from './io.js';

const CLEAR_LINE = '\r\u001b[2K';

/** Shows `text`, does the work, takes the text away; work that goes on later keeps it until it is done. */
export function withProgress<T>(io: Io, text: string, work: () => T): T {
  if (!io.isErrorTTY || io.env.TERM === 'dumb') return work();
  io.stderr(`${text} …`);
  const done = (): void => io.stderr(CLEAR_LINE);
  try {
    const result = work();
    if (result instanceof Promise) return result.finally(done) as T;
    done();
    return result;
  } catch (error) {
    done();
    throw error;
  }
}

export interface Progress {
  /** Shows a text in place of the one before. */
  readonly show: (text: string) => void;
  /** Takes the text away. */
  readonly end: () => void;
}

/** A text that changes while the work goes on. */
export function liveProgress(io: Io): Progress {
  if (!io.isErrorTTY || io.env.TERM === 'dumb') return { show: () => {}, end: () => {} };
  let shown = '';
  return {
    show: (text) => {
      if (text === shown) return;
      io.stderr(`${shown === '' ? '' : CLEAR_LINE}${text}`);
      shown = text;
    },
    end: () => {
      if (shown !== '') io.stderr(CLEAR_LINE);
      shown = '';
    },
  };
}
