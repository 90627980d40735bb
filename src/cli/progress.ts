/** A line on standard error while long work goes on, when a terminal is there to see it. */
import type { Io } from './io.js';

const CLEAR_LINE = '\r\u001b[2K';

/** Shows `text`, does the work, takes the text away. */
export function withProgress<T>(io: Io, text: string, work: () => T): T {
  if (!io.isErrorTTY || io.env.TERM === 'dumb') return work();
  io.stderr(`${text} …`);
  try {
    return work();
  } finally {
    io.stderr(CLEAR_LINE);
  }
}
