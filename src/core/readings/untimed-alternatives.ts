/** Steps with alternative stations of which only some were timed: one row holds the time of all. */
import type { Step } from '../model/cell.js';
import type { MeasuredTime } from './ready-rows.js';

/** @returns a sentence for each such step */
export function untimedAlternatives(measured: readonly MeasuredTime[]): string[] {
  const timed = new Map<Step, { part: string; stations: Set<string> }>();
  for (const { timed: element, steps } of measured)
    for (const { route, step } of steps) {
      if (element.kind !== 'station' || step.stations.length < 2) continue;
      const entry = timed.get(step) ?? { part: route.part, stations: new Set<string>() };
      timed.set(step, entry);
      entry.stations.add(element.station);
    }
  return [...timed].flatMap(([step, { part, stations }]) => {
    const rest = step.stations.filter((name) => !stations.has(name));
    if (rest.length === 0) return [];
    return [
      `Step ${step.step} of ${part} has one time for ${step.stations.join(', ')}; ${rest.join(', ')} ${rest.length === 1 ? 'was' : 'were'} not timed and ${rest.length === 1 ? 'takes' : 'take'} it too.`,
    ];
  });
}
