/**
 * What an hour of a standing machine costs: what the cell earns with it less what it earns without it, by the steady cell
 * and by the floor's own week. There is no rule about bottlenecks, so nothing jumps when an input moves a little.
 */

import { type AskedWeek, askedPerWeek, isAsked, PLAIN_WEEK, patternWeek } from '../calendar/asked-amounts.js';
import { patternNames } from '../calendar/week-calendar.js';
import { YEAR_WEEKS } from '../calendar/year.js';
import type { FloorModel, PartWeek, StandingFacts, StandingModel } from '../cost/standing/standing-facts.js';
import { harnessWays, type WayMinutes } from '../cost/way-minutes.js';
import type { Cell } from '../model/cell.js';
import { costNumber, givenCost } from '../model/cost-value.js';
import { scaledCell } from '../model/scaled-cell.js';
import { bestSchedule, type ScheduleOptions } from '../schedule/best-schedule.js';
import type { ScheduleFound } from '../schedule/result.js';
import { chosenProgram } from '../shifts/best-program.js';
import { shiftYield } from '../shifts/shift-yield.js';
import { eachOf, type SteadyRates, steadyRates } from './steady-rates.js';

export interface StandingOptions {
  /** A pattern of shifts.csv; the first one when not given. */
  readonly pattern?: string | null;
  /** Limits of each search. */
  readonly search?: ScheduleOptions;
  /** Leave out the cycle times between whose limits they are in doubt; default false. */
  readonly asPlannedOnly?: boolean;
  /** Called after the search without each machine and after the weeks of the floor, for progress. */
  readonly onProgress?: (done: number, planned: number) => void;
}

/**
 * @param cell its changeovers, costs, parts and shifts count
 * @param schedule the best order found for it
 * @throws RangeError where the cell has no shift of the pattern asked for
 */
export function standingHours(
  cell: Cell,
  schedule: ScheduleFound,
  options: StandingOptions = {},
): StandingFacts {
  const pattern = options.pattern ?? patternNames(cell.shifts)[0] ?? null;
  const { value, low, high } = cycleShares(cell);
  const shares = low === high || options.asPlannedOnly === true ? [] : [...new Set([low, value, high])];
  const planned =
    Math.max(1, shares.length) * (Object.keys(standingHPerWeek(cell, harnessWays(cell))).length + 1);
  let done = 0;
  const how = {
    search: options.search ?? {},
    onStep: () => {
      done += 1;
      options.onProgress?.(done, planned);
    },
  };
  const at = (cyclePct: number): Models | null => {
    const cycled = cyclePct === 100 ? cell : scaledCell(cell, 'cycle', cyclePct / 100);
    const search = { ...how.search, improvements: false };
    const order = cyclePct === 100 ? schedule : bestSchedule(cycled, search);
    return 'order' in order ? modelsOf(cycled, order, pattern, how) : null;
  };
  const asPlanned = at(value) ?? modelsOf(cell, schedule, pattern, how);
  const points = shares.map((cyclePct) => ({
    cyclePct,
    models: cyclePct === value ? asPlanned : at(cyclePct),
  }));
  const none = points.filter(({ models }) => models === null).map(({ cyclePct }) => `${cyclePct}%`);
  return {
    ...asPlanned,
    atCycle: points.flatMap(({ cyclePct, models }) => (models === null ? [] : [{ cyclePct, ...models }])),
    because: [
      ...reasons(cell, pattern, asPlanned.floor),
      ...(none.length === 0
        ? []
        : [
            `With cycle times at ${none.join(' or ')} of the plan no sequence was found, so an hour of downtime is priced no further than the last share with one.`,
          ]),
    ],
  };
}

interface Models {
  readonly steady: StandingModel;
  readonly floor: FloorModel | null;
}

function modelsOf(
  cell: Cell,
  schedule: ScheduleFound,
  pattern: string | null,
  { search, onStep }: { readonly search: ScheduleOptions; readonly onStep: () => void },
): Models {
  const ways = harnessWays(cell);
  const standH = standingHPerWeek(cell, ways);
  const machines = Object.keys(standH);
  const week = weekOf(cell, pattern);
  const rates = steadyRates(cell, schedule, machines, search, onStep);
  const steady = steadyModel(cell, rates, standH, week);
  const floor =
    pattern === null ? null : floorModel(cell, schedule, pattern, ways, standH, steady, week.shifts);
  onStep();
  return { steady, floor };
}

/** Cycle times as a share of the plan, per cent: as they count, and between what limits they are in doubt. */
function cycleShares({ costs }: Cell): { value: number; low: number; high: number } {
  const value = costNumber(costs, 'cycle_pct') ?? 100;
  const given = givenCost(costs, 'cycle_pct');
  return { value, low: given?.low ?? value, high: given?.high ?? value };
}

/** Hours a week in which each machine of changeovers.csv stands for moves of the harness. */
function standingHPerWeek(cell: Cell, ways: Readonly<Record<string, WayMinutes>>): Record<string, number> {
  const visited = new Set(cell.routes.flatMap((route) => route.steps.flatMap((step) => step.stations)));
  return Object.fromEntries(
    cell.changeovers
      .filter((row) => visited.has(row.station))
      .map((row) => {
        const minutes = (row.perYear / YEAR_WEEKS) * (ways[row.station]?.minutes ?? 0);
        return [row.station, (minutes / 60) * (row.internalPct / 100)];
      }),
  );
}

function weekOf(cell: Cell, pattern: string | null): AskedWeek {
  if (pattern === null) return PLAIN_WEEK;
  const week = patternWeek(cell.shifts, pattern);
  if (week.shifts === 0) throw new RangeError(`no shift of the pattern ${pattern} is given`);
  return week;
}

function steadyModel(
  cell: Cell,
  rates: SteadyRates,
  standH: Readonly<Record<string, number>>,
  week: { hours: number; shifts: number },
): StandingModel {
  const names = cell.routes.map((route) => route.part);
  const lostPerH = Object.fromEntries(
    Object.entries(rates.without).map(([machine, left]) => [
      machine,
      Object.fromEntries(names.map((part) => [part, (rates.cell[part] ?? 0) - (left[part] ?? 0)])),
    ]),
  );
  const parts = names.map((part): PartWeek => {
    const free = (rates.cell[part] ?? 0) * week.hours;
    const lost = Object.entries(standH).reduce(
      (sum, [machine, hours]) => sum + hours * (lostPerH[machine]?.[part] ?? 0),
      0,
    );
    return { ...soldOf(cell, part, week.shifts), free, moved: free - lost };
  });
  return { parts, lostPerH };
}

function soldOf(cell: Cell, part: string, shifts: number): Pick<PartWeek, 'part' | 'each' | 'asked'> {
  const row = cell.parts.find((one) => one.part === part);
  return { part, each: eachOf(cell, part), asked: askedPerWeek(row, shifts) };
}

/**
 * The floor's weeks with the harness moved to every machine and to none. What all moves cost together is shared out among
 * the machines by what the steady cell loses at each: weeks with one machine moved alone differ by few whole parts, so that
 * shares by them jump from machine to machine when a time moves by a second.
 *
 * @returns null where nobody is there to change a machine over, or no machine stands
 */
function floorModel(
  cell: Cell,
  schedule: ScheduleFound,
  pattern: string,
  ways: Readonly<Record<string, WayMinutes>>,
  standH: Readonly<Record<string, number>>,
  steady: StandingModel,
  shifts: number,
): FloorModel | null {
  const machines = Object.keys(standH).filter((machine) => standH[machine]! > 0);
  if (machines.length === 0) return null;
  if (!cell.shifts.some((shift) => shift.pattern === pattern && shift.attended)) return null;
  // One program for all weeks, so that they differ by the minutes alone.
  const program = chosenProgram(cell, schedule, pattern, 'best');
  const week: FloorModel['week'] = (minutes) =>
    shiftYield(cell, schedule, pattern, { program, ways: minutes, losses: false }).partsPerWeek;
  const only = (names: readonly string[]) =>
    Object.fromEntries(
      names.map((name) => [name, { way: 'harness' as const, minutes: ways[name]!.minutes }]),
    );
  const free = week({});
  const moved = week(only(machines));
  const hours = machines.reduce((sum, machine) => sum + standH[machine]!, 0);
  const parts = cell.routes.map(({ part }): PartWeek => {
    return { ...soldOf(cell, part, shifts), free: free[part] ?? 0, moved: moved[part] ?? 0 };
  });
  const lostPerH = machines.map((machine) => {
    const share = ({ part, free: most, moved: least }: PartWeek): number => {
      const lost = (name: string): number => Math.max(0, steady.lostPerH[name]?.[part] ?? 0) * standH[name]!;
      const all = machines.reduce((sum, name) => sum + lost(name), 0);
      const mine = all > 0 ? lost(machine) / all : standH[machine]! / hours;
      return ((most - least) * mine) / standH[machine]!;
    };
    return [machine, Object.fromEntries(parts.map((row) => [row.part, share(row)]))] as const;
  });
  return { pattern, week, parts, lostPerH: Object.fromEntries(lostPerH) };
}

function reasons(cell: Cell, pattern: string | null, floor: FloorModel | null): string[] {
  const asked = cell.parts.some(isAsked);
  return [
    'An hour of downtime costs what the cell earns with that machine less what it earns without it; other machines that can make the part take over what they can.',
    asked
      ? `Of the parts lost, those count that would have been sold: over the week the least of what is asked for and what is made${pattern === null ? `, in ${PLAIN_WEEK.shifts} shifts of ${PLAIN_WEEK.hours / PLAIN_WEEK.shifts} hours` : ''}.`
      : 'parts.csv gives no demand, so every part made counts as sold; where the order book is not full, say so in costs.csv.',
    floor === null
      ? 'The price is that of the steady cell.'
      : `The price is that of the floor in the pattern ${floor.pattern}: its week with the moves of the harness and without them.`,
  ];
}
