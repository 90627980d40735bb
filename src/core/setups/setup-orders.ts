/** For each machine of setups.csv: the order of its jobs that needs the fewest set-up minutes. */
import { type ChangeoverOrder, changeoverOrder } from '../cost/changeover/changeover-order.js';
import type { Cell } from '../model/cell.js';
import { mayLackRows, setupTable, wayBackText } from '../model/setup-minutes.js';

export interface SetupStep {
  readonly from: string;
  readonly to: string;
  readonly minutes: number;
}

export interface StationSetups
  extends Pick<ChangeoverOrder, 'minutes' | 'boundMinutes' | 'gapPct' | 'proven' | 'method'> {
  readonly station: string;
  /** Jobs in order. */
  readonly order: readonly string[];
  /** The set-ups between them; in a round the last goes back to the first job. */
  readonly steps: readonly SetupStep[];
  /** The same jobs in the order in which the table names them first. */
  readonly asListedMinutes: number;
}

export interface SetupOrders {
  readonly stations: readonly StationSetups[];
  /** True where the jobs come round again after the last. */
  readonly round: boolean;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

export interface SetupOrderOptions {
  /** The jobs run once, so that the way back from the last to the first is not counted; default false. */
  readonly once?: boolean;
  /** Job that is set up now, on machines that have it: it comes first. */
  readonly now?: string;
}

/** @returns no stations where the cell has no set-up minutes */
export function setupOrders(cell: Cell, options: SetupOrderOptions = {}): SetupOrders {
  const round = options.once !== true;
  const names = [...new Set(cell.setups.map((setup) => setup.station))];
  const stations = names.map((station) => stationSetups(cell, station, round, options.now));
  const asked = names.filter((station) => mayLackRows(cell.setups, station));
  const wayBack = (station: string): string | readonly never[] => wayBackText(cell.setups, station) ?? [];
  const open = stations.filter((s) => !s.proven).map((s) => s.station);
  return {
    stations,
    round,
    assumptions: [
      'Set-up minutes depend on the job before and the job after, and on nothing else.',
      'Due days are not looked at: the order is that of the fewest minutes.',
      round
        ? 'The jobs repeat: the changeover from the last to the first is counted.'
        : 'The jobs run once: nothing is counted after the last.',
      ...names.filter((station) => !asked.includes(station)).flatMap(wayBack),
    ],
    warnings: [
      ...asked.flatMap(wayBack),
      ...open.map(
        (station) => `${station}: the order is the best found, and no order takes less than the bound shown.`,
      ),
    ],
  };
}

function stationSetups(cell: Cell, station: string, round: boolean, now: string | undefined): StationSetups {
  const table = setupTable(cell.setups, station);
  const minutes = table.minutes.map((row) => row.map((value) => value ?? Number.NaN));
  const first = now === undefined ? -1 : table.jobs.indexOf(now);
  const found = changeoverOrder(minutes, { round, ...(first < 0 ? {} : { first }) });
  const listed = table.jobs.map((_, place) => place);
  const named = (places: readonly number[]): SetupStep[] =>
    stepsOf(places, round).map(([from, to]) => ({
      from: table.jobs[from]!,
      to: table.jobs[to]!,
      minutes: minutes[from]![to]!,
    }));
  const fromFirst = first < 0 ? listed : [first, ...listed.filter((place) => place !== first)];
  return {
    station,
    order: found.order.map((place) => table.jobs[place]!),
    steps: named(found.order),
    minutes: found.minutes,
    asListedMinutes: named(fromFirst).reduce((sum, step) => sum + step.minutes, 0),
    boundMinutes: found.boundMinutes,
    gapPct: found.gapPct,
    proven: found.proven,
    method: found.method,
  };
}

function stepsOf(places: readonly number[], round: boolean): [from: number, to: number][] {
  const steps = places.slice(1).map((to, k): [number, number] => [places[k]!, to]);
  const isBack = round && places.length > 1;
  return isBack ? [...steps, [places[places.length - 1]!, places[0]!]] : steps;
}
