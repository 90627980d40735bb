/** What hangs on people being there and only a run through the shifts of a week takes in. */
import type { Cell } from './cell.js';

/** @returns a sentence for those who do not run the week; none where nothing hangs on it */
export function attendedOnlyNote({ parts, stops }: Pick<Cell, 'parts' | 'stops'>): string[] {
  const names = parts.filter((p) => p.unattended === false).map((p) => p.part);
  const early = stops.some((stop) => (stop.earlyParts ?? 0) > 0);
  const what = [
    ...(names.length > 0
      ? [`that ${names.join(', ')} is taken in only while people are there (unattended)`]
      : []),
    ...(early ? ['stops done early before people leave (early_parts)'] : []),
  ];
  return what.length === 0
    ? []
    : [`Not in these figures: ${what.join(', and ')}. \`shifts\` and \`simulate\` have it.`];
}
