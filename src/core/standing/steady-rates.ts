/**
 * Good parts an hour of the steady cell, as it is and without each of some machines. The cell may always be run as if a
 * machine were not there, so what is found for less is a start for more.
 */
import { isAsked, unasked } from '../calendar/asked-amounts.js';
import type { Cell } from '../model/cell.js';
import { reducedCell, usedMachines } from '../model/reduced-cell.js';
import { bestSchedule, type ScheduleOptions } from '../schedule/best-schedule.js';
import type { ScheduleFound } from '../schedule/result.js';

/** Good parts an hour by part. */
export type GoodRates = Readonly<Record<string, number>>;

export interface SteadyRates {
  readonly cell: GoodRates;
  /** By machine that stands. */
  readonly without: Readonly<Record<string, GoodRates>>;
}

interface Mode {
  readonly rates: GoodRates;
  readonly stations: ReadonlySet<string>;
  readonly worth: number;
}

/**
 * @param schedule the best order of the whole cell
 * @param machines that may stand
 * @param search limits of each search
 * @param onMachine called after the search without each of them
 */
export function steadyRates(
  cell: Cell,
  schedule: ScheduleFound,
  machines: readonly string[],
  search: ScheduleOptions,
  onMachine: () => void = () => undefined,
): SteadyRates {
  // What is asked for is held against the week later: the rates themselves do not hang on it.
  const free: Cell = { ...cell, parts: cell.parts.map(unasked) };
  const bound = cell.parts.some(isAsked);
  const whole = (bound ? modeOf(free, search) : null) ?? modeFrom(cell, schedule);
  const used = usedMachines(cell);
  const reduced = new Map<string, Mode>();
  const modes: Mode[] = [whole];
  const hasMix = cell.parts.some((part) => part.ratio !== null);
  for (const machine of machines) {
    const rest = reducedCell(
      free,
      used.filter((name) => name !== machine),
    );
    // A fixed mix is made together or not at all.
    const broken = rest.routes.length === 0 || (hasMix && rest.routes.length < cell.routes.length);
    const mode = broken ? null : modeOf(rest, search);
    onMachine();
    if (mode === null) continue;
    reduced.set(machine, mode);
    modes.push(mode);
  }
  return {
    cell: best(modes).rates,
    without: Object.fromEntries(
      machines.map((machine) => {
        const left = modes.filter((mode) => !mode.stations.has(machine));
        return [machine, left.length === 0 ? {} : best(left).rates];
      }),
    ),
  };
}

function best(modes: readonly Mode[]): Mode {
  return modes.reduce((most, mode) => (mode.worth > most.worth ? mode : most));
}

/** Nodes of each search, unless asked otherwise: there is one for every machine that changes over. */
const NODES_EACH = 60_000;
/** A sweep over money asks for the same cells at every point; so many are remembered. */
const MOST_REMEMBERED = 100;
const remembered = new Map<string, Mode | null>();

function modeOf(cell: Cell, search: ScheduleOptions): Mode | null {
  const options = { nodeLimit: NODES_EACH, ...search, improvements: false };
  const { stations, routes, robot, travel, parts } = cell;
  const key = JSON.stringify([stations, routes, robot, travel, parts, options]);
  const known = remembered.get(key);
  if (known !== undefined) return known;
  const outcome = bestSchedule(cell, options);
  const mode = 'order' in outcome ? modeFrom(cell, outcome) : null;
  if (remembered.size >= MOST_REMEMBERED) remembered.clear();
  if (options.timeLimitS === undefined) remembered.set(key, mode);
  return mode;
}

function modeFrom(cell: Pick<Cell, 'parts'>, schedule: ScheduleFound): Mode {
  const rates = Object.fromEntries(
    Object.entries(schedule.partsPerH)
      .filter(([part]) => part !== 'total')
      .map(([part, perH]) => [part, (perH * yieldPct(cell, part)) / 100]),
  );
  const worth = Object.entries(rates).reduce((sum, [part, perH]) => sum + perH * eachOf(cell, part), 0);
  return { rates, stations: new Set(schedule.order.map((event) => event.station)), worth };
}

export function eachOf(cell: Pick<Cell, 'parts'>, part: string): number {
  return cell.parts.find((row) => row.part === part)?.contribution ?? 0;
}

function yieldPct(cell: Pick<Cell, 'parts'>, part: string): number {
  return cell.parts.find((row) => row.part === part)?.yieldPct ?? 100;
}
