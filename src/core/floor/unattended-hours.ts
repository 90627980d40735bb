/** When the people of a week leave, and for how many open hours the cell then runs alone. */
import { stretchEnds } from './work-clock.js';

export interface Handover {
  /** Nobody is there while the cell is open; breaks of people who come back do not count. */
  readonly alone: boolean;
  /** End of the stretch in which people are there, on the clock of its week; Infinity where somebody always is. */
  readonly leavesS: number;
  /** Open seconds from then on until people come again. */
  readonly aloneS: number;
}

export interface StaffedSegment {
  readonly startS: number;
  readonly endS: number;
  readonly open: boolean;
  readonly attended: boolean;
  readonly operator: boolean;
}

/** @param segments of the week, without gaps */
export function handovers(segments: readonly StaffedSegment[], weekS: number): Handover[] {
  const staffed = segments.map((s) => s.open && (s.attended || s.operator));
  const ends = stretchEnds(
    segments.map(({ endS }, i) => ({ holds: staffed[i]!, endS })),
    weekS,
  );
  return segments.map((segment, i) => ({
    alone: segment.open && !staffed[i],
    leavesS: ends[i]!,
    aloneS: staffed[i] ? openAfter(segments, staffed, i) : 0,
  }));
}

/** Open seconds in the first stretch without people after a segment with people. */
function openAfter(segments: readonly StaffedSegment[], staffed: readonly boolean[], from: number): number {
  const count = segments.length;
  let i = from;
  do i = (i + 1) % count;
  while (staffed[i] && i !== from);
  let openS = 0;
  for (; !staffed[i]; i = (i + 1) % count)
    openS += segments[i]!.open ? segments[i]!.endS - segments[i]!.startS : 0;
  return openS;
}
