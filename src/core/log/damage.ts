/** What was wrong with a log: every kind counted, with the line where it came first. Nothing is passed over unseen. */

export const DAMAGE_KINDS = {
  'broken line': 'lines could not be read and were left out',
  'unknown signal': 'records carry signals that are not known here and were left out',
  'unknown station': 'records name stations that the cell does not have and were left out',
  drop: 'records are drops of signals of which only the rise says something; they were passed over',
  repeat: 'records repeat a value that has not changed; they were passed over',
  duplicate: 'records are in the log twice; one of each was used',
  bounce: 'records are bouncing signals; the first edge of each was used',
  'out of order': 'records were out of order and were put in their place',
  stray: 'records are too far from their neighbours in time to be put in place and were left out',
  gap: 'gaps, in which nothing was logged; no time across one was used',
  'clock back':
    'times the clock was set back; the log was put together, and no time across such a place was used',
  'clock ahead':
    'times the log fell silent while work was going on that continues after it: the clock was put ahead, records were lost, or the whole cell was stopped without a signal; no time across such a place was used',
  'other zone':
    'times the zone changes in which the log is written; every record was taken at its own moment, and shifts go by `--zone` or, without it, by the first zone',
  missing: 'signals that must have been there are missing; the times that lack one were left out',
  cut: 'times were cut off by the start or the end of the log, by a gap or by a clock that was set, and were left out',
} as const;
export type DamageKind = keyof typeof DAMAGE_KINDS;

export interface DamageEntry {
  readonly kind: DamageKind;
  /** What happened and what was done about it. */
  readonly text: string;
  /** What of the kind, such as the signal that is missing or the name that is not known; empty where there is no more to say. */
  readonly what: string;
  readonly count: number;
  /** Line of the file, from 1; null where no line is at fault. */
  readonly firstLine: number | null;
}

/** Kinds that are told one by one; further ones of a kind are counted together. */
const MOST_ENTRIES = 40;

interface Tally {
  count: number;
  firstLine: number | null;
}

export class Damage {
  private readonly tallies = new Map<DamageKind, Map<string, Tally>>();

  note(kind: DamageKind, line: number | null, what = '', count = 1): void {
    const ofKind = this.tallies.get(kind) ?? new Map<string, Tally>();
    this.tallies.set(kind, ofKind);
    const key = ofKind.has(what) || ofKind.size < MOST_ENTRIES ? what : 'others';
    const tally = ofKind.get(key);
    if (tally === undefined) ofKind.set(key, { count, firstLine: line });
    else {
      tally.count += count;
      if (line !== null && (tally.firstLine === null || line < tally.firstLine)) tally.firstLine = line;
    }
  }

  count(kind: DamageKind): number {
    let sum = 0;
    for (const { count } of this.tallies.get(kind)?.values() ?? []) sum += count;
    return sum;
  }

  /** By kind in the order of the list, the most frequent first. */
  entries(): DamageEntry[] {
    return (Object.keys(DAMAGE_KINDS) as DamageKind[]).flatMap((kind) =>
      [...(this.tallies.get(kind) ?? [])]
        .map(([what, { count, firstLine }]) => ({ kind, text: DAMAGE_KINDS[kind], what, count, firstLine }))
        .sort((a, b) => b.count - a.count),
    );
  }
}
