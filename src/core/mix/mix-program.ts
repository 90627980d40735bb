/**
 * The product mix of a week: the linear program of the cell (parts a week on each leg, trips of the robot) within the
 * hours of machines, robot and operators, stops and changeovers taken off. It leaves out who waits for whom, so what it
 * makes is an upper limit, to be held against the schedule and the simulation.
 */

import { YEAR_WEEKS } from '../calendar/year.js';
import { harnessWays } from '../cost/way-minutes.js';
import type { LinearProgram, LinearRow } from '../lp/solve-linear-program.js';
import { add, type Terms } from '../lp/terms.js';
import type { Cell, Station, Step } from '../model/cell.js';
import { type CellProgram, cellProgram, type StationUse, startsOf } from '../schedule/bound/cell-program.js';
import type { Leg } from '../schedule/bound/legs.js';
import { type ChangeoverWork, changeoverWork } from '../shifts/changeover-work.js';

/** Hours of a week that can be used. */
export interface MixHours {
  readonly openH: number;
  readonly attendedH: number;
  /** Hours of people, breaks left out; null = people are not counted. */
  readonly operatorH: number | null;
  /** Times a week that people leave a cell which goes on without them; null = it does not matter here when they are there. */
  readonly leavings: number | null;
}

/** Good parts a week that are wanted of a part; null = not stated. */
export interface MixDemand {
  readonly least: number | null;
  readonly most: number | null;
}

export interface MixInputs {
  readonly cell: Cell;
  readonly hours: MixHours;
  readonly demand: ReadonlyMap<string, MixDemand>;
  /** Extra hours by resource, to find what one more is worth. */
  readonly extraH?: ReadonlyMap<string, number>;
  /** Value of one good part. */
  readonly value: (part: string) => number;
  /** `share`: make most of the common share of all least demands instead of the value. */
  readonly goal: 'value' | 'share';
}

export interface MixProgram {
  readonly program: LinearProgram;
  readonly legs: readonly Leg[];
  /** Rows whose use and limit are hours of a resource. */
  readonly resources: readonly LinearRow[];
}

export const ROBOT = 'robot';
export const OPERATORS = 'operators';

export function mixProgram(inputs: MixInputs): MixProgram {
  const { cell, hours, extraH } = inputs;
  const { legs, stations, robot, rows: balances } = paced(cell, hours);
  // The harness moved at each where that is priced: as in the shifts.
  const changeovers = changeoverWork(cell, new Set(cell.stations.map((s) => s.name)), harnessWays(cell));
  const resources = [
    ...stations.map((use) => stationRow(inputs, legs, changeovers, use)),
    ...stations.flatMap((use) => attendedRow(inputs, legs, use)),
    { name: ROBOT, terms: inHours(robot.seconds), most: hours.openH + (extraH?.get(ROBOT) ?? 0) },
    ...operatorRows(inputs, legs, changeovers),
  ].filter((row) => Object.keys(row.terms).length > 0);
  const alone = { name: `${ROBOT} while nobody is there`, terms: inHours(robot.alone) };
  const rows = [
    ...resources,
    { ...alone, most: hours.openH - hours.attendedH + (extraH?.get(ROBOT) ?? 0) },
    ...balances,
    ...demandRows(inputs, legs),
    ...ratioRows(cell, legs),
  ].filter((row) => Object.keys(row.terms).length > 0);
  const objective: Terms = {};
  if (inputs.goal === 'share') objective.share = 1;
  else
    for (const [r, { part }] of cell.routes.entries())
      for (const [name, by] of Object.entries(startsOf(legs, r, inputs.value(part) * goodShare(cell, part))))
        add(objective, name, by);
  return { program: { sense: 'most', objective, rows }, legs, resources };
}

function inHours(seconds: Readonly<Terms>): Terms {
  return Object.fromEntries(Object.entries(seconds).map(([name, s]) => [name, s / 3600]));
}

export function goodShare(cell: Cell, part: string): number {
  return (cell.parts.find((p) => p.part === part)?.yieldPct ?? 100) / 100;
}

/** Hours at a machine, bench or buffer, planned and random stops included; at an infeed or outfeed that needs time for each part. */
function stationRow(
  { cell, hours, extraH }: MixInputs,
  legs: readonly Leg[],
  changeovers: readonly ChangeoverWork[],
  { station, seconds, room }: StationUse,
): LinearRow {
  const terms = inHours(seconds);
  const stops = arrivals(cell, legs, station, (step) => {
    const cycleH = step.cycleS / step.partsPerCycle / 3600;
    return step.partsPerCycle * (stopMin(cell, station, false) / 60 + randomH(station, cycleH));
  });
  for (const [name, stopH] of Object.entries(stops)) add(terms, name, stopH);
  const most =
    (hours.openH + (extraH?.get(station.name) ?? 0)) * room - fixedH(cell, station, hours.openH, changeovers);
  return { name: station.name, terms, most: Math.max(0, most) };
}

/**
 * What is taken in only while people are there has, where it is worked on first, their hours, and each time they leave one
 * part more for each place.
 */
function attendedRow({ cell, hours, extraH }: MixInputs, legs: readonly Leg[], use: StationUse): LinearRow[] {
  const { station, seconds, room } = use;
  const mayNot = (part: string): boolean => cell.parts.some((p) => p.part === part && p.unattended === false);
  const terms: Terms = {};
  for (const leg of legs)
    if (leg.to === station.name && leg.fromStep === 0 && mayNot(cell.routes[leg.route]!.part))
      terms[leg.name] = (seconds[leg.name] ?? 0) / 3600;
  const each = Math.max(0, ...Object.values(terms));
  if (each === 0 || hours.leavings === null || hours.attendedH >= hours.openH) return [];
  const name = `${station.name} while people are there`;
  return [{ name, terms, most: room * (hours.attendedH + hours.leavings * each + (extraH?.get(name) ?? 0)) }];
}

function arrivals(
  cell: Cell,
  legs: readonly Leg[],
  station: Station,
  hoursOf: (step: Step) => number,
): Terms {
  const terms: Terms = {};
  for (const leg of legs)
    if (leg.to === station.name) add(terms, leg.name, hoursOf(cell.routes[leg.route]!.steps[leg.toStep]!));
  return terms;
}

/** Minutes of planned stops for one part. */
function stopMin(cell: Cell, station: Station, ofOperators: boolean): number {
  return cell.stops
    .filter((s) => s.station === station.name && s.everyParts !== null && (s.operator || !ofOperators))
    .reduce((sum, s) => sum + s.minutes / s.everyParts!, 0);
}

function randomH(station: Station, cycleH: number): number {
  return station.mtbfH === null ? 0 : (cycleH / station.mtbfH) * (station.mttrMin! / 60);
}

/** Hours a week that changeovers and stops by the clock take from a machine, whatever is made. */
function fixedH(cell: Cell, station: Station, openH: number, changeovers: readonly ChangeoverWork[]): number {
  const changeoverH = changeovers
    .filter((c) => c.station === station.name)
    .reduce((sum, c) => sum + (c.perYear / YEAR_WEEKS) * (c.standMin / 60), 0);
  return changeoverH + clockStopH(cell, station, openH, false);
}

/** Hours a week of planned stops that come by the clock. */
function clockStopH(cell: Cell, station: Station, openH: number, ofOperators: boolean): number {
  return cell.stops
    .filter((s) => s.station === station.name && s.everyH !== null && (s.operator || !ofOperators))
    .reduce((sum, s) => sum + ((openH / s.everyH!) * s.minutes) / 60, 0);
}

interface PacedProgram extends Pick<CellProgram, 'legs' | 'stations' | 'rows'> {
  readonly robot: {
    readonly seconds: Readonly<Terms>;
    /** Of these, what is done while nobody is there, at full speed; empty where the robot has one speed all week. */
    readonly alone: Readonly<Terms>;
  };
}

/**
 * The program of a cell whose robot is slower in attended hours. Where there are both kinds of hours, a variable of its own
 * says how much of each is done slowly: at the mean of two travel times less could be made than at each in its hours.
 */
function paced(cell: Cell, { openH, attendedH }: MixHours): PacedProgram {
  const stretch = 100 / cell.robot.attendedSpeedPct;
  const full = cellProgram(cell, attendedH >= openH ? stretch : 1);
  if (stretch === 1 || attendedH <= 0 || attendedH >= openH)
    return { ...full, robot: { seconds: full.robot, alone: {} } };
  const slow = cellProgram(cell, stretch);
  const withSlow = (quick: Readonly<Terms>, slowly: Readonly<Terms>): Terms => {
    const more = Object.entries(slowly).map(([name, s]) => [slowOf(name), s - (quick[name] ?? 0)] as const);
    return { ...quick, ...Object.fromEntries(more.filter(([, s]) => s > 0)) };
  };
  const names = Object.keys(slow.robot);
  return {
    legs: full.legs,
    stations: full.stations.map((use, i) => ({
      ...use,
      seconds: withSlow(use.seconds, slow.stations[i]!.seconds),
    })),
    rows: [
      ...full.rows,
      ...full.trips.map((row) => ({ ...row, name: slowOf(row.name), terms: renamed(row.terms) })),
      ...names.map((name) => ({ name: slowOf(name), terms: { [name]: 1, [slowOf(name)]: -1 }, least: 0 })),
    ],
    robot: {
      seconds: withSlow(full.robot, slow.robot),
      alone: {
        ...full.robot,
        ...Object.fromEntries(names.map((name) => [slowOf(name), -(full.robot[name] ?? 0)])),
      },
    },
  };
}

function renamed(terms: Readonly<Terms>): Terms {
  return Object.fromEntries(Object.entries(terms).map(([name, by]) => [slowOf(name), by]));
}

function slowOf(name: string): string {
  return `slow ${name}`;
}

function operatorRows(
  inputs: MixInputs,
  legs: readonly Leg[],
  changeovers: readonly ChangeoverWork[],
): LinearRow[] {
  const { cell, hours, extraH } = inputs;
  if (hours.operatorH === null) return [];
  const need = operatorNeed(cell, legs, hours.openH);
  const used = changeovers.reduce(
    (sum, c) => sum + (c.perYear / YEAR_WEEKS) * (c.workMin / 60) * c.people,
    0,
  );
  const most = Math.max(0, hours.operatorH + (extraH?.get(OPERATORS) ?? 0) - used - need.byClockH);
  return [{ name: OPERATORS, terms: need.terms, most }];
}

export interface OperatorNeed {
  /** Hours of people for one part on each leg: planned stops that need one, random stops. */
  readonly terms: Readonly<Record<string, number>>;
  /** Hours for planned stops by the clock. */
  readonly byClockH: number;
}

/** What people have to do at the machines, set-ups left out. */
export function operatorNeed(cell: Cell, legs: readonly Leg[], openH: number): OperatorNeed {
  const terms: Terms = {};
  for (const station of cell.stations) {
    const each = arrivals(cell, legs, station, (step) => {
      const cycleH = step.cycleS / step.partsPerCycle / 3600;
      return stopMin(cell, station, true) / 60 + randomH(station, cycleH);
    });
    for (const [name, value] of Object.entries(each)) add(terms, name, value);
  }
  return { terms, byClockH: cell.stations.reduce((sum, s) => sum + clockStopH(cell, s, openH, true), 0) };
}

function demandRows({ cell, demand, goal }: MixInputs, legs: readonly Leg[]): LinearRow[] {
  return cell.routes.flatMap(({ part }, r) => {
    const { least = null, most = null } = demand.get(part) ?? {};
    const good = startsOf(legs, r, goodShare(cell, part));
    const rows: LinearRow[] = [];
    if (most !== null && goal === 'value') rows.push({ name: `most of ${part}`, terms: good, most });
    if (least === null || least === 0) return rows;
    if (goal === 'share')
      rows.push({ name: `share of ${part}`, terms: { ...good, share: -least }, least: 0 });
    else rows.push({ name: `least of ${part}`, terms: good, least });
    return rows;
  });
}

/** Parts with a ratio are made in it. */
function ratioRows(cell: Cell, legs: readonly Leg[]): LinearRow[] {
  const ratio = (part: string): number | null => cell.parts.find((p) => p.part === part)?.ratio ?? null;
  const [first, ...others] = cell.routes
    .map((route, r) => ({ part: route.part, r, ratio: ratio(route.part) }))
    .filter((x) => x.ratio !== null);
  if (!first) return [];
  return others.map((other) => {
    const terms = startsOf(legs, first.r, 1 / first.ratio!);
    for (const [name, value] of Object.entries(startsOf(legs, other.r, -1 / other.ratio!)))
      add(terms, name, value);
    return { name: `ratio of ${other.part}`, terms, least: 0, most: 0 };
  });
}
