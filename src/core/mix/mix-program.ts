/**
 * The product mix of a week as a linear program over the hours of machines, robot and operators. Variables are parts a
 * week on each leg between two steps at two stations, and empty trips of the robot. It leaves out who waits for whom
 * within a round, so the plan is a bound on hours, to be held against the schedule and the simulation.
 */
import { harnessWays } from '../cost/way-minutes.js';
import type { LinearProgram, LinearRow } from '../lp/solve-linear-program.js';
import type { Cell, Station, Step } from '../model/cell.js';
import { travelLookup } from '../model/travel.js';
import { type Leg, legsOf } from '../schedule/legs.js';
import { type EmptyTrip, robotWays, staysOf } from '../schedule/stays.js';
import { type ChangeoverWork, changeoverWork, YEAR_WEEKS } from '../shifts/changeover-work.js';
import { leastExchangeS } from './least-exchange.js';

/** Hours of a week that can be used. */
export interface MixHours {
  readonly openH: number;
  readonly attendedH: number;
  /** Hours of people, breaks left out; null = people are not counted. */
  readonly operatorH: number | null;
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

type Terms = Record<string, number>;

export function mixProgram(inputs: MixInputs): MixProgram {
  const { cell } = inputs;
  const legs = legsOf(cell);
  const changeovers = changeoversOf(cell);
  const resources = [
    ...stationRows(inputs, legs, changeovers),
    robotRow(inputs, legs),
    ...operatorRows(inputs, legs, changeovers),
  ].filter((row) => Object.keys(row.terms).length > 0);
  const rows = [
    ...resources,
    ...flowRows(cell, legs),
    ...(cell.robot.hands === 1 ? robotWays(legs, trips(cell, legs), staysOf(cell, legs)) : []),
    ...demandRows(inputs, legs),
    ...ratioRows(cell, legs),
  ];
  const objective: Terms = {};
  if (inputs.goal === 'share') objective.share = 1;
  else
    for (const [i, leg] of legs.entries()) {
      const { part } = cell.routes[leg.route]!;
      if (leg.fromStep === 0) add(objective, `leg${i}`, inputs.value(part) * goodShare(cell, part));
    }
  return { program: { sense: 'most', objective, rows }, legs, resources };
}

export function goodShare(cell: Cell, part: string): number {
  return (cell.parts.find((p) => p.part === part)?.yieldPct ?? 100) / 100;
}

/** Hours at a machine, bench or buffer: robot at the door, exchange of parts, door, cycle, planned and random stops. */
function stationRows(
  { cell, hours, extraH }: MixInputs,
  legs: readonly Leg[],
  changeovers: readonly ChangeoverWork[],
): LinearRow[] {
  return cell.stations.flatMap((station) => {
    if (station.kind === 'held' || station.kind === 'infeed' || station.kind === 'outfeed') return [];
    if (station.capacityParts === null) return [];
    const exchangeS = station.capacityParts === 1 ? leastExchangeS(cell, legs, station.name) : 0;
    const terms = arrivals(cell, legs, station, (step) => stayH(cell, station, step, exchangeS));
    const most =
      (hours.openH + (extraH?.get(station.name) ?? 0)) * station.capacityParts -
      fixedH(cell, station, hours.openH, changeovers);
    return [{ name: station.name, terms, most: Math.max(0, most) }];
  });
}

function arrivals(
  cell: Cell,
  legs: readonly Leg[],
  station: Station,
  hoursOf: (step: Step) => number,
): Terms {
  const terms: Terms = {};
  for (const [i, leg] of legs.entries())
    if (leg.to === station.name) add(terms, `leg${i}`, hoursOf(cell.routes[leg.route]!.steps[leg.toStep]!));
  return terms;
}

function stayH(cell: Cell, station: Station, step: Step, exchangeS: number): number {
  const capacity = station.capacityParts ?? 1;
  const cycleS = station.closeS + step.cycleS + station.readyS;
  const room = Math.min(capacity, step.partsPerCycle);
  const handlingS = step.loadS + step.unloadS + exchangeS;
  // A batch takes the room of all its parts from the first load to the last unload.
  const alone = room === 1 ? cycleS + handlingS : cycleS + room * handlingS;
  const cycleH = step.cycleS / step.partsPerCycle / 3600;
  return alone / 3600 + capacity * (stopMin(cell, station, false) / 60 + randomH(station, cycleH));
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

/** The changeovers of all machines, the harness moved at each where that is priced: as in the shifts. */
function changeoversOf(cell: Cell): ChangeoverWork[] {
  return changeoverWork(cell, new Set(cell.stations.map((s) => s.name)), harnessWays(cell));
}

/** Hours a week of planned stops that come by the clock. */
function clockStopH(cell: Cell, station: Station, openH: number, ofOperators: boolean): number {
  return cell.stops
    .filter((s) => s.station === station.name && s.everyH !== null && (s.operator || !ofOperators))
    .reduce((sum, s) => sum + ((openH / s.everyH!) * s.minutes) / 60, 0);
}

/** Robot hours: picking, placing, holding, carrying, and the empty trips. */
function robotRow({ cell, hours, extraH }: MixInputs, legs: readonly Leg[]): LinearRow {
  const travel = travelLookup(cell);
  const slow = slowness(cell, hours);
  const isTwo = cell.robot.hands === 2;
  const terms: Terms = {};
  for (const [i, leg] of legs.entries()) {
    // With two hands a trip may carry two parts, so each takes at least half of it.
    const carryS = ((travel(leg.from, leg.to)?.loadedS ?? 0) * slow) / (isTwo ? 2 : 1);
    add(terms, `leg${i}`, (handlingS(cell, leg) + carryS) / 3600);
  }
  if (!isTwo) {
    for (const t of trips(cell, legs))
      add(terms, t.name, ((travel(t.from, t.to)?.emptyS ?? 0) * slow) / 3600);
    for (const stay of staysOf(cell, legs)) add(terms, stay.name, stay.processS / 3600);
  }
  return { name: ROBOT, terms, most: hours.openH + (extraH?.get(ROBOT) ?? 0) };
}

/** Mean stretch of travel times over the week where the robot is slower in attended hours. */
function slowness(cell: Cell, { openH, attendedH }: MixHours): number {
  const stretched = (attendedH * 100) / cell.robot.attendedSpeedPct + (openH - attendedH);
  return openH > 0 ? stretched / openH : 1;
}

function handlingS(cell: Cell, leg: Leg): number {
  const { steps } = cell.routes[leg.route]!;
  const isHeld = (name: string): boolean => cell.stations.find((s) => s.name === name)?.kind === 'held';
  const to = steps[leg.toStep]!;
  const pickS = isHeld(leg.from) ? 0 : steps[leg.fromStep]!.unloadS;
  return pickS + to.loadS + (isHeld(leg.to) ? to.cycleS + to.unloadS : 0);
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

/** Parts in = parts out at every step and station; one in n makes an occasional step. */
function flowRows(cell: Cell, legs: readonly Leg[]): LinearRow[] {
  return cell.routes.flatMap((route, r) =>
    route.steps.flatMap((step, s) => {
      const rows: LinearRow[] = [];
      if (s > 0 && s < route.steps.length - 1)
        for (const station of step.stations) {
          const terms: Terms = {};
          for (const [i, leg] of legs.entries()) {
            if (leg.route !== r) continue;
            if (leg.toStep === s && leg.to === station) add(terms, `leg${i}`, 1);
            if (leg.fromStep === s && leg.from === station) add(terms, `leg${i}`, -1);
          }
          rows.push({ name: `flow of ${route.part} at ${station}`, terms, least: 0, most: 0 });
        }
      if (step.everyParts > 1) {
        const terms = started(legs, r, -1 / step.everyParts);
        for (const [i, leg] of legs.entries())
          if (leg.route === r && leg.toStep === s) add(terms, `leg${i}`, 1);
        rows.push({ name: `share of ${route.part} at step ${step.step}`, terms, least: 0, most: 0 });
      }
      return rows;
    }),
  );
}

/** Ways on which the robot may go with nothing in hand: from where a part was placed to where one is picked. */
function trips(cell: Cell, legs: readonly Leg[]): EmptyTrip[] {
  const isHeld = (name: string): boolean => cell.stations.find((s) => s.name === name)?.kind === 'held';
  const from = [...new Set(legs.map((l) => l.to))].filter((n) => !isHeld(n));
  const to = [...new Set(legs.map((l) => l.from))].filter((n) => !isHeld(n));
  return from.flatMap((a) =>
    to.filter((b) => b !== a).map((b) => ({ name: `trip ${a} ${b}`, from: a, to: b })),
  );
}

function demandRows({ cell, demand, goal }: MixInputs, legs: readonly Leg[]): LinearRow[] {
  return cell.routes.flatMap(({ part }, r) => {
    const { least = null, most = null } = demand.get(part) ?? {};
    const good = started(legs, r, goodShare(cell, part));
    const rows: LinearRow[] = [];
    if (most !== null) rows.push({ name: `most of ${part}`, terms: good, most });
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
    const terms = started(legs, first.r, 1 / first.ratio!);
    for (const [name, value] of Object.entries(started(legs, other.r, -1 / other.ratio!)))
      add(terms, name, value);
    return { name: `ratio of ${other.part}`, terms, least: 0, most: 0 };
  });
}

/** Parts of a route that leave its infeeds. */
function started(legs: readonly Leg[], route: number, by: number): Terms {
  const terms: Terms = {};
  for (const [i, leg] of legs.entries())
    if (leg.route === route && leg.fromStep === 0) add(terms, `leg${i}`, by);
  return terms;
}

function add(terms: Terms, name: string, value: number): void {
  terms[name] = (terms[name] ?? 0) + value;
}
