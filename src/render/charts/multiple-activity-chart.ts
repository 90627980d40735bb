/**
 * Robot and stations side by side through one robot cycle (the chart of work study: ILO, Introduction to Work Study, 4th ed.
 * 1992, on multiple activity charts), each stretch with its words.
 */

import { scaleLinear } from 'd3-scale';
import { listText } from '../../core/model/list-text.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { type Column, figures, readTable, words } from '../columns.js';
import type { ChartBlock, TableBlock } from '../document/blocks.js';
import { escapeMarkup } from '../document/escape-markup.js';
import { tableBlock } from '../document/table-block.js';
import { numberText, percentText, secondsText } from '../numbers.js';
import { shortened } from '../shortened.js';
import { type Activity, type ActivityLine, activityLines, spanOf } from './activity-lines.js';
import { bar, type Mark } from './bar.js';
import { chartOf, type Drawing, WIDE } from './chart-of.js';
import { type KeyEntry, keyLines } from './key-lines.js';
import { nameLabel } from './name-label.js';
import { element, label, oblong, stroke } from './svg.js';
import { textWidth } from './text-width.js';

/** A cycle of more moves is drawn in several lines of the same length, so that each move and each part's name has room. */
const MOVES_IN_LINE = { wide: 24, narrow: 9 };
const MOST_LINES = 6;
const [ROBOT_BAR, STATION_BAR] = [20, 15];
const NAME_LETTERS = 24;
/** More stations would make a picture that nobody reads; the others are in the table. */
const STATIONS_SHOWN = 24;

export function multipleActivityChart(schedule: ScheduleFound): ChartBlock {
  const lines = activityLines(schedule);
  const stations = lines.length - 1;
  return chartOf({
    title: titleOf(schedule),
    description: `The robot and ${stations} ${stations === 1 ? 'station' : 'stations'} through one robot cycle of ${secondsText(schedule.periodS)}, ${lines[0]!.activities.length} moves of the robot. ${schedule.bottleneck.text}`,
    note: `Numbers over the robot’s bars are those of its steps in the robot cycle. Machine work includes doors and clamps, and names its part where there is room.${stations > STATIONS_SHOWN ? ` The first ${STATIONS_SHOWN} stations are drawn; all ${stations} are in the table.` : ''}`,
    data: stretchTable(lines, schedule.periodS),
    interactive: true,
    draw: (width) => drawing(lines.slice(0, STATIONS_SHOWN + 1), schedule.periodS, width),
  });
}

function titleOf({ periodS, robot, bottleneck }: ScheduleFound): string {
  const names = bottleneck.stations.slice(0, 3).map((name) => shortened(name, NAME_LETTERS));
  const more = bottleneck.stations.length - names.length;
  const all = more > 0 ? [...names, `${more} more`] : names;
  const pace = all.length === 0 ? 'the robot' : listText(all);
  const idle =
    robot.waitS > 0.05
      ? `the robot is idle for ${secondsText(robot.waitS)} of it (${percentText((100 * robot.waitS) / periodS)})`
      : 'the robot is never idle';
  return `Robot cycle of ${secondsText(periodS)}, bottleneck ${pace}; ${idle}`;
}

interface Layout {
  readonly x0: number;
  readonly x1: number;
  /** Names above their bars instead of to the left. */
  readonly namesAbove: boolean;
  readonly rowHeight: number;
}

function drawing(lines: readonly ActivityLine[], periodS: number, width: number): Drawing {
  const isWide = width === WIDE;
  const layout = layoutOf(lines, width);
  const inLine = isWide ? MOVES_IN_LINE.wide : MOVES_IN_LINE.narrow;
  const count = Math.min(MOST_LINES, Math.ceil(lines[0]!.activities.length / inLine));
  const bands = Array.from(
    { length: count },
    (_, k) => [(k * periodS) / count, ((k + 1) * periodS) / count] as const,
  );
  const key = keyLines(keyOf(lines), 0, 2, width);
  const content = [...key.content];
  let top = key.height + 6;
  for (const [fromS, toS] of bands) {
    const band = drawBand(lines, periodS, { ...layout, fromS, toS, top });
    content.push(...band.content);
    top += band.height;
  }
  return { height: top, content };
}

function layoutOf(lines: readonly ActivityLine[], width: number): Layout {
  if (width !== WIDE) return { x0: 1, x1: width - 8, namesAbove: true, rowHeight: 42 };
  const longest = Math.max(...lines.map(({ name }) => textWidth(name)));
  return { x0: Math.min(170, longest + 12), x1: width - 12, namesAbove: false, rowHeight: 25 };
}

interface Band extends Layout {
  readonly fromS: number;
  readonly toS: number;
  readonly top: number;
}

function drawBand(lines: readonly ActivityLine[], periodS: number, band: Band): Drawing {
  const { x0, x1, fromS, toS } = band;
  const x = scaleLinear([fromS, toS], [x0, x1]);
  const numbersHeight = 16;
  const rowsTop = band.top + numbersHeight;
  const bottom = rowsTop + lines.length * band.rowHeight + 2;
  const ticks = x.ticks(x1 - x0 > 450 ? 8 : 4);
  return {
    height: bottom + 40 - band.top,
    content: [
      ...ticks.flatMap((tick) => [
        stroke(x(tick), rowsTop, x(tick), bottom, 'grid'),
        label(
          numberText(tick),
          Math.max(x(tick), textWidth(numberText(tick), 12) / 2),
          bottom + 15,
          'tick',
          'middle',
        ),
      ]),
      ...(fromS === 0 ? [stroke(x0, band.top, x0, bottom + 3, 'axis')] : []),
      ...(toS >= periodS
        ? [stroke(x1, band.top, x1, bottom + 3, 'axis'), label('cycle repeats', x0, bottom + 30, 'tick')]
        : []),
      label('seconds', x1, bottom + 30, 'tick', 'end'),
      ...moveNumbers(lines[0]!, band, x, band.top + 11),
      ...lines.flatMap((line, k) => drawRow(line, k, periodS, band, x, rowsTop + k * band.rowHeight)),
    ],
  };
}

type Scale = (timeS: number) => number;

function drawRow(
  line: ActivityLine,
  at: number,
  periodS: number,
  band: Band,
  x: Scale,
  top: number,
): string[] {
  const barHeight = line.isRobot ? ROBOT_BAR : STATION_BAR;
  const barTop = band.namesAbove ? top + 20 : top + (band.rowHeight - barHeight) / 2;
  const name = band.namesAbove
    ? nameLabel(line.name, band.x0, top + 15, band.x1 - band.x0, 'tick over')
    : nameLabel(line.name, 0, barTop + barHeight / 2 + 4, band.x0 - 10);
  const baseline = stroke(band.x0, barTop + barHeight, band.x1, barTop + barHeight, 'bare');
  const drawn = [-1, 0].flatMap((round) =>
    line.activities.map((activity) =>
      drawActivity(activity, { round, periodS, band, x, barTop, barHeight, line, at }),
    ),
  );
  return [name, ...(line.isRobot ? [] : [baseline]), ...drawn.filter((text) => text !== '')];
}

interface RowPlace {
  readonly round: number;
  readonly periodS: number;
  readonly band: Band;
  readonly x: Scale;
  readonly barTop: number;
  readonly barHeight: number;
  readonly line: ActivityLine;
  /** Number of the row from the top, the robot's being 0. */
  readonly at: number;
}

const LEAST_S = 1e-6;

/** @returns nothing where the activity lies outside the band */
function drawActivity(activity: Activity, row: RowPlace): string {
  const { round, periodS, band, x, barTop, barHeight } = row;
  const pieces = activity.pieces
    .map(({ startS, endS, mark }) => ({
      mark,
      startS: Math.max(startS + round * periodS, band.fromS),
      endS: Math.min(endS + round * periodS, band.toS),
    }))
    .filter(({ startS, endS }) => endS - startS > LEAST_S);
  if (pieces.length === 0) return '';
  const words = wordsOf(activity);
  const [from, to] = [x(pieces[0]!.startS), x(pieces.at(-1)!.endS)];
  // Stops of the keyboard: the robot's moves; a script can step on to all others.
  const isStop = row.line.isRobot && round === 0;
  const name = activity.part === null ? '' : activity.part;
  const roomS = pieces.find(({ mark }) => mark === 'work');
  const named =
    roomS !== undefined && name !== '' && x(roomS.endS) - x(roomS.startS) > textWidth(name, 12) + 4
      ? [label(name, (x(roomS.startS) + x(roomS.endS)) / 2, barTop + barHeight / 2 + 4, 'part', 'middle')]
      : [];
  return element(
    'g',
    { class: 'move', role: 'img', tabindex: isStop ? '0' : '-1', 'data-row': row.at, 'aria-label': words },
    [
      element('title', {}, escapeMarkup(words)),
      ...pieces.map(({ startS, endS, mark }) => bar(mark, x(startS), barTop, x(endS) - x(startS), barHeight)),
      ...named,
      oblong(from, barTop - 2, to - from, barHeight + 4, 'touch'),
    ].join(''),
  );
}

function wordsOf(activity: Activity): string {
  const { startS, endS } = spanOf(activity);
  return `${activity.what}; ${numberText(startS, 1)} to ${numberText(endS, 1)} s, ${secondsText(endS - startS)}`;
}

/** As many of the actions' numbers as stand clear of one another. */
function moveNumbers(robot: ActivityLine, band: Band, x: Scale, y: number): string[] {
  let free = Number.NEGATIVE_INFINITY;
  return robot.activities.flatMap((activity) => {
    const span = spanOf(activity);
    const at = x((span.startS + span.endS) / 2);
    const half = textWidth(`${activity.number}`, 12) / 2;
    if (at - half < Math.max(free + 4, band.x0 - 2) || at + half > band.x1 + 6) return [];
    free = at + half;
    return [label(`${activity.number}`, at, y, 'tick', 'middle')];
  });
}

const KEY: readonly KeyEntry[] = [
  { mark: 'robot', text: 'robot handles a part' },
  { mark: 'carry', text: 'carries' },
  { mark: 'go', text: 'goes empty' },
  { mark: 'held', text: 'holds the part at a tool' },
  { mark: 'idle', text: 'robot idle' },
  { mark: 'work', text: 'machine working' },
  { mark: 'wait', text: 'done, waiting for unload' },
  { mark: 'filling', text: 'partly loaded' },
  { mark: 'stored', text: 'stored' },
];

/** The marks that occur. */
function keyOf(lines: readonly ActivityLine[]): KeyEntry[] {
  const marks = new Set<Mark>(
    lines.flatMap(({ activities }) => activities.flatMap(({ pieces }) => pieces.map(({ mark }) => mark))),
  );
  return KEY.filter(({ mark }) => marks.has(mark));
}

const STRETCHES: readonly Column<Activity>[] = [
  words('who_and_what', 'who and what', ({ what }) => what),
  figures('from_s', 'from s', 1, (activity) => spanOf(activity).startS),
  figures('to_s', 'to s', 1, (activity) => spanOf(activity).endS),
  figures('lasts_s', 'lasts s', 1, (activity) => spanOf(activity).endS - spanOf(activity).startS),
];

function stretchTable(lines: readonly ActivityLine[], periodS: number): TableBlock {
  const caption = `One robot cycle of ${secondsText(periodS)}, move by move; times past its end are in the next cycle`;
  const activities = lines.flatMap((line) => line.activities);
  return tableBlock(caption, readTable(STRETCHES, activities), { prose: true });
}
