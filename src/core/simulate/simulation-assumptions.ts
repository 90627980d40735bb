/** What the simulation takes for granted, as sentences for the report; only those that bear on the cell. */
import type { Cell } from '../model/cell.js';
import { isAlone } from './loss-causes.js';
import type { ResolvedOptions } from './simulation-options.js';

export function simulationAssumptions(cell: Cell, options: ResolvedOptions): string[] {
  const when = (holds: boolean, text: string): string[] => (holds ? [text] : []);
  const racks = cell.stations.some(
    (s) => (s.kind === 'infeed' || s.kind === 'outfeed') && s.capacityParts !== null,
  );
  return [
    options.openSpans === null
      ? 'The cell runs without a break, attended, at full speed.'
      : 'The cell is stopped between shifts; cycles and moves under way go on when it opens again.',
    ...when(
      options.openSpans !== null && cell.robot.attendedSpeedPct < 100,
      'The reduced speed holds in all hours of attended shifts, breaks included, and slows travel only.',
    ),
    ...when(
      cell.stations.some((s) => s.mtbfH !== null),
      'Random stops come after exponential processing times about mtbf_h; each needs an operator, and clears after an exponential time about mttr_min unless variation.csv says otherwise. The cycle then goes on where it stopped.',
    ),
    ...when(
      cell.changeovers.some((c) => c.perYear > 0),
      'Changeovers are not simulated; the week of a shift pattern (`shifts`) has them.',
    ),
    ...when(
      cell.stops.length > 0,
      'A planned stop begins when the station has finished the part that makes it due, before the robot is called. Hourly stops count open hours.',
    ),
    ...when(
      racks,
      'A rack that runs out is refilled (or cleared) in full by an operator, in the time of its planned stop or in no time; racks are also topped up when the operators leave.',
    ),
    ...when(
      racks && options.losses && options.openSpans?.some(isAlone) === true,
      'A rack topped up before a break makes a later call unnecessary, with its response time. Where that saves more than the absence costs, having no operator there shows as a small gain.',
    ),
    ...when(
      cell.stations.some((s) => s.mtbfH !== null) || cell.stops.some((s) => s.operator) || racks,
      'Operators take calls in the order in which they came, and end the work that they have begun.',
    ),
    ...when(
      cell.parts.some((p) => p.yieldPct < 100),
      'Scrap is found at the outfeed, after all steps.',
    ),
    ...when(
      cell.routes.length > 1 && options.dispatch !== 'order',
      'Parts with a ratio or a demand are started set by set, at most one set ahead; others as the stations call.',
    ),
    ...when(
      options.losses,
      'Losses are separated by adding one cause at a time, with the same random numbers.',
    ),
  ];
}
