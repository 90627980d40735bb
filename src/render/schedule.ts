/** The schedule as text: the answer first, then the round, the chart, the tables and what could be improved. */

import { amountText } from '../core/model/amount-text.js';
import { listText } from '../core/model/list-text.js';
import { amountOf, nameText } from '../core/model/name-text.js';
import type { ScheduleFound } from '../core/schedule/result.js';
import { activityChart } from './activity-chart.js';
import { numberText, percentText, secondsText } from './numbers.js';
import {
  changeTable,
  improvementTable,
  paceTable,
  robotShareTable,
  roundTable,
  stationShareTable,
} from './result-tables/schedule-tables.js';
import { robotStretches } from './robot-stretches.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { printTable } from './text-table.js';

export function renderSchedule(schedule: ScheduleFound, currency: string, style: TextStyle): string {
  const { said, section, filled } = printer(style);
  return pieces(
    said(...scheduleSentences(schedule, currency)),
    section('Robot cycle', renderRound(schedule, style)),
    style.chart && section('Robot and stations through one cycle', activityChart(schedule, style)),
    style.full && section('Stations in one robot cycle', stationShareTable(schedule)),
    style.full && section('Robot in one cycle', robotShareTable(schedule)),
    style.full && section('Critical path', paceTable(schedule)),
    style.full &&
      schedule.improvements.length > 0 &&
      section('Gain per second saved', improvementTable(schedule)),
    filled('What-if', changeTable(schedule), style.full ? noGainTexts(schedule) : null),
  );
}

/** A cycle of up to so many moves is printed whole; of a longer one the first few. */
const MOST_MOVES = 12;
const FIRST_MOVES = 6;

function renderRound(schedule: ScheduleFound, style: TextStyle): string {
  const { columns, rows } = roundTable(schedule);
  if (style.full || rows.length <= MOST_MOVES) return printTable({ columns, rows }, style);
  const table = printTable({ columns, rows: rows.slice(0, FIRST_MOVES) }, style);
  return `${table}\nand ${numberText(rows.length - FIRST_MOVES)} more moves: --full`;
}

/** What the round makes and how sure that is, what bounds it, what sets the pace, who waits for whom. */
export function scheduleSentences(schedule: ScheduleFound, currency: string): string[] {
  return [
    `${rateText(schedule)} ${sureText(schedule)}`,
    ...shorterText(schedule),
    [boundText(schedule, currency), ...layoutText(schedule)].join(' '),
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
function boundText(
  { rateBoundPerH: { total, binding, goal }, partsPerH }: ScheduleFound,
  currency: string,
): string {
  const reached = percentText((100 * partsPerH.total!) / total);
  if (goal === null)
    return `Upper limit for these numbers of parts per robot cycle: ${numberText(total, 1)} parts an hour. This sequence reaches ${reached} of it.`;
  if (goal.of === 'parts')
    return `Upper limit for any sequence: ${numberText(total, 1)} parts an hour${busyText(binding)}. This sequence reaches ${reached} of it.`;
  if (goal.of === 'parts in the mix')
    return `Upper limit for any sequence in this mix: ${numberText(goal.perH, 1)} parts an hour${busyText(goal.binding)}. This sequence reaches ${percentText((100 * partsPerH.total!) / goal.perH)} of it. In any other mix: at most ${numberText(total, 1)} parts an hour.`;
  const most =
    goal.of === 'contribution'
      ? `Upper limit of contribution for any sequence and mix: ${amountText(goal.perH, currency)} an hour`
      : `No sequence of any mix keeps more than ${numberText(goal.perH / 3600, 2)} machines in cycle on average`;
  return `${most}${busyText(goal.binding)}. Upper limit of parts, whatever the mix: ${numberText(total, 1)} an hour; this sequence makes ${reached} of that.`;
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

/** The changes that bring nothing, each with its reason. */
export function noGainTexts({ whatIf }: ScheduleFound): string[] {
  return whatIf.flatMap((w) =>
    w.noGain === null
      ? []
      : [`No gain from ${w.change} (${numberText(w.partsPerH, 1)} parts/h): ${w.noGain}.`],
  );
}
