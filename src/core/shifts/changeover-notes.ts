/** What is to be known of a pattern's changeovers, as sentences. */

import { YEAR_WEEKS } from '../calendar/year.js';
import type { Shift } from '../model/cell.js';
import type { ChangeoverWork } from './changeover-work.js';
import type { ChangeoverYear } from './changeover-year.js';
import type { ChangeoverSummary } from './week-changeovers.js';

/**
 * @param rows the pattern's shifts
 * @returns what keeps changeovers from being done, and who is lacking
 */
export function changeoverNotes(
  work: readonly ChangeoverWork[],
  summary: ChangeoverSummary | null,
  rows: readonly Shift[],
): string[] {
  if (summary === null) return [];
  const count = shortNumber(summary.perYear);
  if (summary.weeks === null)
    return [
      `Changeovers need people, and this pattern has no attended hours: its ${count} changeovers a year cannot be made, and these figures are without them.`,
    ];
  const late = summary.notDonePerYear;
  return [
    ...(late > 1e-9
      ? [
          `People find no time for ${shortNumber(late)} of the ${count} changeovers a year; these figures are without those.`,
        ]
      : []),
    ...peopleNotes(work, rows),
  ];
}

function peopleNotes(work: readonly ChangeoverWork[], rows: readonly Shift[]): string[] {
  const most = Math.max(...rows.map((row) => (row.attended ? Math.max(1, row.operators) : 0)));
  return work
    .filter((row) => row.people > most)
    .map(
      (row) =>
        `A changeover of ${row.station} asks for ${shortNumber(row.people)} people and ${shortNumber(most)} at most ${most === 1 ? 'is' : 'are'} there; the minutes are taken as given.`,
    );
}

/**
 * Where the loss is far from the parts that the standing time would make, the reason.
 *
 * @param partsPerH the steady rate
 */
export function changeoverCostNotes(
  summary: ChangeoverSummary | null,
  year: ChangeoverYear | null,
  partsPerH: number,
): string[] {
  if (summary === null || year === null) return [];
  const direct = (summary.standMinPerYear / YEAR_WEEKS / 60) * partsPerH;
  const lost = year.loss.good.reduce((a, b) => a + b, 0);
  const about = `the steady rate would make about ${Math.round(direct)} in the downtime of the changeovers`;
  if (lost - direct > Math.max(5, direct / 2))
    return [
      `Changeovers cost ${Math.round(lost)} good parts a week, while ${about}: they push planned stops and empty racks into unattended hours.`,
    ];
  if (direct - lost > Math.max(5, direct / 2))
    return [
      `Changeovers cost ${Math.round(lost)} good parts a week, while ${about}: the robot serves the other machines meanwhile, or the cell would have been stopped anyway.`,
    ];
  return [];
}

/** What the placing of changeovers takes for granted; nothing where there are none. */
export function changeoverAssumptions(
  work: readonly ChangeoverWork[],
  atEnd: 'parts stay' | 'run out',
): string[] {
  if (work.length === 0) return [];
  const before =
    atEnd === 'run out'
      ? 'the cell has run empty'
      : 'the machine has ended its part and the robot has taken it out';
  const someOutside = work.some((row) => row.standMin < row.workMin);
  return [
    `The changeovers of a year of 52 weeks fall due at even distances in its attended hours, machine by machine. One begins when ${before}, in attended hours outside breaks, and only where it ends before the people leave; breaks interrupt it, and work longer than any attended stretch goes on in the next.`,
    `Changeovers overlap only where enough operators are there for both; racks and planned stops are looked after all the same. ${atEnd === 'run out' ? 'During one the whole cell is stopped.' : 'During one the robot waits at that machine as soon as its sequence comes to it, and the whole sequence waits.'}`,
    ...(someOutside
      ? ['Each changeover begins with its downtime; the share in which the machine runs follows.']
      : []),
    wayText(work),
    'The loss of changeovers is the difference between the weeks with and without them; what follows from them counts too, such as a planned stop that now falls due at night.',
  ];
}

function wayText(work: readonly ChangeoverWork[]): string {
  const named = (way: ChangeoverWork['way']): string =>
    work
      .filter((row) => row.way === way)
      .map((row) => row.station)
      .join(', ');
  const [moved, boxed, bare] = [named('harness'), named('box'), named('left out')];
  return [
    moved === ''
      ? ''
      : `At a changeover of ${moved} the harness is moved, in the minutes of the cost case, which are part of the changeover.`,
    boxed === ''
      ? ''
      : `At a changeover of ${boxed} the box on the machine is plugged in, in the minutes of the cost case.`,
    bare === ''
      ? ''
      : `For ${bare} no minutes of moving the harness are counted, since costs.csv does not say what a move takes.`,
  ]
    .filter((text) => text !== '')
    .join(' ');
}

/** A count with at most two decimals. */
function shortNumber(value: number): string {
  return String(Math.round(value * 100) / 100);
}
