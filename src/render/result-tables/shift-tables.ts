/** Shift patterns as tables: side by side, losses, changeovers, unattended shifts, takt, and the simulated weeks. */
import type { PatternComparison } from '../../core/compare/compare-patterns.js';
import type { PatternPerformance } from '../../core/performance/pattern-performance.js';
import type { ShiftPatterns } from '../../core/shifts/shift-patterns.js';
import type { CsvValue } from '../csv.js';
import { endText } from '../nights.js';
import { bounds, filledTable, type ResultTable } from './result-table.js';

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
  weeks: ShiftPatterns,
  performance: readonly PatternPerformance[],
  simulated: PatternComparison | null,
): ResultTable[] {
  return [
    ...filledTable('patterns.csv', patternRows(weeks), {
      money: ['labour_per_week', 'labour_per_part', 'contribution_per_week'],
      chart: {
        kind: 'column',
        title: 'Good parts a week by shift pattern',
        of: 'pattern',
        values: ['good_parts_per_week'],
      },
    }),
    ...filledTable('shift-losses.csv', lossRows(weeks)),
    ...filledTable('changeover-times.csv', changeoverRows(weeks)),
    ...filledTable('unattended-shifts.csv', nightRows(weeks), { money: ['contribution_each'] }),
    ...filledTable('takt.csv', taktRows(performance)),
    ...(simulated === null ? [] : simulatedTables(simulated)),
  ];
}

function patternRows({ patterns }: ShiftPatterns): CsvValue[][] {
  return [
    [
      'pattern',
      'hours_per_week',
      'attended_h',
      'unattended_h',
      'shifts_per_week',
      'good_parts_per_shift',
      'good_parts_per_week',
      'ceiling_per_week',
      'robot_pct',
      'labour_per_week',
      'labour_per_part',
      'contribution_per_week',
    ],
    ...patterns.map((p) => [
      p.pattern,
      p.hoursPerWeek,
      p.attendedH,
      p.unattendedH,
      p.shiftsPerWeek,
      p.partsPerShift.total!,
      p.partsPerWeek.total!,
      p.ceilingPerWeek.total!,
      p.robotUtilizationPct,
      p.labourCostPerWeek,
      p.labourCostPerPart,
      p.contributionPerWeek,
    ]),
  ];
}

function lossRows({ patterns }: ShiftPatterns): CsvValue[][] {
  return [
    ['pattern', 'cause', 'parts_per_week'],
    ...patterns.flatMap((p) => [
      [p.pattern, 'maximum (steady rate x open hours)', p.ceilingPerWeek.total!],
      ...p.losses.map((loss) => [p.pattern, loss.cause, -loss.partsPerWeek]),
      [p.pattern, 'good parts', p.partsPerWeek.total!],
    ]),
  ];
}

/** The fullest week of each pattern. */
function changeoverRows({ patterns }: ShiftPatterns): CsvValue[][] {
  const units = ['stand_min', 'work_min', 'way', 'way_min', 'people'];
  return [
    ['pattern', 'station', 'begins', 'runs_again', 'people_done', ...units],
    ...patterns.flatMap((p) =>
      p.changeovers.map((c) => [
        ...[p.pattern, c.station, c.from, c.standsUntil, c.until],
        ...[c.standMin, c.minutes, c.way, c.wayMin, c.people],
      ]),
    ),
  ];
}

function nightRows({ patterns }: ShiftPatterns): CsvValue[][] {
  return [
    [
      'pattern',
      'shift',
      'shifts_per_week',
      'shift_h',
      'good_parts_each',
      'contribution_each',
      'runs_h',
      'first_to_stop',
      'changes_that_add_parts',
      'more_parts_per_week',
    ],
    ...patterns.flatMap((p) =>
      (p.nights ?? []).map((n) => [
        ...[p.pattern, n.shift, n.perWeek, n.hours, n.parts, n.contribution, n.runsH],
        n.endedBy === null ? null : endText(n),
        n.changes.map(({ change }) => change).join('; ') || null,
        n.changes.at(-1)?.partsPerWeek ?? null,
      ]),
    ),
  ];
}

function taktRows(performance: readonly PatternPerformance[]): CsvValue[][] {
  return [
    ['pattern', 'part', 'takt_s', 'open_time_for_a_good_part_s', 'met'],
    ...performance.flatMap(({ pattern, takt }) =>
      takt.map((t) => [pattern, t.part, t.taktS, t.actualS, t.isMet]),
    ),
  ];
}

function simulatedTables({ patterns, differences }: PatternComparison): ResultTable[] {
  const of = (figure: string) => [figure, `${figure}_low`, `${figure}_high`];
  return [
    {
      file: 'simulated-patterns.csv',
      rows: [
        ['pattern', ...of('parts_per_week'), ...of('parts_per_shift')],
        ...patterns.map((p) => [p.pattern, ...bounds(p.partsPerWeek), ...bounds(p.partsPerShift)]),
      ],
      chart: {
        kind: 'column',
        title: 'Simulated good parts a week by shift pattern',
        of: 'pattern',
        values: ['parts_per_week'],
      },
    },
    ...filledTable('simulated-differences.csv', [
      ['first', 'second', ...of('parts_per_week'), 'clear'],
      ...differences.map((d) => [d.a, d.b, ...bounds(d.partsPerWeek), d.clear]),
    ]),
  ];
}
