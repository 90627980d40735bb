/** The week of each shift pattern, a line a day: where somebody attends, where the cell runs alone, where it stands. */

import { scaleLinear } from 'd3-scale';
import type { WeekSegment } from '../../core/calendar/week-calendar.js';
import { DAYS } from '../../core/model/cell.js';
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import type { WeekStandstill } from '../../core/shifts/standstills.js';
import type { WeekChangeover } from '../../core/shifts/week-changeovers.js';
import { type Column, figures, readTable, words } from '../columns.js';
import { tableBlock } from '../document/table-block.js';
import { numberText } from '../numbers.js';
import { shortened } from '../shortened.js';
import { bar, type Mark } from './bar.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { type KeyEntry, keyLines } from './key-lines.js';
import { nameLabel } from './name-label.js';
import { label, oblong, stroke, titled } from './svg.js';
import { BOLD, textWidth } from './text-width.js';

const DAY_S = 86_400;
const WEEK_S = 7 * DAY_S;
const [ROW, BAR] = [19, 12];
const [PANEL_TOP, PANEL_BOTTOM] = [24, 44];
const DAY_NAMES_WIDTH = 32;
const GAP = 26;

type Pattern = Pick<
  ShiftYield,
  'pattern' | 'hoursPerWeek' | 'attendedH' | 'unattendedH' | 'week' | 'standstills' | 'changeovers'
>;

/** @param patterns one panel each */
export function weekChart(patterns: readonly Pattern[]): ChartOrReason {
  if (patterns.length === 0)
    return noChart('No shift pattern is given, so there is no week to draw. Fill in shifts.csv.');
  return chartOf({
    title: titleOf(patterns),
    description: patterns.map(hoursText).join('; '),
    note: `Each line is a day from midnight to midnight. Stopped: the cell is open but stopped, because a rack is empty or full or a stop waits for an operator; the times are in the table.${patterns.some((p) => p.changeovers.length > 0) ? ' The week with the most changeovers is drawn, each from the start of its downtime until the machine is back in production.' : ''}`,
    data: tableBlock('Hours of each pattern, and when the cell is stopped', readTable(HOURS, patterns), {
      prose: true,
    }),
    draw: (width) => drawing(patterns, width),
  });
}

const hours = (value: number): string => numberText(value, 1);

function hoursText({ pattern, hoursPerWeek, attendedH, unattendedH }: Pattern): string {
  const alone = unattendedH > 0 ? `, ${hours(attendedH)} attended and ${hours(unattendedH)} not` : '';
  return `${pattern}: open ${hours(hoursPerWeek)} h a week${alone}`;
}

function titleOf(patterns: readonly Pattern[]): string {
  const stands = patterns.map((p) => ({ name: shortened(p.pattern, 28), openH: standingH(p) }));
  const most = stands.reduce((a, b) => (b.openH > a.openH ? b : a));
  const longest = patterns.reduce((a, b) => (b.hoursPerWeek > a.hoursPerWeek ? b : a));
  const open = `${shortened(longest.pattern, 28)} is open ${hours(longest.hoursPerWeek)} h a week${longest.unattendedH > 0 ? `, ${hours(longest.unattendedH)} of them unattended` : ''}`;
  if (most.openH < 0.05) return `${open}; no rack and no waiting stop holds it up`;
  const whose = patterns.length === 1 ? 'of them' : `in ${most.name}`;
  return `${open}; racks and waiting stops hold it up for ${hours(most.openH)} open hours ${whose}`;
}

/** Open hours of the week in which a rack or a stop holds the cell up; hours that two of them share count once. */
function standingH(pattern: Pattern): number {
  const waits = pieces(pattern)
    .filter(({ mark }) => mark === 'wait')
    .sort((a, b) => a.startS - b.startS);
  let [sumS, reachedS] = [0, 0];
  for (const { startS, endS } of waits) {
    sumS += Math.max(0, endS - Math.max(startS, reachedS));
    reachedS = Math.max(reachedS, endS);
  }
  return sumS / 3600;
}

interface DayPiece {
  readonly startS: number;
  readonly endS: number;
  readonly mark: Mark;
  readonly words: string;
}

/** The week in pieces of one mark, standstills after the hours that they lie over. */
function pieces(pattern: Pattern): DayPiece[] {
  const open = pattern.week.filter((segment) => segment.open);
  const states = open.map(({ startS, endS, ...state }): DayPiece => ({ startS, endS, ...lookOf(state) }));
  const stands = pattern.standstills.flatMap((stand) =>
    standing(stand.fromS, stand.untilS, open, { mark: 'wait', words: standText(stand) }),
  );
  const changes = pattern.changeovers.flatMap((change) =>
    standing(change.fromS, change.standsUntilS, open, { mark: 'planned', words: changeText(change) }),
  );
  return [...states, ...stands, ...changes];
}

/** Such as `changeover of mill_1, Tue 10:05 to Tue 10:49`. */
function changeText({ station, from, standsUntil }: WeekChangeover): string {
  return `changeover of ${station}, ${from} to ${standsUntil}`;
}

function lookOf({
  attended,
  operator,
}: Pick<WeekSegment, 'attended' | 'operator'>): Pick<DayPiece, 'mark' | 'words'> {
  if (operator) return { mark: 'work', words: 'attended' };
  return attended ? { mark: 'filling', words: 'operator in a break' } : { mark: 'held', words: 'unattended' };
}

/** A stretch within the open hours; one that nobody ends goes on to the end of the week. */
function standing(
  startS: number,
  endS: number | null,
  open: readonly WeekSegment[],
  look: Pick<DayPiece, 'mark' | 'words'>,
): DayPiece[] {
  const untilS = endS ?? WEEK_S;
  const spans: [fromS: number, toS: number][] = [[startS, untilS]];
  // What began in the week before is told at its end as well, what goes on after it at its beginning.
  if (startS < 0) spans.push([startS + WEEK_S, WEEK_S]);
  if (untilS > WEEK_S) spans.push([0, untilS - WEEK_S]);
  return spans.flatMap(([fromS, toS]) =>
    open
      .map((s) => ({ startS: Math.max(s.startS, fromS), endS: Math.min(s.endS, toS), ...look }))
      .filter((piece) => piece.endS > piece.startS),
  );
}

function standText(stand: WeekStandstill): string {
  return `${causeText(stand)}, ${stand.from} to ${stand.until ?? 'the end: nobody comes'}`;
}

function causeText({ cause, station, stop }: WeekStandstill): string {
  if (cause === 'rack empty') return `rack at ${station} empty`;
  return cause === 'rack full' ? `rack at ${station} full` : `${stop} at ${station} waits for an operator`;
}

function drawing(patterns: readonly Pattern[], width: number): Drawing {
  const columns = width === WIDE ? Math.min(3, Math.max(2, patterns.length)) : 1;
  const panelWidth = (width - (columns - 1) * GAP) / columns;
  const panelHeight = PANEL_TOP + 7 * ROW + PANEL_BOTTOM;
  const key = keyLines(keyOf(patterns), 0, 0, width);
  const top = key.height + 8;
  return {
    height: top + Math.ceil(patterns.length / columns) * panelHeight,
    content: [
      ...key.content,
      ...patterns.flatMap((pattern, k) =>
        panel(pattern, {
          left: (k % columns) * (panelWidth + GAP),
          top: top + Math.floor(k / columns) * panelHeight,
          width: panelWidth,
        }),
      ),
    ],
  };
}

interface Panel {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

function panel(pattern: Pattern, place: Panel): string[] {
  const { left, top, width } = place;
  const x = scaleLinear([0, 24], [left + DAY_NAMES_WIDTH, left + width - 8]);
  const rowsTop = top + PANEL_TOP;
  const bottom = rowsTop + 7 * ROW;
  const title = `${hours(pattern.hoursPerWeek)} h`;
  return [
    nameLabel(pattern.pattern, left, top + 13, (width - textWidth(title) - 20) / BOLD, 'strong'),
    label(title, left + width - 8, top + 13, '', 'end'),
    ...[0, 6, 12, 18, 24].flatMap((hour) => [
      stroke(x(hour), rowsTop, x(hour), bottom, 'grid'),
      label(numberText(hour), x(hour), bottom + 14, 'tick', 'middle'),
    ]),
    label('hour of the day', left + width - 8, bottom + 29, 'tick', 'end'),
    ...DAYS.flatMap((day, row) => {
      const y = rowsTop + row * ROW + (ROW - BAR) / 2;
      return [label(day, left, y + BAR - 2, 'tick'), stroke(x(0), y + BAR, x(24), y + BAR, 'bare')];
    }),
    ...pieces(pattern).flatMap((piece) => byDay(piece, rowsTop, x)),
  ];
}

/** A piece on the lines of the days that it touches. */
function byDay(piece: DayPiece, rowsTop: number, x: (hour: number) => number): string[] {
  return DAYS.flatMap((_, day) => {
    const from = Math.max(piece.startS, day * DAY_S) - day * DAY_S;
    const to = Math.min(piece.endS, (day + 1) * DAY_S) - day * DAY_S;
    if (to - from < 1) return [];
    const [left, y] = [x(from / 3600), rowsTop + day * ROW + (ROW - BAR) / 2];
    const width = x(to / 3600) - left;
    const ground =
      piece.mark === 'wait' || piece.mark === 'planned' ? oblong(left, y, width, BAR, 'ground') : '';
    return [titled(piece.words, 'span', ground, bar(piece.mark, left, y, width, BAR))];
  });
}

const KEY: readonly KeyEntry[] = [
  { mark: 'work', text: 'attended' },
  { mark: 'filling', text: 'operator in a break, robot goes on' },
  { mark: 'held', text: 'unattended' },
  { mark: 'wait', text: 'stopped' },
  { mark: 'planned', text: 'changeover' },
];

function keyOf(patterns: readonly Pattern[]): KeyEntry[] {
  const marks = new Set(patterns.flatMap((pattern) => pieces(pattern).map(({ mark }) => mark)));
  return KEY.filter(({ mark }) => marks.has(mark));
}

const HOURS: readonly Column<Pattern>[] = [
  words('pattern', 'pattern', (p) => p.pattern),
  figures('open_h', 'open h', 1, (p) => p.hoursPerWeek),
  figures('attended_h', 'attended h', 1, (p) => p.attendedH),
  figures('unattended_h', 'unattended h', 1, (p) => p.unattendedH),
  figures('stopped_h', 'stopped h', 1, standingH),
  words('stopped', 'stopped', (p) => p.standstills.map(standText).join('; ') || 'never'),
  words('changeovers', 'changeovers', (p) => p.changeovers.map(changeText).join('; ') || null, { none: '' }),
];
