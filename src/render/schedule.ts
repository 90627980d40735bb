/** The schedule as text: the answer first, then the round, the chart, the tables and what could be improved. */
import { amountOf, nameText } from '../core/model/name-text.js';
import type { ScheduleFound } from '../core/schedule/result.js';
import { activityChart } from './activity-chart.js';
import { listText, numberText, percentText, secondsText } from './numbers.js';
import { bullets, paragraph } from './paragraph.js';
import { renderRound } from './robot-round.js';
import { robotStretches } from './robot-stretches.js';
import { filledSectionsIn, sectionsIn } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { printTable, right, type TableData } from './text-table.js';

const IMPROVEMENTS_SHOWN = 5;

export function renderSchedule(schedule: ScheduleFound, style: TextStyle): string {
  const section = sectionsIn(style);
  const whole = (title: string, body: () => string) => (style.full ? [section(title, body())] : []);
  return [
    `${scheduleAnswer(schedule, style)}\n`,
    section('Robot cycle', renderRound(schedule, style)),
    ...(style.chart ? [section('Robot and stations through one cycle', activityChart(schedule, style))] : []),
    ...whole('Stations in one robot cycle', () => printTable(stationShareTable(schedule), style)),
    ...whole('Robot in one cycle', () => printTable(robotShareTable(schedule), style)),
    ...whole('Critical path', () => printTable(paceTable(schedule), style)),
    ...(schedule.improvements.length > 0
      ? whole('Gain per second saved', () => printTable(improvementTable(schedule), style))
      : []),
    ...filledSectionsIn(style)('What-if', changeText(schedule, style)),
  ].join('\n');
}

/** The answer in plain sentences. */
export function scheduleAnswer(schedule: ScheduleFound, style: TextStyle): string {
  return scheduleSentences(schedule)
    .map((text) => paragraph(text, style.columns))
    .join('\n');
}

/** What the round makes and how sure that is, what bounds it, what sets the pace, who waits for whom. */
export function scheduleSentences(schedule: ScheduleFound): string[] {
  return [
    `${rateText(schedule)} ${sureText(schedule)}`,
    ...shorterText(schedule),
    [boundText(schedule), ...layoutText(schedule)].join(' '),
    schedule.bottleneck.text,
    waitText(schedule),
  ];
}

function rateText({ periodS, partsPerPeriod, partsPerH }: ScheduleFound): string {
  const made = Object.entries(partsPerPeriod).filter(([, n]) => n > 0);
  const each =
    made.length > 1
      ? ` (${listText(made.map(([part]) => amountOf(numberText(partsPerH[part]!, 1), part)))})`
      : '';
  return `Output ${numberText(partsPerH.total!, 1)} parts/h${each}. Robot cycle ${secondsText(periodS)}: ${partsText(partsPerPeriod)}.`;
}

function partsText(partsPerPeriod: ScheduleFound['partsPerPeriod']): string {
  return listText(Object.entries(partsPerPeriod).flatMap(([part, n]) => (n > 0 ? [amountOf(n, part)] : [])));
}

/** A cycle that is easier to program, where there is one nearly as good. */
function shorterText({ shorter }: ScheduleFound): string[] {
  if (shorter === null) return [];
  const { visits, periodS, partsPerPeriod, givesAwayPct } = shorter;
  return [
    `Easier to program: a robot cycle of ${secondsText(periodS)} with ${visits} visits (${partsText(partsPerPeriod)}) gives away ${givesAwayPct < 0.005 ? 'next to nothing' : percentText(givesAwayPct)}; its moves are in --json under shorter.`,
  ];
}

function sureText({ proven, gapPct, partSet }: ScheduleFound): string {
  if (proven) return 'Proven optimal: no sequence whatever makes more.';
  const most =
    gapPct === null
      ? 'no limit for other sequences is known'
      : `any sequence could gain at most ${percentText(gapPct)}`;
  return partSet.proven
    ? `Proven best for these numbers of parts per robot cycle; ${most}.`
    : `Best sequence found, not proven; ${most}.`;
}

/** The bound on parts, and the one on what the sequence is chosen for where that is not parts alone. */
function boundText({ rateBoundPerH: { total, binding, goal }, partsPerH }: ScheduleFound): string {
  const reached = percentText((100 * partsPerH.total!) / total);
  if (goal === null)
    return `Upper limit for these numbers of parts per robot cycle: ${numberText(total, 1)} parts an hour. This sequence reaches ${reached} of it.`;
  if (goal.of === 'parts')
    return `Upper limit for any sequence: ${numberText(total, 1)} parts an hour${busyText(binding)}. This sequence reaches ${reached} of it.`;
  if (goal.of === 'parts in the mix')
    return `Upper limit for any sequence in this mix: ${numberText(goal.perH, 1)} parts an hour${busyText(goal.binding)}. This sequence reaches ${percentText((100 * partsPerH.total!) / goal.perH)} of it. In any other mix: at most ${numberText(total, 1)} parts an hour.`;
  const most = numberText(goal.perH, goal.of === 'contribution' ? 1 : 0);
  return `Upper limit of ${goal.of} for any sequence and mix: ${most} an hour${busyText(goal.binding)}. Upper limit of parts, whatever the mix: ${numberText(total, 1)} an hour; this sequence makes ${reached} of that.`;
}

/** What moving stations could bring at most. */
function layoutText({ layoutGainPct }: ScheduleFound): string[] {
  if (layoutGainPct == null) return [];
  return [
    layoutGainPct < 0.05
      ? 'No other layout gains anything.'
      : `No layout gains more than ${percentText(layoutGainPct)}: the upper limit with no travel at all.`,
  ];
}

function busyText(binding: readonly string[]): string {
  const names = binding.map((name) => (name === 'robot' ? 'the robot' : nameText(name)));
  return binding.length > 0 ? ` (${listText(names)} busy all the time)` : '';
}

/** Who waits for whom. */
function waitText(schedule: ScheduleFound): string {
  const byStation = new Map<string, number>();
  for (const s of robotStretches(schedule))
    if (s.what === 'wait') byStation.set(s.station, (byStation.get(s.station) ?? 0) + s.endS - s.startS);
  const robot =
    byStation.size === 0
      ? 'The robot is never idle.'
      : `Robot idle ${secondsText(schedule.robot.waitS)} per cycle (${percentText((100 * schedule.robot.waitS) / schedule.periodS)}): ${listText([...byStation].map(([name, s]) => `${secondsText(s)} at ${nameText(name)}`))}.`;
  const waiting = schedule.stations.filter((share) => share.waitRobotS > 0.05);
  const parts =
    waiting.length === 0
      ? 'No machine waits for the robot.'
      : `Machines blocked, waiting for unload: ${listText(waiting.map((share) => `${nameText(share.station)} ${secondsText(share.waitRobotS)}`))}.`;
  return `${robot} ${parts}`;
}

export function stationShareTable(schedule: ScheduleFound): TableData {
  return {
    columns: [
      { heading: 'station' },
      right('working s'),
      right('load, unload,\ndoors s'),
      right('blocked s'),
      right('starved s'),
      right('working %'),
    ],
    rows: schedule.stations.map((share) => [
      share.station,
      numberText(share.processingS, 1),
      numberText(share.handlingS, 1),
      numberText(share.waitRobotS, 1),
      numberText(share.emptyS, 1),
      numberText(share.utilizationPct, 1),
    ]),
  };
}

export function robotShareTable(schedule: ScheduleFound): TableData {
  return {
    columns: [{ heading: 'the robot' }, { heading: 's', align: 'right' }, { heading: '%', align: 'right' }],
    rows: robotShares(schedule).map(({ what, seconds, pct }) => [
      what,
      numberText(seconds, 1),
      numberText(pct, 1),
    ]),
  };
}

/** What the robot does in one cycle; the last is all but idle. */
export function robotShares({
  robot,
  periodS,
}: ScheduleFound): { readonly what: string; readonly seconds: number; readonly pct: number }[] {
  const of = (what: string, seconds: number) => ({ what, seconds, pct: (100 * seconds) / periodS });
  return [
    of('picks, places, turns the gripper', robot.handlingS),
    of('travels with a part', robot.travelLoadedS),
    of('travels empty', robot.travelEmptyS),
    ...(robot.heldS > 0 ? [of('holds parts at a station', robot.heldS)] : []),
    of('idle', robot.waitS),
    { what: 'total busy', seconds: periodS - robot.waitS, pct: robot.utilizationPct },
  ];
}

export function paceTable({ bottleneck: { chain, periods }, periodS }: ScheduleFound): TableData {
  const sum = chain.reduce((total, link) => total + link.S, 0);
  const over = periods > 1 ? ` (${periods} robot cycles of ${secondsText(periodS)})` : ' (one robot cycle)';
  return {
    columns: [{ heading: 'element' }, { heading: 's', align: 'right' }],
    rows: [...chain.map((link) => [link.what, numberText(link.S, 1)]), [`total${over}`, numberText(sum, 1)]],
  };
}

/** The first column broken into lines, so that the others fit beside it. */
function narrowed({ columns, rows }: TableData, width: number): TableData {
  return { columns, rows: rows.map(([first, ...others]) => [paragraph(first!, width), ...others]) };
}

/** Each change scheduled anew. */
function changeText(schedule: ScheduleFound, style: TextStyle): string {
  const table = changeTable(schedule);
  const lines = style.full ? bullets(noGainTexts(schedule), style.columns) : '';
  const printed = table.rows.length === 0 ? '' : printTable(narrowed(table, style.columns - 40), style);
  return [printed, lines].filter((text) => text !== '').join('\n');
}

/** What a change brings; changes that bring nothing are told by `noGainTexts`. */
export function changeTable({ whatIf }: ScheduleFound): TableData {
  const gain = (amount: number): string => (amount > 0 ? `+${numberText(amount, 1)}` : numberText(amount, 1));
  return {
    columns: [
      { heading: 'change' },
      right('parts\nan hour'),
      right('vs.\nnow'),
      right('vs.\ntarget %'),
      { heading: 'proven' },
    ],
    rows: whatIf
      .filter((w) => w.noGain === null)
      .map((w) => [
        w.change,
        numberText(w.partsPerH, 1),
        gain(w.gainPerH),
        gain(w.goalGainPct),
        w.proven ? 'yes' : 'no',
      ]),
  };
}

/** The changes that bring nothing, each with its reason. */
export function noGainTexts({ whatIf }: ScheduleFound): string[] {
  return whatIf.flatMap((w) =>
    w.noGain === null
      ? []
      : [`No gain from ${w.change} (${numberText(w.partsPerH, 1)} parts/h): ${w.noGain}.`],
  );
}

export function improvementTable(schedule: ScheduleFound): TableData {
  const best = schedule.improvements.slice(0, IMPROVEMENTS_SHOWN);
  return {
    columns: [{ heading: 'element' }, { heading: 'parts/h\ngained', align: 'right' }],
    rows: best.map((item) => [item.element, numberText(item.partsPerHPerSecond, 3)]),
  };
}
