/** Shift patterns as text: the patterns side by side, then each one's losses from the ceiling down. */

import type { PatternComparison } from '../core/compare/compare-patterns.js';
import { leadingPattern } from '../core/model/leading-pattern.js';
import { listText } from '../core/model/list-text.js';
import type { PatternPerformance } from '../core/performance/pattern-performance.js';
import type { ShiftPatterns } from '../core/shifts/shift-patterns.js';
import type { ShiftYield } from '../core/shifts/shift-yield.js';
import { byShiftText, type NamedShift } from './by-shift.js';
import { nightText, shortNightText } from './nights.js';
import { countText, numberText } from './numbers.js';
import {
  changeoverTable,
  lossTable,
  patternDifferenceTable,
  patternTable,
  simulatedPatternTable,
  taktTable,
} from './result-tables/shift-tables.js';
import { pieces, printer } from './text-section.js';
import type { TextStyle } from './text-style.js';
import { printTable, type TableData } from './text-table.js';

export function renderShifts(
  result: ShiftPatterns,
  {
    performance,
    simulated,
  }: { performance: readonly PatternPerformance[]; simulated: PatternComparison | null },
  currency: string,
  style: TextStyle,
): string {
  const { said, section, filled } = printer(style);
  const { patterns } = result;
  if (patterns.length === 0)
    return said(
      `The robot makes ${numberText(result.partsPerH.total!, 1)} parts an hour. No shifts are given; fill in shifts.csv for parts per shift.`,
    );
  const money = currency === '' ? '' : ` (money in ${currency})`;
  const losses = (pattern: ShiftYield) =>
    section(`Losses: ${pattern.pattern}`, lossTable(pattern), patternNotes(pattern));
  return pieces(
    said(...shiftSentences(result, style.full === true)),
    section(`Shift patterns compared, constant times${money}`, patternTable(patterns)),
    ...(style.full
      ? patterns.flatMap((pattern) => [
          losses(pattern),
          pattern.changeoverYear !== null &&
            filled(`${changeoverCaption(pattern)}: ${pattern.pattern}`, changeoverTable(pattern)),
        ])
      : [section(`Losses: ${leadingPattern(result)!.pattern}`, shortLosses(leadingPattern(result)!))]),
    filled('Takt', taktTable(performance)),
    simulated &&
      section(
        'Simulated, with downtime, variation and changeovers, with the same random numbers',
        simulatedPatternTable(simulated),
      ),
    simulated &&
      simulated.differences.length > 0 &&
      `${printTable(patternDifferenceTable(simulated.differences), style)}\n`,
  );
}

/** Without causes that lose nothing; the good parts stand above and in the last row. */
function shortLosses(pattern: ShiftYield): TableData {
  const losses = pattern.losses.filter((loss) => Math.abs(loss.partsPerWeek) >= 0.05);
  const { columns, rows } = lossTable({ ...pattern, losses });
  return { columns, rows: rows.slice(0, -1) };
}

/** What the table of changeovers shows. */
export function changeoverCaption({ changeoverYear }: ShiftYield): string {
  const { weeks, shownWeek } = changeoverYear!;
  return `Changeovers in the busiest week (week ${shownWeek} of a ${weeks}-week pattern)`;
}

/**
 * What each pattern makes, and which is best by which measure.
 *
 * @param full false: only the pattern that makes the most, since the table has them all, and a short word on the nights
 */
export function shiftSentences(result: ShiftPatterns, full = true): string[] {
  const shown = result.patterns.filter((p) => full || p.pattern === (result.best.byParts ?? p.pattern));
  const each = shown.map(
    (p) =>
      `${p.pattern}: ${numberText(p.partsPerShift.total!, 1)} good parts a shift at constant times, ${numberText(p.partsPerWeek.total!)} a week in ${numberText(p.hoursPerWeek, 1)} h, program \`${p.program}\`.${p.byShift.length > 1 ? ` By shift: ${byShiftText(namedShifts(p))}.` : ''}`,
  );
  const { byParts, byLabourCostPerPart, byContribution, byDemand } = result.best;
  const measures = [
    { by: 'parts', best: byParts },
    { by: 'labour per part', best: byLabourCostPerPart },
    { by: 'margin a week', best: byContribution },
    { by: 'demand', best: byDemand },
  ];
  const winners = [...new Set(measures.flatMap(({ best }) => best ?? []))].map((pattern) => {
    const by = measures.filter(({ best }) => best === pattern).map((measure) => measure.by);
    return `by ${listText(by)}: ${pattern}${pattern === byDemand ? `, ${demandText(result, pattern)}` : ''}`;
  });
  const nights = full
    ? []
    : result.patterns.flatMap((p) => (p.nights ?? []).map((night) => shortNightText(p.pattern, night)));
  return [...(result.patterns.length > 1 ? [`Best ${winners.join('; ')}.`] : []), ...each, ...nights];
}

function namedShifts({ byShift }: Pick<ShiftYield, 'byShift'>): NamedShift[] {
  return byShift.map(({ partsPerShift: parts, ...shift }) => ({ ...shift, parts }));
}

function demandText({ patterns }: ShiftPatterns, name: string): string {
  const met = patterns.find((p) => p.pattern === name)!.demandMetPct!;
  return met >= 100 ? 'which meets all demand' : `which meets ${numberText(met, 1)}% of the demand`;
}

/** Good parts by shift, and what is to be known of the pattern. */
export function patternNotes(pattern: ShiftYield): string[] {
  return [
    `${countText(pattern.shiftsPerWeek, 'shift')} a week, good parts each: ${byShiftText(namedShifts(pattern))}.`,
    ...(pattern.nights ?? []).map(nightText),
    ...pattern.notes,
    ...yearNotes(pattern),
  ];
}

function yearNotes({ changeoverYear: year }: ShiftYield): string[] {
  if (year === null || year.weeks === null) return [];
  const done = year.perYear - year.notDonePerYear;
  return [
    `${numberText(done, Number.isInteger(done) ? 0 : 1)} changeovers a year, ${numberText(year.standMinPerYear / 60, 1)} h of downtime: ${numberText(year.standMinPerYear / 52)} min a week on average, before breaks that fall into them.`,
  ];
}
