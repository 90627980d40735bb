/** When a set-up ends that is begun at a moment: its work rests in breaks and ends within its time window. */
import type { JobMachine } from './job-problem.js';
import type { WeekSlot } from './week-slots.js';

/** Seconds; less is rounding. */
const MOMENT_S = 1e-6;

export interface SetupSpan {
  readonly startS: number;
  /** From when on the machine is stopped for it. */
  readonly standsFromS: number;
  readonly endS: number;
}

/**
 * @param machine what its set-ups need: people, and the share of them in which it is stopped
 * @param minutes of work
 * @param atS earliest moment to begin
 * @param isBare nothing was set up before, so that the machine cannot run in any part of it
 * @returns the earliest span from then on; null where it does not fit into the window any more
 */
export function setupSpan(
  slot: WeekSlot,
  machine: Pick<JobMachine, 'people' | 'internalShare'>,
  minutes: number,
  atS: number,
  isBare: boolean,
): SetupSpan | null {
  const { presence } = slot;
  const isTended = machine.people > 0;
  const count = isTended ? presence.length : 1;
  let leftS = minutes * 60;
  let runsS = isBare ? 0 : leftS * (1 - machine.internalShare);
  let startS = Number.NaN;
  let standsFromS = Number.NaN;
  // By index: this is asked some hundred times for every week that is tried.
  for (let i = 0; i < count; i++) {
    const toS = isTended ? presence[i]![1] : slot.endS;
    const beginS = Math.max(isTended ? presence[i]![0] : slot.startS, atS);
    if (beginS > toS - (leftS > 0 ? MOMENT_S : 0)) continue;
    if (Number.isNaN(startS)) startS = beginS;
    if (Number.isNaN(standsFromS)) {
      if (runsS <= toS - beginS) standsFromS = beginS + runsS;
      else runsS -= toS - beginS;
    }
    if (leftS <= toS - beginS + MOMENT_S) {
      const endS = beginS + leftS;
      const isStopped = !Number.isNaN(standsFromS);
      return { startS, standsFromS: isStopped ? Math.min(endS, standsFromS) : endS, endS };
    }
    leftS -= toS - beginS;
  }
  return null;
}
