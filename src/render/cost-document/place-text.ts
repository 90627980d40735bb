/** Where a figure stands in the tables, as file and line. */
import type { Place } from '../../core/model/place.js';

/** @param lines where several rows give one value @example placeText({ file: 'costs.csv', line: 4 }) // 'costs.csv:4' */
export function placeText(place: Place | null, lines: readonly number[] = []): string {
  if (place === null) return '';
  return place.file.includes('.')
    ? `${place.file}:${lineRanges(lines.length > 0 ? lines : [place.line])}`
    : place.file;
}

/** @example lineRanges([2, 3, 4, 9]) // '2-4,9' */
export function lineRanges(lines: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const line of [...lines].sort((a, b) => a - b)) {
    const last = runs[runs.length - 1];
    if (last && line <= last[1] + 1) last[1] = line;
    else runs.push([line, line]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`)).join(',');
}
