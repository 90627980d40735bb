/** A log of signals as text and as CSV: the answer first, then stations, robot, shifts, and what is wrong with the log. */

import type { LogResult } from '../core/log/log-result.js';
import { listText } from '../core/model/list-text.js';
import { amountOf } from '../core/model/name-text.js';
import { countText, numberText } from './numbers.js';
import {
  cycleTable,
  damageTable,
  handlingTable,
  shareTable,
  shiftTable,
  stopTable,
  tripTable,
} from './result-tables/log-tables.js';
import { type Body, pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';

/** Ways of the robot shown; the file of --out has all. */
const MOST_WAYS = 16;
/** Shifts shown one by one. */
const MOST_SHIFTS = 21;

export function renderLog(result: LogResult, style: TextStyle): string {
  const { said, filled } = printer(style);
  return pieces(
    said(...logAnswer(result)),
    filled('Cycles and waits, seconds (±: half the interval)', cycleTable(result)),
    filled('Time of the stations, share of the covered time', shareTable(result)),
    filled('Stops', stopTable(result)),
    filled('Handling and doors, mean seconds (± half the interval)', handlingTable(result)),
    filled('Robot travel, seconds', ...tripBodies(result)),
    filled('Parts by shift', ...shiftBodies(result)),
    filled('What is wrong with the log', ...damageBodies(result)),
  );
}

/** The answer in plain sentences. */
export function logAnswer(result: LogResult): string[] {
  const { records, first, last, coveredH, parts, partsPerH, partsCountedBy } = result;
  const made =
    partsCountedBy === 'nothing'
      ? ''
      : ` In that time ${countText(parts.total!, 'part was', 'parts were')} made${ofParts(result)}, ${numberText(partsPerH.total!, 1)} an hour.`;
  return [
    `The log holds ${countText(records, 'record')} from ${first} to ${last}; ${numberText(coveredH, 1)} hours of that are covered.${made}`,
    ...robotText(result),
    ...waitText(result),
    ...stopText(result),
  ];
}

function ofParts({ parts }: LogResult): string {
  const named = Object.entries(parts).filter(([part]) => part !== 'total');
  return named.length < 2 ? '' : ` (${listText(named.map(([part, n]) => amountOf(numberText(n), part)))})`;
}

function robotText({ robot, coveredH }: LogResult): string[] {
  if (robot === null) return ['The log says nothing of the robot.'];
  const idle = `${numberText(100 - robot.busyPct, 1)}% (${numberText(robot.waitS / 3600, 1)} of ${numberText(coveredH, 1)} hours)`;
  return [
    robot.travelEmptyS === null
      ? `The robot handles parts ${numberText(robot.busyPct, 1)}% of the time; the other ${idle} it travels or waits, which the log does not separate: that needs \`leave\` and \`arrive\`.`
      : `The robot is busy ${numberText(robot.busyPct, 1)}% of the time and idle ${idle}.`,
  ];
}

function waitText({ stations }: LogResult): string[] {
  const waiting = stations.filter((s) => (s.times.waitRobot?.total ?? 0) > 0);
  if (waiting.length === 0) return [];
  const worst = waiting.reduce((a, b) => (b.times.waitRobot!.total > a.times.waitRobot!.total ? b : a));
  const { mean, p90, total } = worst.times.waitRobot!;
  return [
    `${worst.station} is blocked longest: ${numberText(mean, 1)} s a part on average, P90 ${numberText(p90, 1)} s, ${numberText(total / 3600, 1)} hours in total.`,
  ];
}

function stopText({ stations }: LogResult): string[] {
  const stopped = stations.filter((s) => (s.times.stop?.total ?? 0) > 0);
  if (stopped.length === 0) return [];
  const worst = stopped.reduce((a, b) => (b.times.stop!.total > a.times.stop!.total ? b : a));
  const { n, mean, total } = worst.times.stop!;
  return [
    `${worst.station} is down longest: ${countText(n, 'stop')} of ${numberText(mean / 60, 1)} min on average, ${numberText(total / 3600, 1)} hours in total.`,
  ];
}

function tripBodies({ robot }: LogResult): Body[] {
  const ways = [...(robot?.ways ?? [])].sort((a, b) => b.times.total - a.times.total);
  const rest = ways.length - MOST_WAYS;
  return [
    tripTable(ways.slice(0, MOST_WAYS)),
    rest > 0 ? `and ${countText(rest, 'trip')} more; --out writes all.` : null,
  ];
}

function shiftBodies({ shifts, shiftMeans, partsOutsideShifts }: LogResult): Body[] {
  if (shifts.length === 0) return [];
  const means = shiftMeans.map(({ shift, n, mean, ciLow, ciHigh }) => {
    const sure = ciLow === null ? '' : ` (${numberText(ciLow, 1)} to ${numberText(ciHigh!, 1)})`;
    return `${shift}: ${numberText(mean, 1)} parts a shift${sure}, from ${countText(n, 'whole shift')}.`;
  });
  const outside =
    partsOutsideShifts === 0 ? [] : [`${countText(partsOutsideShifts, 'part')} fell outside all shifts.`];
  const rest = shifts.length - MOST_SHIFTS;
  return [
    [...means, ...outside],
    shiftTable(shifts.slice(0, MOST_SHIFTS)),
    rest > 0 ? `and ${countText(rest, 'shift')} more; --json has all.` : null,
  ];
}

function damageBodies(result: LogResult): Body[] {
  const { damage, gaps } = result;
  if (damage.length === 0) return ['Nothing found.'];
  const kinds = new Map(damage.map((d) => [d.kind, d.text]));
  const meanings = [...kinds].map(([kind, text]) => `${kind}: ${text}.`);
  const holes = gaps.map(
    (g) => `${g.kind} at line ${g.line}: ${g.from} to ${g.to} (${numberText(g.seconds / 60, 1)} min).`,
  );
  return [damageTable(result), [...meanings, ...holes]];
}
