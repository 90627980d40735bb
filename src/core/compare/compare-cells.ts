/**
 * Several cells side by side: the best repeating order and the shifts of each without chance, the simulation of each
 * under the same luck, every pair's difference with its interval, and what that recommends. Where the interval of the
 * difference between the first two covers 0, the answer is that there is no clear difference.
 */

import { patternNames } from '../calendar/week-calendar.js';
import { isCallRule, type Program } from '../floor/robot.js';
import type { Cell } from '../model/cell.js';
import { sharedCurrency } from '../model/cost-value.js';
import { firstFew } from '../model/first-few.js';
import { bestSchedule } from '../schedule/best-schedule.js';
import type { ScheduleFound, ScheduleOutcome } from '../schedule/result.js';
import type { ProgramChoice } from '../shifts/best-program.js';
import { shiftPatterns } from '../shifts/shift-patterns.js';
import { pairedEstimate } from '../simulate/estimate.js';
import { simulateCell } from '../simulate/simulate-cell.js';
import { simulatedFloor } from '../simulate/simulated-floor.js';
import type { SimulateContext, SimulateOptions } from '../simulate/simulation-options.js';
import type { SimulationResult } from '../simulate/simulation-result.js';
import type { CellComparison, ComparedCell, ComparedPair } from './comparison.js';
import { leftOpenShare } from './left-open.js';
import { bestWeek, recommendation } from './recommendation.js';

/** A cell under the name that the reader knows it by, and how its robot chooses in the simulation. */
export interface ComparedVariant {
  readonly name: string;
  readonly cell: Cell;
  readonly dispatch: ProgramChoice;
}

export interface CompareOptions {
  readonly replications?: number;
  readonly hours?: number;
  readonly seed?: number;
  /** Pattern to simulate; default the first that all cells have, else day and night. */
  readonly pattern?: string;
  /** Confidence of every interval, default 0.95. */
  readonly confidence?: number;
}

/**
 * @param variants two or more with names of their own
 * @throws RangeError where a pattern is named that a cell does not have
 */
export async function compareCells(
  variants: readonly ComparedVariant[],
  options: CompareOptions = {},
  context: SimulateContext = {},
  solve: (cell: Cell) => ScheduleOutcome = (cell) => bestSchedule(cell, { improvements: false }),
): Promise<CellComparison> {
  if (variants.length < 2) throw new RangeError('a comparison needs two cells or more');
  const pattern = sharedPattern(variants, options.pattern);
  const outcomes = new Map<Cell, ScheduleOutcome>();
  for (const { cell } of variants) if (!outcomes.has(cell)) outcomes.set(cell, solve(cell));
  const runnable = variants.filter(({ cell }) => 'order' in outcomes.get(cell)!);
  const results = await simulated(runnable, outcomes, pattern, options, context);
  const cells = variants.map((variant): ComparedCell => {
    const schedule = outcomes.get(variant.cell)!;
    return {
      name: variant.name,
      stations: variant.cell.stations,
      dispatch: (results.get(variant.name)?.dispatch ?? 'order') as Program,
      schedule,
      shifts:
        'order' in schedule ? shiftPatterns(variant.cell, schedule, { program: variant.dispatch }) : null,
      simulated: results.get(variant.name) ?? null,
    };
  });
  const isRule = (name: string): boolean =>
    variants.some((v) => v.name === name && v.dispatch !== 'best' && isCallRule(v.dispatch));
  const reasons = incomparable(variants, pattern);
  const differences = reasons.length > 0 ? [] : pairs(cells, options.confidence ?? 0.95, isRule);
  const currency = sharedCurrency(variants.map(({ cell }) => cell));
  const best = bestOf(cells, reasons.length === 0, currency !== null);
  const said = recommendation(cells, differences, best, { pattern, reasons, currency });
  return {
    cells,
    incomparable: reasons,
    differences,
    best,
    ...said,
    pattern,
    assumptions: assumptionsOf(pattern, cells, options),
    warnings: warningsOf(cells),
  };
}

/** @throws RangeError */
function sharedPattern(variants: readonly ComparedVariant[], asked: string | undefined): string | null {
  const names = variants.map(({ cell }) => patternNames(cell.shifts));
  const shared = names[0]!.filter((name) => names.every((list) => list.includes(name)));
  if (asked === undefined) return shared[0] ?? null;
  if (shared.includes(asked)) return asked;
  const there = shared.length === 0 ? 'they share none' : `they share ${shared.join(', ')}`;
  throw new RangeError(`not all cells have the pattern ${asked}; ${there}`);
}

async function simulated(
  variants: readonly ComparedVariant[],
  outcomes: ReadonlyMap<Cell, ScheduleOutcome>,
  pattern: string | null,
  options: CompareOptions,
  context: SimulateContext,
): Promise<ReadonlyMap<string, SimulationResult>> {
  const { replications, hours, seed, confidence } = options;
  const shared: Omit<SimulateOptions, 'program'> = {
    losses: false,
    ...(replications === undefined ? {} : { replications }),
    ...(hours === undefined ? {} : { hours }),
    ...(seed === undefined ? {} : { seed }),
    ...(confidence === undefined ? {} : { confidence }),
  };
  const done = new Map<string, SimulationResult>();
  for (const { name, cell, dispatch } of variants) {
    const schedule = outcomes.get(cell) as ScheduleFound;
    const floor = simulatedFloor(cell, schedule, pattern, { program: dispatch });
    done.set(name, await simulateCell(cell, { ...shared, ...floor }, context));
  }
  return done;
}

/**
 * Every pair; the more there are, the wider the interval that must leave out 0, so that all hold together.
 *
 * @param isRule asked to run under a rule on calls, to which no sequence matters
 */
function pairs(
  cells: readonly ComparedCell[],
  confidence: number,
  isRule: (name: string) => boolean,
): ComparedPair[] {
  const known = cells.filter((c) => c.simulated !== null);
  const count = (known.length * (known.length - 1)) / 2;
  return known.flatMap((a, i) =>
    known.slice(i + 1).map((b): ComparedPair => {
      const lists = [a.simulated!.meanByReplication, b.simulated!.meanByReplication] as const;
      const { difference, leastApart } = pairedEstimate(...lists, confidence, count);
      const less = difference.mean > 0 ? b : a;
      const openPerShift = isRule(less.name) ? 0 : leftOpen(less);
      return {
        a: a.name,
        b: b.name,
        partsPerShift: difference,
        clear: openPerShift !== null && leastApart > openPerShift + 1e-9,
        openPerShift,
      };
    }),
  );
}

/** Parts a shift that a sequence not found could add at most. */
function leftOpen({ schedule, simulated: run }: ComparedCell): number | null {
  const share = leftOpenShare(schedule);
  return share === null ? null : run!.partsPerShift.total!.mean * share;
}

/**
 * @param countsCompare false: there is no first by counts of parts
 * @param moneyCompares false: nor by contribution
 */
function bestOf(
  cells: readonly ComparedCell[],
  countsCompare: boolean,
  moneyCompares: boolean,
): CellComparison['best'] {
  const by = (measure: (cell: ComparedCell) => number | null): string | null => {
    const known = cells.flatMap((cell) => {
      const value = measure(cell);
      return value === null ? [] : [{ name: cell.name, value }];
    });
    return known.length === 0 ? null : known.reduce((a, b) => (b.value > a.value ? b : a)).name;
  };
  return {
    bySimulatedParts: countsCompare ? by((c) => c.simulated?.partsPerShift.total?.mean ?? null) : null,
    byPartsPerH: countsCompare
      ? by((c) => ('order' in c.schedule ? (c.schedule.partsPerH.total ?? null) : null))
      : null,
    // A cell whose contribution is not known could be first.
    byContribution:
      !moneyCompares || cells.some((cell) => 'order' in cell.schedule && bestWeek(cell) === null)
        ? null
        : by((cell) => bestWeek(cell)?.earned ?? null),
  };
}

function assumptionsOf(
  pattern: string | null,
  cells: readonly ComparedCell[],
  options: CompareOptions,
): string[] {
  const first = cells.find((c) => c.simulated !== null)?.simulated;
  const simulation =
    first === undefined || first === null
      ? []
      : [
          `Simulated: ${first.replications} runs of ${first.horizonH.toFixed(0)} h each, seed ${first.seed}, ${pattern === null ? 'day and night without shifts' : `in the pattern ${pattern}`}; every cell runs on the same random numbers.`,
          `Intervals hold with ${100 * (options.confidence ?? 0.95)}% each (Student’s t on paired runs); a difference counts as clear by intervals so wide that all pairs hold together, and only where it is more than a better sequence could add to the cell that makes less.`,
        ];
  return [
    'Robot cycle, parts an hour and shifts are at constant times; only the simulated figures have downtime and variation.',
    ...simulation,
  ];
}

function warningsOf(cells: readonly ComparedCell[]): string[] {
  const each = cells.flatMap(({ name, schedule, shifts, simulated: run }) =>
    [
      ...('order' in schedule ? schedule.warnings : []),
      ...(shifts?.warnings ?? []),
      ...(run?.warnings ?? []),
    ].map((text) => `${name}: ${text}`),
  );
  return [...new Set(each)];
}

interface NamedCell {
  readonly name: string;
  readonly cell: Cell;
}

/** Parts named of each cell. */
const MOST_PARTS = 3;

/**
 * @param variants two or more
 * @param pattern that all are held side by side in; null = day and night
 * @returns a sentence for each reason; empty where good parts a shift may be compared
 */
function incomparable(variants: readonly NamedCell[], pattern: string | null): string[] {
  return [...partsText(variants), ...hoursText(variants, pattern)];
}

function partsText(variants: readonly NamedCell[]): string[] {
  const made = variants.map(({ cell }) => cell.routes.map(({ part }) => part));
  const said = variants.flatMap(({ name }, i) => {
    const own = made[i]!.filter((part) => !made.every((parts) => parts.includes(part)));
    return own.length === 0 ? [] : [`${firstFew(own, MOST_PARTS)} (${name})`];
  });
  return said.length === 0 ? [] : [`Parts that not every cell makes: ${said.join('; ')}.`];
}

function hoursText(variants: readonly NamedCell[], pattern: string | null): string[] {
  if (pattern === null)
    return variants.some(({ cell }) => patternNames(cell.shifts).length > 0)
      ? ['The cells share no shift pattern.']
      : [];
  const hours = variants.map(({ cell }) => hoursOf(cell, pattern));
  const others = variants.filter((_, i) => hours[i] !== hours[0]).map(({ name }) => name);
  return others.length === 0
    ? []
    : [`Other hours in the pattern ${pattern} than ${variants[0]!.name}: ${others.join(', ')}.`];
}

/** When the pattern's shifts are, and who is there. */
function hoursOf({ shifts }: Cell, pattern: string): string {
  const rows = shifts
    .filter((row) => row.pattern === pattern)
    .map(({ days, startMin, endMin, breaks, attended, operators }) =>
      JSON.stringify([days, startMin, endMin, breaks, attended, operators]),
    );
  return rows.sort().join();
}
