/** What hangs on people being there and only a run through the shifts of a week takes in. */
import type { Cell } from './cell.js';

/** @param stops none where stops are not in the figures anyhow @returns a sentence for those who do not run the week; none where nothing hangs on it */
export function attendedOnlyNote({ parts, stops }: Pick<Cell, 'parts' | 'stops'>): string[] {
  const names = parts.filter((p) => p.unattended === false).map((p) => p.part);
  const early = stops.some((stop) => (stop.earlyParts ?? 0) > 0);
  const what = [
    ...(names.length > 0
      ? [`${names.join(', ')} ${names.length === 1 ? 'starts' : 'start'} only with people there (unattended)`]
      : []),
    ...(early ? ['stops done early (early_parts)'] : []),
  ];
  return what.length === 0
    ? []
    : [`Not in these figures: ${what.join('; ')}. See \`shifts\` and \`simulate\`.`];
}
