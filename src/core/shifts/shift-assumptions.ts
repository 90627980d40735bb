/** What the yield of a pattern takes for granted, as sentences for the report. */

import { isAsked } from '../calendar/asked-amounts.js';
import { PROGRAM_TEXTS, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { changeoverAssumptions } from './changeover-notes.js';
import type { ChangeoverWork } from './changeover-work.js';
import { PAID_BREAK_MIN } from './labour-cost.js';

export interface AssumptionInputs {
  readonly cell: Cell;
  /** Stations that the sequence visits. */
  readonly visited: ReadonlySet<string>;
  readonly program: Program;
  /** The changeovers of the machines that the order visits. */
  readonly work: readonly ChangeoverWork[];
  readonly hasBreaks: boolean;
  readonly atEnd: 'parts stay' | 'run out';
  /** Causes in the order in which they are switched on. */
  readonly steps: readonly string[];
}

/** Only sentences that bear on this cell and pattern. */
export function shiftAssumptions({
  cell,
  visited: stations,
  program,
  work,
  hasBreaks,
  atEnd,
  steps,
}: AssumptionInputs): string[] {
  const visited = (station: string): boolean => stations.has(station);
  const stops = cell.stops.filter((s) => visited(s.station));
  const racks = cell.stations.some(
    (s) => (s.kind === 'infeed' || s.kind === 'outfeed') && s.capacityParts !== null,
  );
  const when = (holds: boolean, text: string): string[] => (holds ? [text] : []);
  return [
    `Robot program: ${PROGRAM_TEXTS[program]}.`,
    'The cell is stopped between shifts. The robot starts no move that it cannot finish before the cell closes; a move under way goes on when the cell opens, and running machine cycles finish.',
    atEnd === 'parts stay'
      ? 'Parts stay inside between shifts; the next shift goes on where the last one stopped.'
      : 'Before the cell closes the robot takes no new part that would not be out in time, so each working span starts with an empty cell.',
    'The week is the one that the pattern settles into, not the first one from an empty cell.',
    ...when(
      hasBreaks,
      'In a break of an attended shift the robot goes on, but there is no operator to refill racks or attend to stops. Breaks of unattended shifts change nothing.',
    ),
    ...when(
      hasBreaks,
      `Breaks of ${PAID_BREAK_MIN} minutes or less are paid, longer ones are not (29 CFR 785.18 and 785.19).`,
    ),
    'Unattended shifts cost no labour.',
    ...when(
      cell.parts.some(isAsked),
      'Of a part of which an amount is asked (per_shift, per_week) what is made beyond that amount earns nothing.',
    ),
    ...when(
      cell.robot.attendedSpeedPct < 100,
      'The reduced speed holds in all hours of attended shifts, breaks included, and slows travel only.',
    ),
    ...when(
      stops.length > 0,
      'A planned stop begins when the station has finished the part that makes it due, and nothing is picked or placed there until it is over. Hourly stops count open hours from the end of the last one. Several stops at different stations may overlap.',
    ),
    ...when(
      stops.some((s) => s.operator),
      'A stop that needs an operator is worked on only while one is there and free; until then the station is down.',
    ),
    ...when(
      stops.some((s) => !s.operator),
      'A stop that needs no operator goes on by itself, also after the cell has closed.',
    ),
    ...when(
      racks,
      'A rack that runs out is refilled (or cleared) in full by an operator, in the time of its planned stop or in no time; racks are also topped up when the operators leave.',
    ),
    ...changeoverAssumptions(work, atEnd),
    ...when(
      cell.stations.some((s) => s.mtbfH !== null),
      'Random stops (mtbf_h, mttr_min) are not in these figures.',
    ),
    ...when(
      cell.variation.some((v) => v.element === 'response'),
      'An operator who is there comes at once; the response time of variation.csv counts in simulated figures only.',
    ),
    `Losses are separated by adding one cause at a time: ${[...steps, 'longest waits overrun', 'changeovers', 'scrap'].join('; ')} (those that apply).`,
  ];
}
