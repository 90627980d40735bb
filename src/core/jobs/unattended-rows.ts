/**
 * What holds a plan while the cell runs and nobody is there: racks hold what they hold, a part that is taken in only while
 * people are there waits for them, and a machine whose planned stop waits for somebody stops when that comes due.
 *
 * Such a stop comes after so many parts at its station, counted from the beginning of the week, and may be made early, by at
 * most so many parts, just before people leave. By then the parts so far and those that early stops gave up are enough for
 * the stops that are done; from then on each place makes one part less than would bring the next one: the last part stays
 * inside until somebody has come.
 */
import type { LinearRow } from '../lp/solve-linear-program.js';
import type { Terms } from '../lp/terms.js';
import type { Cell, PlannedStop, Station } from '../model/cell.js';
import type { Leg } from '../schedule/bound/legs.js';
import type { WeekSlot } from './week-slots.js';

export interface UnattendedRows {
  readonly rows: readonly LinearRow[];
  /** Variables that are whole numbers: stops done by the time at which people leave, and whether one was early. */
  readonly whole: readonly string[];
}

/** Windows in a row in which nobody is there. */
export function unattendedStretches(slots: readonly WeekSlot[]): number[][] {
  const stretches: number[][] = [];
  for (const [t, slot] of slots.entries()) {
    if (slot.attendedH > 0) continue;
    const before = stretches.at(-1);
    if (before?.at(-1) === t - 1) before.push(t);
    else stretches.push([t]);
  }
  return stretches;
}

/** True where a part is not taken in during a window. */
export function isKeptOut({ parts }: Cell, part: string, slot: WeekSlot): boolean {
  return slot.attendedH === 0 && parts.find((p) => p.part === part)?.unattended === false;
}

/** Parts that a rack gives or takes until somebody has to see to it; null = no limit. */
export function rackHolds(
  { stops }: Pick<Cell, 'stops'>,
  { name, kind, capacityParts }: Station,
): number | null {
  if (kind !== 'infeed' && kind !== 'outfeed') return null;
  const due = stops.filter((s) => s.station === name && s.operator).map((s) => s.everyParts ?? Infinity);
  const most = Math.min(capacityParts ?? Infinity, ...due);
  return Number.isFinite(most) ? most : null;
}

/** @param legVar name of the variable of a leg in a window */
export function unattendedRows(
  cell: Cell,
  slots: readonly WeekSlot[],
  legs: readonly Leg[],
  legVar: (slot: number, leg: number) => string,
): UnattendedRows {
  const stretches = unattendedStretches(slots);
  const sum = (windows: readonly number[], of: readonly number[]): Terms =>
    Object.fromEntries(windows.flatMap((t) => of.map((l) => [legVar(t, l), 1])));
  const legsWhere = (holds: (leg: Leg) => boolean): number[] =>
    legs.flatMap((leg, l) => (holds(leg) ? [l] : []));
  const racks = cell.stations.flatMap((station) => {
    const most = rackHolds(cell, station);
    if (most === null) return [];
    const here = legsWhere((leg) => (station.kind === 'infeed' ? leg.from : leg.to) === station.name);
    return stretches.map((windows) => ({ name: `rack ${station.name}`, terms: sum(windows, here), most }));
  });
  const keptOut = cell.routes.flatMap(({ part }, r) => {
    const windows = [...slots.keys()].filter((t) => isKeptOut(cell, part, slots[t]!));
    const starts = legsWhere((leg) => leg.route === r && leg.fromStep === 0);
    return windows.map((t) => ({ name: `${part} waits for people`, terms: sum([t], starts), most: 0 }));
  });
  const stops = stretches.length === 0 ? [] : waitingStops(cell);
  const ofStops = stops.map(({ stop, places }, i) => {
    const into = legsWhere((leg) => leg.to === stop.station);
    return stopRows(stop, places, `stop ${i}`, stretches, (windows) => sum(windows, into));
  });
  return {
    rows: [...racks, ...keptOut, ...ofStops.flatMap(({ rows }) => rows)],
    whole: ofStops.flatMap(({ whole }) => whole),
  };
}

interface WaitingStop {
  readonly stop: PlannedStop & { readonly everyParts: number };
  readonly places: number;
}

type Stops = Pick<Cell, 'stops' | 'stations'>;

/** Stops by parts at machines, benches and buffers that wait for somebody. */
export function waitingStops(cell: Stops): WaitingStop[] {
  return cell.stops.flatMap((stop) => {
    const { everyParts } = stop;
    const { capacityParts } = cell.stations.find((s) => s.name === stop.station)!;
    return waitsAtWork(cell, stop) && everyParts !== null
      ? [{ stop: { ...stop, everyParts }, places: capacityParts ?? 1 }]
      : [];
  });
}

function waitsAtWork({ stations }: Stops, stop: PlannedStop): boolean {
  const { kind } = stations.find((s) => s.name === stop.station)!;
  return stop.operator && (kind === 'machine' || kind === 'bench' || kind === 'buffer');
}

/**
 * Stops by the clock that wait for somebody: in each window the share of its hours until the first of a station comes due
 * while nobody is there; from then on the station is stopped until people are back. Their hours count from the beginning of
 * the week, and from the end of each stop. A stop begins when a cycle ends, so each comes by up to one cycle later than due;
 * where it is not sure that people still make it before they leave, the night is not counted on.
 *
 * @returns by station and window; stations without such stops are left out
 */
export function sharesUntilStops(
  cell: Pick<Cell, 'stops' | 'stations' | 'routes'>,
  slots: readonly Pick<WeekSlot, 'openH' | 'attendedH'>[],
): ReadonlyMap<string, readonly number[]> {
  const shares = new Map<string, number[]>();
  for (const stop of cell.stops) {
    if (stop.everyH === null || !waitsAtWork(cell, stop)) continue;
    const own = untilStop(stop.everyH, stop.minutes / 60, longestVisitH(cell, stop.station), slots);
    shares.set(
      stop.station,
      own.map((share, t) => Math.min(share, shares.get(stop.station)?.[t] ?? 1)),
    );
  }
  return shares;
}

function untilStop(
  everyH: number,
  stopH: number,
  visitH: number,
  slots: readonly Pick<WeekSlot, 'openH' | 'attendedH'>[],
): number[] {
  // When the next one comes due at the earliest and at the latest, in open hours.
  let [soonest, latest] = [everyH, everyH + visitH];
  let isUnsure = false;
  let startH = 0;
  return slots.map(({ openH, attendedH }) => {
    const beginH = startH;
    const endH = beginH + openH;
    startH = endH;
    if (attendedH === 0)
      return isUnsure || openH <= 0 ? 0 : Math.max(0, Math.min(1, (soonest - beginH) / openH));
    if (isUnsure) [soonest, latest] = [soonest, beginH].map((h) => h + stopH + everyH) as [number, number];
    isUnsure = false;
    while (soonest < endH && !isUnsure) {
      isUnsure = latest + stopH > endH;
      if (isUnsure) break;
      soonest = Math.max(soonest, beginH) + stopH + everyH;
      latest = Math.max(latest, beginH) + visitH + stopH + everyH;
    }
    return 1;
  });
}

/** Hours of a part at a station at most, from placing to picking. */
function longestVisitH({ routes, stations }: Pick<Cell, 'routes' | 'stations'>, name: string): number {
  const { closeS, readyS } = stations.find((s) => s.name === name)!;
  const visits = routes.flatMap(({ steps }) =>
    steps.filter((step) => step.stations.includes(name)).map((s) => s.loadS + s.cycleS + s.unloadS),
  );
  return (closeS + readyS + Math.max(0, ...visits)) / 3600;
}

function stopRows(
  { station, everyParts, earlyParts = 0 }: WaitingStop['stop'],
  places: number,
  name: string,
  stretches: readonly (readonly number[])[],
  madeIn: (windows: readonly number[]) => Terms,
): UnattendedRows {
  const done = (k: number): string => `${name} done ${k}`;
  const early = (k: number): string => `${name} early ${k}`;
  const givenUp = (k: number): string => `${name} given up ${k}`;
  const isEarly = earlyParts > 0;
  const rows = stretches.flatMap((windows, k): LinearRow[] => {
    const before = Array.from({ length: windows[0]! }, (_, t) => t);
    const since: Terms = { ...(isEarly ? { [givenUp(k)]: 1 } : {}), [done(k)]: -everyParts };
    const sooner: Terms = k > 0 ? { [givenUp(k - 1)]: -1 } : {};
    const more: Terms = { [givenUp(k)]: 1, ...sooner };
    return [
      { name: `stops done at ${station}`, terms: { ...madeIn(before), ...since }, least: 0 },
      {
        name: `${station} until its stop`,
        terms: { ...madeIn([...before, ...windows]), ...since },
        most: places * (everyParts - 1),
      },
      ...(isEarly
        ? [
            // After an early stop the parts since the last one are 0.
            {
              name: `early stop at ${station}`,
              terms: { ...madeIn(before), ...since, [early(k)]: everyParts },
              most: everyParts,
            },
            { name: `given up at ${station}`, terms: more, least: 0 },
            { name: `given up at ${station}`, terms: { ...more, [early(k)]: -earlyParts }, most: 0 },
            { name: `early stop at ${station}`, terms: { [early(k)]: 1 }, most: 1 },
          ]
        : []),
    ];
  });
  const whole = stretches.flatMap((_, k) => [done(k), ...(isEarly ? [early(k)] : [])]);
  return { rows, whole };
}

/** What a plan takes from all this, in words for those who read it. */
export function unattendedTexts({ parts, stops, stations, shifts }: Cell): string[] {
  if (shifts.every((shift) => shift.attended)) return [];
  const kept = parts.filter((p) => p.unattended === false).map((p) => p.part);
  const byClock = stops.filter((s) => s.operator && s.everyH !== null);
  const atWork = byClock.filter((stop) => waitsAtWork({ stops, stations }, stop));
  const atRacks = byClock.filter((stop) => !atWork.includes(stop)).map((s) => `"${s.name}" at ${s.station}`);
  return [
    ...(kept.length > 0
      ? [
          `${kept.join(', ')}: taken in only while people are there (unattended), and planned in those hours alone.`,
        ]
      : []),
    ...(waitingStops({ stops, stations }).length > 0
      ? [
          'While nobody is there, a machine goes on until a planned stop that waits for somebody comes due. Parts are counted from Monday on; before they leave, people make a stop early by early_parts at most.',
        ]
      : []),
    ...(atWork.length > 0
      ? [
          'A stop by the clock (every_h) counts open hours from Monday on; while nobody is there, it stops its machine from the moment on at which it comes due. Where it may come due just as people leave, nothing is planned for the night.',
        ]
      : []),
    ...(atRacks.length > 0
      ? [
          `Not in the plan: that ${atRacks.join(', ')} may come due while nobody is there (every_h). \`shifts\` and \`simulate\` have it.`,
        ]
      : []),
  ];
}
