/** A log of signals as text and as CSV: the answer first, then stations, robot, shifts, and what is wrong with the log. */

import type { LogResult, StationLog } from '../core/log/log-result.js';
import type { MeasureSummary } from '../core/log/measure.js';
import { amountOf } from '../core/model/name-text.js';
import { countText, listText, numberText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import { filledSectionsIn } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { right, textTable } from './text-table.js';
import { visibleText } from './visible-text.js';

/** Ways of the robot shown; the file of --out has all. */
const MOST_WAYS = 16;
/** Shifts shown one by one. */
const MOST_SHIFTS = 21;

export function renderLog(result: LogResult, style: TextStyle): string {
  const section = filledSectionsIn(style);
  return [
    `${logAnswer(result)
      .map((text) => paragraph(text, style.columns))
      .join('\n')}\n`,
    ...section('Cycles and waits, seconds', cycleTable(result, style)),
    ...section('Time of the stations, % of the covered time', shareTable(result, style)),
    ...section('Stops', stopTable(result, style)),
    ...section('Handling and doors, mean seconds (± half the interval)', handlingTable(result, style)),
    ...section('Robot travel, seconds', wayTable(result, style)),
    ...section('Parts by shift', shiftTable(result, style)),
    ...section('What is wrong with the log', damageText(result, style)),
  ].join('\n');
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

function figure(value: number | null | undefined, digits = 1): string {
  return value === null || value === undefined ? '-' : numberText(value, digits);
}

function interval(m: MeasureSummary | null, digits = 1): string {
  return m === null || m.ciLow === null
    ? '-'
    : `${numberText(m.ciLow, digits)} to ${numberText(m.ciHigh!, digits)}`;
}

function cycleTable({ stations }: LogResult, style: TextStyle): string {
  const rows = stations.filter((s) => s.finishes > 0 || s.times.cycle !== null);
  if (rows.length === 0) return '';
  return textTable(
    [
      { heading: 'station' },
      right('cycles'),
      right('mean'),
      right('interval'),
      right('spread'),
      right('P10'),
      right('P90'),
      right('wait for\nrobot'),
      right('wait\nP90'),
      right('cycles\nper h'),
    ],
    rows.map(({ station, times: { cycle, waitRobot }, finishesPerH }) => [
      station,
      figure(cycle?.n, 0),
      figure(cycle?.mean),
      interval(cycle),
      figure(cycle?.sd, 2),
      figure(cycle?.p10),
      figure(cycle?.p90),
      figure(waitRobot?.mean),
      figure(waitRobot?.p90),
      figure(finishesPerH),
    ]),
    style,
  );
}

function shareTable({ stations }: LogResult, style: TextStyle): string {
  const rows = stations.filter((s) => s.shares !== null && s.times.cycle !== null);
  if (rows.length === 0) return '';
  const share = ({ shares }: StationLog): string[] => {
    const { processingS, stoppedS, pausedS, waitRobotS, handlingS, restS } = shares!;
    const parts = [processingS, stoppedS, pausedS, waitRobotS, handlingS, restS];
    const all = parts.reduce((sum, s) => sum + s, 0);
    return parts.map((s) => figure((100 * s) / Math.max(1e-9, all)));
  };
  return textTable(
    [
      { heading: 'station' },
      right('working'),
      right('down'),
      right('planned\nstop'),
      right('blocked'),
      right('robot and\ndoors'),
      right('empty or\nunknown'),
    ],
    rows.map((s) => [s.station, ...share(s)]),
    style,
  );
}

function stopTable({ stations }: LogResult, style: TextStyle): string {
  const rows = stations.filter((s) => s.times.stop !== null || s.times.pause !== null);
  if (rows.length === 0) return '';
  const minutes = (m: MeasureSummary | null): string => figure(m === null ? null : m.mean / 60);
  return textTable(
    [
      { heading: 'station' },
      right('faults'),
      right('MTBF\nh'),
      right('interval'),
      right('MTTR\nmin'),
      right('response\nmin'),
      right('repair\nmin'),
      right('planned\nstops'),
      right('mean\nmin'),
    ],
    rows.map(({ station, times, stopRate }) => [
      station,
      figure(times.stop?.n ?? 0, 0),
      figure(stopRate?.mtbfH, 2),
      stopRate === null || stopRate.ciHigh === null
        ? '-'
        : `${numberText(stopRate.ciLow, 2)} to ${numberText(stopRate.ciHigh, 2)}`,
      minutes(times.stop),
      minutes(times.response),
      minutes(times.repair),
      figure(times.pause?.n ?? 0, 0),
      minutes(times.pause),
    ]),
    style,
  );
}

function withHalf(m: MeasureSummary | null): string {
  if (m === null) return '-';
  const half = m.ciHigh === null ? '' : ` ± ${numberText(m.ciHigh - m.mean, 2)}`;
  return `${numberText(m.mean, 2)}${half}`;
}

function handlingTable({ stations }: LogResult, style: TextStyle): string {
  const rows = stations.filter(({ times: t }) => t.load !== null || t.unload !== null);
  if (rows.length === 0) return '';
  return textTable(
    [{ heading: 'station' }, right('load'), right('unload'), right('door opens'), right('door closes')],
    rows.map(({ station, times: { load, unload, ready, close } }) => [
      station,
      ...[load, unload, ready, close].map(withHalf),
    ]),
    style,
  );
}

function wayTable({ robot }: LogResult, style: TextStyle): string {
  const ways = [...(robot?.ways ?? [])].sort((a, b) => b.times.total - a.times.total);
  if (ways.length === 0) return '';
  const table = textTable(
    [{ heading: 'from' }, { heading: 'to' }, { heading: '' }, right('times'), right('mean'), right('P90')],
    ways
      .slice(0, MOST_WAYS)
      .map(({ from, to, loaded, attended, times }) => [
        from,
        to,
        `${loaded ? 'with a part' : 'empty'}${attended === null ? '' : attended ? ', attended' : ', unattended'}`,
        figure(times.n, 0),
        figure(times.mean, 2),
        figure(times.p90, 2),
      ]),
    style,
  );
  const rest = ways.length - MOST_WAYS;
  return rest > 0 ? `${table}\nand ${countText(rest, 'trip')} more; --out writes all.` : table;
}

function shiftTable({ shifts, shiftMeans, partsOutsideShifts }: LogResult, style: TextStyle): string {
  if (shifts.length === 0) return '';
  const means = shiftMeans.map(({ shift, n, mean, ciLow, ciHigh }) => {
    const sure = ciLow === null ? '' : ` (${numberText(ciLow, 1)} to ${numberText(ciHigh!, 1)})`;
    return `${shift}: ${numberText(mean, 1)} parts a shift${sure}, from ${countText(n, 'whole shift')}.`;
  });
  const outside =
    partsOutsideShifts === 0 ? [] : [`${countText(partsOutsideShifts, 'part')} fell outside all shifts.`];
  const rows = shifts
    .slice(0, MOST_SHIFTS)
    .map((s) => [
      s.date,
      s.shift,
      figure(s.hours),
      figure(s.coveredPct, 0),
      figure(s.parts, 0),
      s.isWhole ? '' : 'not whole',
    ]);
  const table = textTable(
    [
      { heading: 'date' },
      { heading: 'shift' },
      right('hours'),
      right('covered %'),
      right('parts'),
      { heading: '' },
    ],
    rows,
    style,
  );
  const rest = shifts.length - rows.length;
  const more = rest > 0 ? [`and ${countText(rest, 'shift')} more; --json has all.`] : [];
  return [bullets([...means, ...outside], style.columns), table, ...more].filter((t) => t !== '').join('\n');
}

function damageText({ damage, gaps }: LogResult, style: TextStyle): string {
  if (damage.length === 0) return 'Nothing was found.';
  const table = textTable(
    [right('count'), { heading: 'what' }, { heading: 'of' }, right('first line')],
    damage.map(({ kind, what, count, firstLine }) => [
      figure(count, 0),
      kind,
      visibleText(what),
      firstLine === null ? '-' : String(firstLine),
    ]),
    style,
  );
  const kinds = new Map(damage.map((d) => [d.kind, d.text]));
  const meanings = [...kinds].map(([kind, text]) => `${kind}: ${text}.`);
  const holes = gaps.map(
    (g) => `${g.kind} at line ${g.line}: ${g.from} to ${g.to} (${numberText(g.seconds / 60, 1)} min).`,
  );
  return `${table}\n${bullets([...meanings, ...holes], style.columns)}`;
}
