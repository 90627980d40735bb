/**
 * The multiple-activity chart of one round in plain text: time runs down the page, the robot and each station stand
 * side by side (the chart of work study: ILO, Introduction to Work Study, 4th ed. 1992, on multiple activity charts).
 */
import pc from 'picocolors';
import type { ScheduleFound } from '../core/schedule/result.js';
import { numberText, secondsText } from './numbers.js';
import { paragraph } from './paragraph.js';
import { isAct, type RobotStretch, robotStretches } from './robot-stretches.js';
import { shortened } from './shortened.js';
import { type StationState, type StationStretch, stateAt, stationStretches } from './station-stretches.js';
import type { TextStyle } from './text-style.js';

/** Stands for a space at which a line must not break. */
const KEPT_SPACE = '\u0001';
const LEAST_BAR = 4;
const MOST_BAR = 12;
const LEAST_ROBOT = 20;
const MOST_ROBOT = 34;
/** Lines that the chart aims at, apart from the one line that every action gets. */
const LINES = 40;
const STEPS_S = [1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600, 900, 1800, 3600];

interface Layout {
  readonly timeWidth: number;
  readonly robotWidth: number;
  readonly barWidth: number;
  /** What stands over each station's bar: its name, cut where it does not fit, or a letter where cut names would be alike. */
  readonly headings: readonly string[];
  readonly stepS: number;
}

/** One line of the chart. */
interface Line {
  /** Shown where a stretch begins. */
  readonly startS: number | null;
  readonly middleS: number;
  readonly robot: string;
  readonly what: RobotStretch['what'];
}

/** @returns the chart with its legend; stations are shown in the order of the schedule, infeeds and outfeeds left out */
export function activityChart(schedule: ScheduleFound, style: TextStyle): string {
  const stations = schedule.stations
    .filter((share) => share.kind !== 'infeed' && share.kind !== 'outfeed')
    .map((share) => share.station);
  const groups = stationGroups(stations, style);
  return groups.map((group) => oneChart(schedule, group, style)).join('\n\n');
}

/** Stations side by side as far as they fit; more of them go into further charts below. */
function stationGroups(stations: readonly string[], style: TextStyle): string[][] {
  const fit = Math.max(1, Math.floor((style.columns - 10 - LEAST_ROBOT - 1) / (LEAST_BAR + 1)));
  const count = Math.max(1, Math.ceil(stations.length / fit));
  const size = Math.ceil(stations.length / count) || 1;
  return Array.from({ length: count }, (_, i) => stations.slice(i * size, (i + 1) * size));
}

function oneChart(schedule: ScheduleFound, stations: readonly string[], style: TextStyle): string {
  const layout = layoutOf(schedule, stations, style);
  const bars = stations.map((station) => stationStretches(schedule, station));
  const lines = chartLines(schedule, layout).map((line) => lineText(line, bars, schedule, layout, style));
  const end = `${timeText(schedule.periodS, layout)}  ${'cycle repeats'.padEnd(layout.robotWidth)}`;
  return [headingLine(layout, style), ...lines, end.trimEnd(), '', legend(stations, layout, style)].join(
    '\n',
  );
}

function layoutOf(schedule: ScheduleFound, stations: readonly string[], style: TextStyle): Layout {
  const timeWidth = Math.max(6, numberText(schedule.periodS, 1).length);
  const left = style.columns - timeWidth - 2;
  const forBars = Math.floor((left - MOST_ROBOT) / Math.max(1, stations.length)) - 1;
  const barWidth = Math.min(MOST_BAR, Math.max(LEAST_BAR, forBars));
  const robotWidth = Math.min(MOST_ROBOT, Math.max(LEAST_ROBOT, left - stations.length * (barWidth + 1) - 1));
  const cut = stations.map((name) => shortened(name, barWidth, '~'));
  const areUnlike = new Set(cut).size === stations.length;
  const headings = cut.map((name, i) => (areUnlike ? name : letter(i)));
  const stepS =
    STEPS_S.find((step) => schedule.periodS / step <= LINES) ?? Math.ceil(schedule.periodS / LINES);
  return { timeWidth, robotWidth, barWidth, headings, stepS };
}

function letter(index: number): string {
  const first = index >= 26 ? letter(Math.floor(index / 26) - 1) : '';
  return `${first}${String.fromCharCode(65 + (index % 26))}`;
}

/** A stretch shorter than half a step is drawn in one line with the action it leads to. */
function chartLines(schedule: ScheduleFound, { stepS, robotWidth }: Layout): Line[] {
  const lines: Line[] = [];
  let carryOverS: number | null = null;
  for (const stretch of robotStretches(schedule)) {
    const startS: number = carryOverS ?? stretch.startS;
    if (!isAct(stretch) && stretch.endS - startS < stepS * 0.75 && stretch.action !== 0) {
      carryOverS = startS;
      continue;
    }
    carryOverS = null;
    const count = Math.max(1, Math.round((stretch.endS - startS) / stepS));
    for (let i = 0; i < count; i++) {
      // A single line stands for the action itself, not for the way there.
      const middleS =
        count === 1
          ? (stretch.startS + stretch.endS) / 2
          : startS + ((i + 0.5) * (stretch.endS - startS)) / count;
      const robot = i === 0 ? shortened(robotText(stretch), robotWidth, '~') : '';
      lines.push({ startS: i === 0 ? startS : null, middleS, robot, what: stretch.what });
    }
  }
  return lines;
}

function robotText(stretch: RobotStretch): string {
  const number = `${stretch.action + 1}`.padStart(2);
  if (stretch.what === 'wait') return `   wait at ${stretch.station}`;
  if (stretch.what === 'turn') return `   turn the gripper`;
  if (stretch.what === 'go') return `   ${stretch.isLoaded ? 'carry' : 'go'} to ${stretch.station}`;
  return `${number} ${stretch.what} ${stretch.part}, ${stretch.station}`;
}

const SIGNS: Readonly<Record<StationState, readonly [unicode: string, ascii: string]>> = {
  working: ['█', '#'],
  robot: ['▒', '='],
  waiting: ['·', '.'],
  filling: ['░', ':'],
};

function barText(state: StationState | null, width: number, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  if (state === null) return ' '.repeat(width);
  const text = SIGNS[state][style.ascii ? 1 : 0].repeat(width);
  if (state === 'working') return paint.green(text);
  if (state === 'waiting') return paint.yellow(text);
  return state === 'robot' ? paint.cyan(text) : paint.dim(text);
}

function lineText(
  line: Line,
  bars: readonly (readonly StationStretch[])[],
  schedule: ScheduleFound,
  layout: Layout,
  style: TextStyle,
): string {
  const paint = pc.createColors(style.colour);
  const time = line.startS === null ? ' '.repeat(layout.timeWidth) : timeText(line.startS, layout);
  const robot = line.robot.padEnd(layout.robotWidth);
  const states = bars.map((stretches) => stateAt(stretches, line.middleS, schedule.periodS));
  const cells = states.map((state) => barText(state, layout.barWidth, style));
  return `${time}  ${line.what === 'wait' ? paint.yellow(robot) : robot} ${cells.join(' ')}`.trimEnd();
}

function timeText(timeS: number, { timeWidth }: Layout): string {
  return numberText(timeS, 1).padStart(timeWidth);
}

function headingLine({ timeWidth, robotWidth, barWidth, headings }: Layout, style: TextStyle): string {
  const paint = pc.createColors(style.colour);
  const names = headings.map((name) => name.padEnd(barWidth)).join(' ');
  return paint.bold(`${'time s'.padStart(timeWidth)}  ${'robot'.padEnd(robotWidth)} ${names}`.trimEnd());
}

function legend(stations: readonly string[], layout: Layout, style: TextStyle): string {
  const sign = (state: StationState) => SIGNS[state][style.ascii ? 1 : 0].repeat(2);
  const letters = stations.flatMap((name, i) =>
    layout.headings[i] === name || layout.headings[i]!.includes('~')
      ? []
      : [`${layout.headings[i]}${KEPT_SPACE}${name}`],
  );
  const signs = `${sign('working')} machining (incl. door and clamp); ${sign('waiting')} done, waiting for unload; ${sign('robot')} robot loads or unloads; ${sign('filling')} partly loaded; blank: empty. One line is about ${secondsText(layout.stepS)}; every move has its own line, so short ones look longer than they are.`;
  return [
    ...(letters.length > 0 ? [paragraph(letters.join('; '), style.columns).replaceAll(KEPT_SPACE, ' ')] : []),
    paragraph(signs, style.columns),
  ].join('\n');
}
