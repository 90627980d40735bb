/** A week's job plan, a line a machine: what it makes when, its set-ups, the hours that stay free, and when jobs are due. */

import { scaleLinear } from 'd3-scale';
import type { JobPlan } from '../../core/jobs/job-plan.js';
import { DAYS } from '../../core/model/cell.js';
import { listText } from '../../core/model/list-text.js';
import { dueText } from '../../core/model/week-time-text.js';
import { type Column, figures, readTable, words } from '../columns.js';
import type { TableBlock } from '../document/blocks.js';
import { tableBlock } from '../document/table-block.js';
import { stretchText } from '../job-plan-text.js';
import { type Work, workInOrder } from '../jobs.js';
import { countText, numberText } from '../numbers.js';
import { shortened } from '../shortened.js';
import { bar } from './bar.js';
import { type ChartOrReason, chartOf, type Drawing, noChart, WIDE } from './chart-of.js';
import { type KeyEntry, keyLines } from './key-lines.js';
import { fitted, nameLabel } from './name-label.js';
import { type NamedRows, namedRows } from './named-rows.js';
import { element, label, place, stroke, titled } from './svg.js';
import { textWidth } from './text-width.js';

const DAY_S = 86_400;
/** A row holds the name of what is made, and the bar under it. */
const [NAME, BAR] = [15, 13];
const DUE_ROW = 30;
/** A set-up is shorter than a pixel on a narrow page: it stays to be seen. */
const LEAST_WIDTH = 2;
const TRIANGLE = 5;

/** @param machines names of the machines, in the order in which they are shown */
export function jobChart(plan: JobPlan, machines: readonly string[]): ChartOrReason {
  const lines = machines.map((station) => ({ station, pieces: piecesOf(plan, station) }));
  const busy = lines.filter(({ pieces }) => pieces.length > 0);
  if (busy.length === 0)
    return noChart('No machine makes anything for these jobs, so there is nothing to draw.');
  return chartOf({
    title: titleOf(plan, busy),
    description: busy
      .map((line) => `${line.station}: ${listText(campaignsOf(line).map((c) => c.part))}`)
      .join('; '),
    note: 'Each line is a machine; the thin line below it is time in which the cell is open. Work is drawn one after the other from the beginning of its stretch, which is a shift or the part of one up to the next due time: the plan holds for the stretch, not for the minute. A triangle is a moment at which jobs are due, hollow where parts of them are late.',
    data: campaignTable(plan, busy),
    draw: (width) => drawing(plan, busy, width),
  });
}

interface Piece {
  readonly startS: number;
  readonly endS: number;
  readonly work: Work;
  readonly stretch: number;
}

interface Line {
  readonly station: string;
  readonly pieces: readonly Piece[];
}

/** The work of a machine laid out within its stretches, breaks spread over them. */
function piecesOf(plan: JobPlan, station: string): Piece[] {
  return plan.stretches.flatMap(({ startS, endS, openH }, stretch) => {
    const secondsPerH = openH > 0 ? (endS - startS) / openH : 0;
    let at = startS;
    return workInOrder(plan, stretch, station).map((work) => {
      const from = at;
      at = Math.min(endS, at + hoursOf(work) * secondsPerH);
      return { startS: from, endS: at, work, stretch };
    });
  });
}

function hoursOf(work: Work): number {
  return work.kind === 'set-up' ? work.setup.standsMin / 60 : work.run.machineH;
}

interface Campaign {
  readonly part: string;
  readonly pieces: readonly Piece[];
}

/** Pieces of one part after another without another part between. */
function campaignsOf({ pieces }: Line): Campaign[] {
  const campaigns: { part: string; pieces: Piece[] }[] = [];
  for (const piece of pieces) {
    const part = piece.work.kind === 'set-up' ? piece.work.setup.to : piece.work.run.part;
    const last = campaigns.at(-1);
    if (last?.part === part) last.pieces.push(piece);
    else campaigns.push({ part, pieces: [piece] });
  }
  return campaigns;
}

function titleOf({ pattern, jobs, lateParts, setups, resources }: JobPlan, lines: readonly Line[]): string {
  const shown = resources.filter(({ resource }) => lines.some(({ station }) => station === resource));
  const fullest = shown.reduce((a, b) => (b.usedPct > a.usedPct ? b : a));
  const made =
    lateParts > 0
      ? `leaves ${countText(lateParts, 'part')} late`
      : `makes ${countText(jobs.length, 'job')} in time`;
  return `${shortened(pattern, 28)} ${made} with ${countText(setups.length, 'changeover')}; ${shortened(fullest.resource, 28)} is used ${numberText(fullest.usedPct)}% of the open hours`;
}

const KEY: readonly KeyEntry[] = [
  { mark: 'work', text: 'making parts' },
  { mark: 'stop', text: 'set-up' },
  { mark: 'empty', text: 'open and free' },
];

function drawing(plan: JobPlan, lines: readonly Line[], width: number): Drawing {
  const key = keyLines(KEY, 0, 0, width);
  const top = key.height + DUE_ROW;
  const names = lines.map(({ station }) => station);
  const rows = namedRows(names, width, { top, bar: NAME + BAR, right: 8, mostName: 150 });
  const days = daysOf(plan);
  const x = scaleLinear([days.first * DAY_S, days.end * DAY_S], [rows.x0, rows.x1]);
  const bottom = top + rows.height;
  return {
    height: bottom + 22,
    content: [
      ...key.content,
      ...dayLines(days, x, top - 6, bottom),
      ...dueMarks(plan, x, top - 8, width === WIDE),
      ...lines.flatMap((line, row) => machineLine(plan, line, rows, row, x)),
    ],
  };
}

type Across = (seconds: number) => number;

interface DaySpan {
  readonly first: number;
  readonly end: number;
}

/** The days from the first open hour to the last; 0 is Monday. */
function daysOf({ stretches }: JobPlan): DaySpan {
  const first = Math.floor(Math.min(...stretches.map(({ startS }) => startS)) / DAY_S);
  const end = Math.ceil(Math.max(...stretches.map(({ endS }) => endS)) / DAY_S);
  return { first, end: Math.max(first + 1, end) };
}

function dayLines({ first, end }: DaySpan, x: Across, top: number, bottom: number): string[] {
  const days = Array.from({ length: end - first }, (_, k) => first + k);
  return [
    ...[...days, end].map((day) => stroke(x(day * DAY_S), top, x(day * DAY_S), bottom, 'grid')),
    ...days.map((day) => label(DAYS[day % 7]!, x((day + 0.5) * DAY_S), bottom + 15, 'tick', 'middle')),
  ];
}

/** One mark for each moment at which jobs are due; on a wide page with their names, as far as there is room. */
function dueMarks(plan: JobPlan, x: Across, y: number, isWide: boolean): string[] {
  const [from, to] = [daysOf(plan).first * 60 * 24, daysOf(plan).end * 60 * 24];
  const moments = [...new Set(plan.jobs.map(({ dueMin }) => dueMin))].sort((a, b) => a - b);
  const places = moments.map((min) => x(Math.min(to, Math.max(from, min)) * 60));
  return moments.map((dueMin, k) => {
    const jobs = plan.jobs.filter((job) => job.dueMin === dueMin);
    const isLate = jobs.some(({ lateParts }) => lateParts > 0);
    const at = places[k]!;
    const names = jobs.map(({ job, lateParts }) =>
      lateParts > 0 ? `${job}: ${countText(lateParts, 'part')} late` : job,
    );
    const path = `M${place(at - TRIANGLE)} ${place(y - TRIANGLE)}h${2 * TRIANGLE}l${-TRIANGLE} ${TRIANGLE + 3}z`;
    const mark = element('path', { d: path, class: isLate ? 'loss due' : 'full due' });
    const room = at - (places[k - 1] ?? 0) - 2 * TRIANGLE - 6;
    const name = jobs.map(({ job }) => job).join(', ');
    const words = `due by ${dueText(dueMin)}: ${names.join(', ')}`;
    return titled(words, '', mark, isWide ? dueName(name, at, y, room) : '');
  });
}

/** Before its mark, so that the last of a week stays on the page. */
function dueName(jobs: string, at: number, y: number, room: number): string {
  const text = fitted(jobs, room, 12);
  if (textWidth(text, 12) > room) return '';
  return label(text, at - TRIANGLE - 3, y + 2, 'tick', 'end');
}

function machineLine(plan: JobPlan, line: Line, rows: NamedRows, row: number, x: Across): string[] {
  const [nameY, barY] = [rows.middle(row) - 3, rows.middle(row)];
  const open = plan.stretches.map(({ startS, endS }) =>
    bar('empty', x(startS), barY, x(endS) - x(startS), BAR),
  );
  const campaigns = campaignsOf(line);
  const starts = campaigns.map(({ pieces }) => x(pieces[0]!.startS));
  return [
    rows.name(row),
    ...open,
    ...line.pieces.map((piece) => pieceMark(plan, piece, barY, x)),
    ...campaigns.flatMap(({ part }, k) => {
      const room = (starts[k + 1] ?? rows.x1) - starts[k]! - 6;
      // A name that would run into the next is left to what the bar says when pointed at, and to the table.
      return textWidth(fitted(part, room, 12), 12) > room
        ? []
        : [nameLabel(fitted(part, room, 12), starts[k]!, nameY, room, 'tick')];
    }),
  ];
}

function pieceMark(plan: JobPlan, { startS, endS, work, stretch }: Piece, y: number, x: Across): string {
  const width = Math.max(LEAST_WIDTH, x(endS) - x(startS));
  const mark = bar(work.kind === 'set-up' ? 'stop' : 'work', x(startS), y, width, BAR);
  return titled(`${stretchText(plan, stretch)}: ${pieceText(work)}`, 'span', mark);
}

function pieceText(work: Work): string {
  return work.kind === 'set-up'
    ? `set up ${work.setup.to}, ${numberText(work.setup.minutes)} min`
    : `${numberText(work.run.parts)} ${work.run.part}, ${numberText(work.run.machineH, 1)} h`;
}

function campaignTable(plan: JobPlan, lines: readonly Line[]): TableBlock {
  const sum = ({ pieces }: Campaign, of: (work: Work) => number) =>
    pieces.reduce((total, { work }) => total + of(work), 0);
  const columns: Column<Campaign & { readonly station: string }>[] = [
    words('machine', 'machine', (c) => c.station),
    words('part', 'part', (c) => c.part),
    figures('setup_min', 'set-up min', 0, (c) =>
      sum(c, (work) => (work.kind === 'set-up' ? work.setup.minutes : 0)),
    ),
    figures('parts', 'parts', 0, (c) => sum(c, (work) => (work.kind === 'set-up' ? 0 : work.run.parts))),
    figures('h', 'h', 1, (c) => sum(c, (work) => (work.kind === 'set-up' ? 0 : work.run.machineH))),
    words('from', 'from', ({ pieces }) => stretchText(plan, pieces[0]!.stretch)),
    words('to', 'to', ({ pieces }) => stretchText(plan, pieces.at(-1)!.stretch)),
  ];
  const rows = lines.flatMap((line) => campaignsOf(line).map((c) => ({ station: line.station, ...c })));
  return tableBlock('What each machine makes, changeover by changeover', readTable(columns, rows), {
    prose: true,
  });
}
