/** Signals that are missing at one station, counted until the end tells which of its signals the log holds at all. */

import { LOG_SIGNALS } from '../model/log-signals.js';
import type { Damage } from './damage.js';

interface Tally {
  count: number;
  readonly firstLine: number;
}

export class Lacks {
  private readonly missing = new Map<number, Tally>();
  private readonly cut = new Map<number, Tally>();

  /** @param kind `cut` where the signal may lie before or after a break of the log */
  note(kind: 'missing' | 'cut', signal: number, line: number): void {
    const tally = this[kind].get(signal);
    if (tally === undefined) this[kind].set(signal, { count: 1, firstLine: line });
    else tally.count++;
  }

  /** @param isLogged true for a signal that the log holds at this station */
  tell(damage: Damage, station: string, isLogged: (signal: number) => boolean): void {
    for (const kind of ['missing', 'cut'] as const)
      for (const [signal, { count, firstLine }] of this[kind])
        if (isLogged(signal)) damage.note(kind, firstLine, `${LOG_SIGNALS[signal]} at ${station}`, count);
  }
}
