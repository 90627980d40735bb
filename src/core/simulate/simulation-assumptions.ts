/** What the simulation takes for granted, as sentences for the report; only those that bear on the cell. */

import { isAlone } from '../floor/loss-switches.js';
import { isCallRule, PROGRAM_TEXTS } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import type { ResolvedOptions } from './simulation-options.js';

export function simulationAssumptions(cell: Cell, options: ResolvedOptions): string[] {
  const when = (holds: boolean, text: string): string[] => (holds ? [text] : []);
  const racks = cell.stations.some(
    (s) => (s.kind === 'infeed' || s.kind === 'outfeed') && s.capacityParts !== null,
  );
  return [
    `Robot program: ${PROGRAM_TEXTS[options.program]}.`,
    options.openSpans === null
      ? 'The cell runs without a break, attended, at full speed.'
      : 'The cell is stopped between shifts. The robot starts no move that it cannot finish before the cell closes; a move under way goes on when the cell opens, and running machine cycles finish.',
    ...when(
      options.openSpans !== null && cell.robot.attendedSpeedPct < 100,
      'The reduced speed holds in all hours of attended shifts, breaks included, and slows travel only.',
    ),
    ...when(
      cell.stations.some((s) => s.mtbfH !== null),
      'Random stops come after exponential processing times about mtbf_h; each needs an operator, and clears after an exponential time about mttr_min unless variation.csv says otherwise. The cycle then goes on where it stopped.',
    ),
    ...when(
      options.changeovers !== null,
      'The changeovers of a year of 52 weeks fall due at even distances in its attended hours; the runs meet weeks spread over the year. One begins when its machine is empty, and only where it ends before the people leave.',
    ),
    ...when(
      cell.changeovers.some((c) => c.perYear > 0) &&
        options.changeovers === null &&
        options.openSpans === null,
      'Changeovers need shifts with people; without shifts.csv they are left out.',
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
      'A rack topped up before a break makes a later call unnecessary. Where a cause saves more of another than it costs, the two are shown as one.',
    ),
    ...when(
      cell.stations.some((s) => s.mtbfH !== null) || cell.stops.some((s) => s.operator) || racks,
      'Operators take calls in the order in which they came, and finish what they have begun; breaks and unattended hours interrupt it.',
    ),
    ...when(
      cell.parts.some((p) => p.yieldPct < 100),
      'Scrap is found at the outfeed, after all steps.',
    ),
    ...when(
      cell.routes.length > 1 && isCallRule(options.program),
      'Parts with a ratio or a demand are started set by set, at most one set ahead; others as the stations call.',
    ),
    ...when(
      options.losses,
      'Losses are separated by adding one cause at a time, with the same random numbers.',
    ),
  ];
}
