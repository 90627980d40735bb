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

/** Stops by parts at machines, benches and buffers that wait for somebody. */
export function waitingStops({ stops, stations }: Pick<Cell, 'stops' | 'stations'>): WaitingStop[] {
  return stops.flatMap((stop) => {
    const { kind, capacityParts } = stations.find((s) => s.name === stop.station)!;
    const isAtWork = kind === 'machine' || kind === 'bench' || kind === 'buffer';
    const { everyParts } = stop;
    return isAtWork && stop.operator && everyParts !== null
      ? [{ stop: { ...stop, everyParts }, places: capacityParts ?? 1 }]
      : [];
  });
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
  const byClock = stops
    .filter((s) => s.operator && s.everyH !== null)
    .map((s) => `"${s.name}" at ${s.station}`);
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
    ...(byClock.length > 0
      ? [
          `Not in the plan: that ${byClock.join(', ')} may come due while nobody is there (every_h). \`shifts\` and \`simulate\` have it.`,
        ]
      : []),
  ];
}
