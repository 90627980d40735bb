/** Shift patterns as tables: side by side, losses, changeovers, unattended shifts, takt, and the simulated weeks. */
import type {
  PatternComparison,
  PatternDifference,
  SimulatedPattern,
} from '../../core/compare/compare-patterns.js';
import type { PartTakt, PatternPerformance } from '../../core/performance/pattern-performance.js';
import type { Night } from '../../core/shifts/nights.js';
import type { ShiftPatterns } from '../../core/shifts/shift-patterns.js';
import type { ShiftYield } from '../../core/shifts/shift-yield.js';
import { type Column, estimated, figures, fileTable, readTable, words } from '../columns.js';
import { endText } from '../nights.js';
import { numberText } from '../numbers.js';
import type { TableData } from '../text-table.js';
import { drawn, type ResultTable } from './result-table.js';

export const SHIFT_TABLES = [
  'patterns.csv',
  'shift-losses.csv',
  'changeover-times.csv',
  'unattended-shifts.csv',
  'takt.csv',
  'simulated-patterns.csv',
  'simulated-differences.csv',
] as const;

/** @param simulated null where the patterns were not simulated */
export function shiftTables(
  { patterns }: ShiftPatterns,
  performance: readonly PatternPerformance[],
  simulated: PatternComparison | null,
): ResultTable[] {
  return [
    ...fileTable(
      'patterns.csv',
      PATTERNS,
      patterns,
      drawn('column', 'Good parts a week by shift pattern', 'pattern', ['good_parts_per_week']),
    ),
    ...fileTable('shift-losses.csv', LOSSES, patterns.flatMap(lossRows)),
    ...fileTable(
      'changeover-times.csv',
      CHANGEOVERS,
      patterns.flatMap(({ pattern, changeovers }) => changeovers.map((c) => ({ pattern, ...c }))),
    ),
    ...fileTable(
      'unattended-shifts.csv',
      NIGHTS,
      patterns.flatMap(({ pattern, nights }) => (nights ?? []).map((night) => ({ pattern, ...night }))),
    ),
    ...fileTable('takt.csv', TAKT, taktRows(performance)),
    ...(simulated === null ? [] : simulatedTables(simulated)),
  ];
}

const PATTERNS: readonly Column<ShiftYield>[] = [
  words('pattern', 'pattern', (p) => p.pattern),
  figures('hours_per_week', 'hours', 1, (p) => p.hoursPerWeek),
  figures('attended_h', undefined, 1, (p) => p.attendedH),
  figures('unattended_h', 'un-\nattended', 1, (p) => p.unattendedH),
  figures('shifts_per_week', undefined, 0, (p) => p.shiftsPerWeek),
  figures('good_parts_per_shift', 'parts\na shift', 1, (p) => p.partsPerShift.total!),
  figures('good_parts_per_week', 'parts\na week', 0, (p) => p.partsPerWeek.total!),
  figures('maximum_per_week', 'maximum\na week', 0, (p) => p.ceilingPerWeek.total!),
  figures('robot_pct', undefined, 1, (p) => p.robotUtilizationPct),
  figures('labour_per_week', undefined, 0, (p) => p.labourCostPerWeek, { isMoney: true }),
  figures('labour_per_part', 'labour\na part', 2, (p) => p.labourCostPerPart, { isMoney: true }),
  figures('margin_per_week', 'margin\na week', 0, (p) => p.contributionPerWeek, {
    isMoney: true,
  }),
];

export function patternTable(patterns: readonly ShiftYield[]): TableData {
  return readTable(PATTERNS, patterns);
}

interface LossRow {
  readonly pattern: string;
  readonly cause: string;
  /** Good parts a week: less than nothing is lost; null for the maximum and what is left. */
  readonly change: number | null;
  readonly level: number;
  readonly pct: number;
}

const LOSSES: readonly Column<LossRow>[] = [
  words('pattern', undefined, (l) => l.pattern),
  words('cause', 'loss', (l) => l.cause),
  figures('parts_per_week', 'parts a week', 1, (l) => l.change, { none: '' }),
  figures('remaining_per_week', 'remaining', 1, (l) => l.level),
  figures('remaining_pct', '%', 1, (l) => l.pct),
];

/** From the maximum down to the good parts, cause by cause. */
function lossRows({ pattern, losses, ceilingPerWeek, partsPerWeek }: ShiftYield): LossRow[] {
  const most = ceilingPerWeek.total!;
  const row = (cause: string, change: number | null, level: number): LossRow => ({
    ...{ pattern, cause, change, level },
    pct: (100 * level) / most,
  });
  let level = most;
  return [
    row('maximum (steady rate x open hours)', null, most),
    ...losses.map((loss) => {
      level -= loss.partsPerWeek;
      return row(loss.cause, -loss.partsPerWeek, level);
    }),
    row('good parts a week', null, partsPerWeek.total!),
  ];
}

export function lossTable(pattern: ShiftYield): TableData {
  return readTable(LOSSES, lossRows(pattern));
}

type NamedChangeover = ShiftYield['changeovers'][number] & { readonly pattern: string };

/** The busiest week of each pattern. */
const CHANGEOVERS: readonly Column<NamedChangeover>[] = [
  words('pattern', undefined, (c) => c.pattern),
  words('start', 'start', (c) => c.from),
  words('back_in_production', 'back in\nproduction', (c) => c.standsUntil),
  words('people_done', 'people\ndone', (c) => c.until, {
    isShown: (rows) => rows.some((c) => c.until !== c.standsUntil),
  }),
  words('station', 'machine', (c) => c.station),
  figures('downtime_min', 'downtime\nmin', 1, (c) => c.standMin),
  figures('work_min', undefined, 1, (c) => c.minutes),
  figures('people', 'people', 0, (c) => c.people, { isShown: (rows) => rows.some((c) => c.people !== 1) }),
  words('connection', 'connection', (c) => c.way, { text: connectionText }),
  figures('connection_min', undefined, 1, (c) => c.wayMin),
];

function connectionText({ way, wayMin }: NamedChangeover): string {
  if (way === 'left out') return 'no minutes given';
  return `${way === 'box' ? 'box plugged in' : 'harness moved'}, ${numberText(wayMin, 1)} min`;
}

/** Most changeovers listed; files have them all. */
const MOST_LISTED = 14;

/** The changeovers of the week that is shown, with day and time; null where there are none. */
export function changeoverTable({ pattern, changeovers }: ShiftYield): TableData | null {
  if (changeovers.length === 0) return null;
  const more = changeovers.length - MOST_LISTED;
  const listed = more > 1 ? changeovers.slice(0, MOST_LISTED) : changeovers;
  const { columns, rows } = readTable(
    CHANGEOVERS,
    listed.map((c) => ({ pattern, ...c })),
  );
  const rest = columns.map((_, i) => (i === 0 ? `and ${more} more` : ''));
  return { columns, rows: more > 1 ? [...rows, rest] : rows };
}

/** Read as sentences, by `nightText`. */
const NIGHTS: readonly Column<Night & { readonly pattern: string }>[] = [
  words('pattern', undefined, (n) => n.pattern),
  words('shift', undefined, (n) => n.shift),
  figures('shifts_per_week', undefined, 0, (n) => n.perWeek),
  figures('shift_h', undefined, 1, (n) => n.hours),
  figures('good_parts_each', undefined, 1, (n) => n.parts),
  figures('contribution_each', undefined, 0, (n) => n.contribution, { isMoney: true }),
  figures('runs_h', undefined, 1, (n) => n.runsH),
  words('first_to_stop', undefined, (n) => (n.endedBy === null ? null : endText(n))),
  words('changes_that_add_parts', undefined, (n) => n.changes.map(({ change }) => change).join('; ') || null),
  figures('more_parts_per_week', undefined, 1, (n) => n.changes.at(-1)?.partsPerWeek ?? null),
];

/** Good parts made, of those asked for. */
export function madePct({ taktS, actualS }: Pick<PartTakt, 'taktS' | 'actualS'>): number {
  return actualS === null ? 0 : (100 * taktS) / actualS;
}

const TAKT: readonly Column<PartTakt & { readonly pattern: string }>[] = [
  words('pattern', 'pattern', (t) => t.pattern),
  words('part', 'part', (t) => t.part),
  figures('takt_s', 'takt s\n(open time over demand)', 1, (t) => t.taktS),
  figures('open_time_for_a_good_part_s', 'open time\nfor a good part s', 1, (t) => t.actualS),
  figures('made_pct_of_demand', 'made,\n% of demand', 0, madePct),
  words('met', 'demand', (t) => t.isMet, { text: (t) => (t.isMet ? 'met' : 'not met') }),
];

function taktRows(performance: readonly PatternPerformance[]) {
  return performance.flatMap(({ pattern, takt }) => takt.map((t) => ({ pattern, ...t })));
}

/** @returns null where no part has a demand */
export function taktTable(performance: readonly PatternPerformance[]): TableData | null {
  const rows = taktRows(performance);
  return rows.length === 0 ? null : readTable(TAKT, rows);
}

/** Of a whole pattern, or of its shifts of one name: those have no week. */
type SimulatedRow = Pick<SimulatedPattern, 'pattern' | 'partsPerShift'> & {
  readonly shift: string | null;
  readonly partsPerWeek: SimulatedPattern['partsPerWeek'] | null;
};

const SIMULATED: readonly Column<SimulatedRow>[] = [
  words('pattern', 'pattern', (p) => p.pattern, {
    text: (p) => (p.shift === null ? p.pattern : `${p.pattern}, ${p.shift}`),
  }),
  words('shift', undefined, (p) => p.shift),
  figures('parts_per_shift', 'parts\na shift', 1, (p) => p.partsPerShift.mean),
  figures('parts_per_shift_low', undefined, 1, (p) => p.partsPerShift.ciLow),
  figures('parts_per_shift_high', undefined, 1, (p) => p.partsPerShift.ciHigh),
  figures('parts_per_shift_p10', 'P10', 0, (p) => p.partsPerShift.p10),
  figures('parts_per_shift_p50', 'P50', 0, (p) => p.partsPerShift.p50),
  figures('parts_per_shift_p90', 'P90', 0, (p) => p.partsPerShift.p90),
  ...estimated<SimulatedRow>('parts_per_week', 'parts\na week', 1, (p) => p.partsPerWeek),
];

function simulatedRows({ pattern, partsPerShift, partsPerWeek, byShift }: SimulatedPattern): SimulatedRow[] {
  const named = byShift.length > 1 ? byShift : [];
  return [
    { pattern, shift: null, partsPerShift, partsPerWeek },
    ...named.map((s) => ({
      pattern,
      shift: s.shift,
      partsPerShift: s.partsPerShift.total!,
      partsPerWeek: null,
    })),
  ];
}

export function simulatedPatternTable({ patterns }: PatternComparison): TableData {
  return readTable(SIMULATED, patterns.flatMap(simulatedRows));
}

const DIFFERENCES: readonly Column<PatternDifference>[] = [
  words('first', 'parts a week, first less second', (d) => d.a, { text: (d) => `${d.a} less ${d.b}` }),
  words('second', undefined, (d) => d.b),
  ...estimated<PatternDifference>('parts_per_week', 'mean', 1, (d) => d.partsPerWeek),
  words('clear', 'verdict', (d) => d.clear, { text: (d) => (d.clear ? 'clear' : 'no clear difference') }),
];

export function patternDifferenceTable(differences: readonly PatternDifference[]): TableData {
  return readTable(DIFFERENCES, differences);
}

function simulatedTables({ patterns, differences }: PatternComparison): ResultTable[] {
  return [
    ...fileTable(
      'simulated-patterns.csv',
      SIMULATED,
      patterns.flatMap(simulatedRows),
      drawn('column', 'Simulated good parts a shift by shift pattern', 'pattern', ['parts_per_shift']),
    ),
    ...fileTable('simulated-differences.csv', DIFFERENCES, differences),
  ];
}
