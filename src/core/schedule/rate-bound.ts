/**
 * The rate bound: a linear program over rates that no policy of the robot, repeating or not, can exceed.
 *
 * Rates: parts on each leg between two steps at two stations, and robot trips. The robot leaves each station as often
 * as it arrives; its handling, travel and holding fill at most all of its time; each station's placing, closing,
 * cycle, opening and picking fill at most its capacity; the demanded mix is kept.
 *
 * With one hand every leg is a loaded trip, and empty trips (or stays at a machine) balance the flow. With two hands up to two parts share a
 * trip: trips must bring at least half of the places and carry away at least half of the picks of a station, and
 * actions at a station beyond its arrivals cost the index time. Both leave out interference, so the true best rate
 * can lie below.
 */
import { type LinearProgram, type LinearRow, solveLinearProgram } from '../lp/solve-linear-program.js';
import type { Cell, Step } from '../model/cell.js';
import { shortestWays } from '../model/shortest-ways.js';
import { travelLookup } from '../model/travel.js';
import { type Leg, legsOf } from './legs.js';
import type { RateBound } from './result.js';
import { type EmptyTrip, robotWays, staysOf } from './stays.js';
import { goalOf } from './weights.js';

export interface RateBoundFound extends RateBound {
  readonly found: true;
  /** Parts per second on each leg at the bound; see `Leg`. */
  readonly legs: readonly (Leg & { readonly perS: number })[];
  /** Value of the objective per second (contribution, machine seconds or sets of the mix). */
  readonly valuePerS: number;
}

export interface RateBoundUnsure {
  readonly found: false;
  readonly why: string;
}

const SHORT_S = 3600;

/** @returns the bound in parts per hour with what binds it, or why it could not be had */
export function rateBound(cell: Cell): RateBoundFound | RateBoundUnsure {
  const legs = legsOf(cell);
  const program = buildProgram(cell, legs);
  const answer = solveLinearProgram(program);
  if (answer.status === 'unsure') return { found: false, why: answer.why };
  if (answer.status !== 'optimal') {
    const why =
      answer.status === 'unbounded'
        ? 'no time at all is spent on some part, so its rate has no bound'
        : 'the demanded mix leaves no rate above zero';
    return { found: false, why };
  }
  // Rates in the program are parts per hour, so that its numbers are of like size.
  const perPart: Record<string, number> = {};
  for (const [r, route] of cell.routes.entries()) {
    perPart[route.part] = legs.reduce(
      (sum, leg, i) => sum + (leg.route === r && leg.fromStep === 0 ? answer.at[`leg${i}`]! : 0),
      0,
    );
  }
  return {
    found: true,
    total: Object.values(perPart).reduce((sum, rate) => sum + rate, 0),
    perPart,
    binding: bindingRows(program, answer.at),
    legs: legs.map((leg, i) => ({ ...leg, perS: answer.at[`leg${i}`]! / SHORT_S })),
    valuePerS: answer.value / SHORT_S,
  };
}

function buildProgram(cell: Cell, legs: readonly Leg[]): LinearProgram {
  const goal = goalOf(cell);
  const objective: Record<string, number> = {};
  const rows: LinearRow[] = [...flowRows(cell, legs), ...stationRows(cell, legs), ...robotRows(cell, legs)];
  if (goal.mix !== null) {
    objective.sets = 1;
    for (const [r, count] of goal.mix.entries()) {
      const terms: Record<string, number> = { sets: -count };
      for (const [i, leg] of legs.entries()) if (leg.route === r && leg.fromStep === 0) terms[`leg${i}`] = 1;
      rows.push({ name: `mix of ${cell.routes[r]!.part}`, terms, least: 0, most: 0 });
    }
  } else {
    for (const [i, leg] of legs.entries())
      if (leg.fromStep === 0) objective[`leg${i}`] = goal.weight[leg.route]!;
  }
  return { sense: 'most', objective, rows };
}

/** Parts in = parts out at every step and station; one in n makes an occasional step. */
function flowRows(cell: Cell, legs: readonly Leg[]): LinearRow[] {
  const rows: LinearRow[] = [];
  for (const [r, route] of cell.routes.entries()) {
    for (const [s, step] of route.steps.entries()) {
      const into = (station: string | null): Record<string, number> =>
        termsWhere(
          legs,
          (leg) => leg.route === r && leg.toStep === s && (station === null || leg.to === station),
          1,
        );
      if (s > 0 && s < route.steps.length - 1) {
        for (const station of step.stations) {
          const out = termsWhere(
            legs,
            (leg) => leg.route === r && leg.fromStep === s && leg.from === station,
            -1,
          );
          rows.push({
            name: `flow of ${route.part} at ${station}`,
            terms: sum(into(station), out),
            least: 0,
            most: 0,
          });
        }
      }
      if (step.everyParts > 1) {
        const all = termsWhere(legs, (leg) => leg.route === r && leg.fromStep === 0, -1 / step.everyParts);
        rows.push({
          name: `share of ${route.part} at step ${step.step}`,
          terms: sum(into(null), all),
          least: 0,
          most: 0,
        });
      }
    }
  }
  return rows;
}

/** Each station's time: how long a part takes up its room, at least, and the quickest exchange of two parts. */
function stationRows(cell: Cell, legs: readonly Leg[]): LinearRow[] {
  const carries = carriesOf(cell, legs);
  const quickest = quickestTravel(cell, [...new Set(legs.flatMap((leg) => [leg.from, leg.to]))]);
  return cell.stations.flatMap((station) => {
    if (station.kind === 'held') return [];
    const terms: Record<string, number> = {};
    const exchangeS = station.capacityParts === 1 ? leastExchangeS(cell, carries, quickest, station.name) : 0;
    for (const [r, route] of cell.routes.entries()) {
      for (const [s, step] of route.steps.entries()) {
        if (!step.stations.includes(station.name)) continue;
        const ends = s === 0 || s === route.steps.length - 1;
        const stay = ends ? feederStayS(step, station) : stayS(step, station) + exchangeS;
        if (stay === 0) continue;
        for (const [i, leg] of legs.entries()) {
          const here =
            s === 0
              ? leg.fromStep === 0 && leg.from === station.name
              : leg.toStep === s && leg.to === station.name;
          if (leg.route === r && here) add(terms, `leg${i}`, stay / SHORT_S);
        }
      }
    }
    const feeder = station.kind === 'infeed' || station.kind === 'outfeed';
    const capacity = feeder ? 1 : station.capacityParts;
    if (capacity === null || Object.keys(terms).length === 0) return [];
    return [{ name: station.name, terms, most: capacity }];
  });
}

/** A part's way in hand, held stations included, from the end of its pick to the end of its place. */
interface CarryTime {
  readonly from: string;
  readonly to: string;
  readonly unloadS: number;
  readonly loadS: number;
  readonly inHandS: number;
}

function carriesOf(cell: Cell, legs: readonly Leg[]): CarryTime[] {
  const travel = travelLookup(cell);
  const held = new Set(cell.stations.filter((s) => s.kind === 'held').map((s) => s.name));
  const follow = (start: Leg, leg: Leg, beforeS: number): CarryTime[] => {
    const { steps } = cell.routes[leg.route]!;
    const to = steps[leg.toStep]!;
    const thereS = beforeS + (travel(leg.from, leg.to)?.loadedS ?? 0) + to.loadS;
    if (!held.has(leg.to)) {
      const unloadS = steps[start.fromStep]!.unloadS;
      return [{ from: start.from, to: leg.to, unloadS, loadS: to.loadS, inHandS: thereS }];
    }
    const onward = legs.filter(
      (l) => l.route === leg.route && l.fromStep === leg.toStep && l.from === leg.to,
    );
    return onward.flatMap((next) => follow(start, next, thereS + to.cycleS + to.unloadS));
  };
  return legs.filter((leg) => !held.has(leg.from)).flatMap((leg) => follow(leg, leg, 0));
}

/** Least time a station of capacity 1 stands open between a pick and the next place. */
function leastExchangeS(
  cell: Cell,
  carries: readonly CarryTime[],
  quickest: QuickestTravel,
  station: string,
): number {
  if (cell.robot.hands === 2) {
    const away = quickest.names.map((other) =>
      other === station
        ? Number.POSITIVE_INFINITY
        : quickest.between(station, other) + quickest.between(other, station),
    );
    return Math.min(cell.robot.indexS, ...away);
  }
  let least = Number.POSITIVE_INFINITY;
  for (const out of carries) {
    if (out.from !== station) continue;
    for (const back of carries) {
      if (back.to !== station) continue;
      const wayS = quickest.between(out.to, back.from);
      least = Math.min(least, out.inHandS + wayS + back.unloadS + back.inHandS - back.loadS);
    }
  }
  return Number.isFinite(least) ? least : 0;
}

/** Robot times over any stations between and with anything in hand: no order can be quicker. */
interface QuickestTravel {
  readonly names: readonly string[];
  readonly between: (from: string, to: string) => number;
}

function quickestTravel(cell: Cell, names: readonly string[]): QuickestTravel {
  const travel = travelLookup(cell);
  const n = names.length;
  const at = new Map(names.map((name, index) => [name, index]));
  const direct = new Float64Array(n * n).fill(Number.POSITIVE_INFINITY);
  for (const [a, from] of names.entries())
    for (const [b, to] of names.entries()) {
      const time = travel(from, to);
      if (time !== null) direct[a * n + b] = Math.min(time.emptyS, time.loadedS);
    }
  const least = shortestWays(direct, n);
  return { names, between: (from, to) => least[at.get(from)! * n + at.get(to)!]! };
}

/** Room-seconds that a part takes up. With a batch: the batch is loaded part by part, runs, is unloaded part by part. */
function stayS(
  step: Step,
  station: { readonly readyS: number; readonly closeS: number; readonly capacityParts: number | null },
): number {
  const processS = station.closeS + step.cycleS + station.readyS;
  const handlingS = step.loadS + step.unloadS;
  const batch = step.partsPerCycle;
  if (station.capacityParts === batch) return processS + batch * handlingS;
  return processS + ((batch + 1) / 2) * handlingS;
}

/** An infeed or outfeed with a cycle serves one part at a time. */
function feederStayS(step: Step, station: { readonly readyS: number; readonly closeS: number }): number {
  const processS = station.closeS + step.cycleS + station.readyS;
  return processS === 0 ? 0 : processS + step.loadS + step.unloadS;
}

function robotRows(cell: Cell, legs: readonly Leg[]): LinearRow[] {
  const stations = [...new Set(legs.flatMap((leg) => [leg.from, leg.to]))];
  return cell.robot.hands === 1 ? oneHandRows(cell, legs, stations) : twoHandRows(cell, legs, stations);
}

function oneHandRows(cell: Cell, legs: readonly Leg[], stations: readonly string[]): LinearRow[] {
  const travel = travelLookup(cell);
  const robot: Record<string, number> = {};
  for (const [i, leg] of legs.entries())
    robot[`leg${i}`] = (handlingS(cell, leg) + (travel(leg.from, leg.to)?.loadedS ?? 0)) / SHORT_S;
  const trips: EmptyTrip[] = [];
  eachTrip(cell, legs, stations, (name, from, to, timeS) => {
    robot[name] = timeS / SHORT_S;
    trips.push({ name, from, to });
  });
  const stays = staysOf(cell, legs);
  for (const stay of stays) robot[stay.name] = stay.processS / SHORT_S;
  return [{ name: 'robot', terms: robot, most: 1 }, ...robotWays(legs, trips, stays)];
}

function twoHandRows(cell: Cell, legs: readonly Leg[], stations: readonly string[]): LinearRow[] {
  const robot: Record<string, number> = {};
  const balance = new Map<string, Record<string, number>>(stations.map((name) => [name, {}]));
  const arrive = new Map<string, Record<string, number>>(stations.map((name) => [name, {}]));
  const leave = new Map<string, Record<string, number>>(stations.map((name) => [name, {}]));
  for (const [i, leg] of legs.entries()) robot[`leg${i}`] = handlingS(cell, leg) / SHORT_S;
  eachTrip(cell, legs, stations, (name, from, to, timeS) => {
    robot[name] = timeS / SHORT_S;
    add(balance.get(from)!, name, -1);
    add(balance.get(to)!, name, 1);
    add(leave.get(from)!, name, 2);
    add(arrive.get(to)!, name, 2);
  });
  const rows: LinearRow[] = [];
  for (const station of stations) {
    const into = termsWhere(legs, (leg) => leg.to === station, -1);
    const out = termsWhere(legs, (leg) => leg.from === station, -1);
    rows.push({ name: `trips to ${station}`, terms: sum(arrive.get(station)!, into), least: 0 });
    rows.push({ name: `trips from ${station}`, terms: sum(leave.get(station)!, out), least: 0 });
    rows.push({ name: `robot's way through ${station}`, terms: balance.get(station)!, least: 0, most: 0 });
    if (cell.robot.indexS > 0) {
      robot[`turn at ${station}`] = cell.robot.indexS / SHORT_S;
      rows.push({
        name: `turns at ${station}`,
        terms: turnTerms(cell, legs, station, arrive.get(station)!),
        least: 0,
      });
    }
  }
  return [{ name: 'robot', terms: robot, most: 1 }, ...rows];
}

/** turns + arrivals - actions >= 0: actions beyond one an arrival need the gripper turned. */
function turnTerms(
  cell: Cell,
  legs: readonly Leg[],
  station: string,
  arrivals: Record<string, number>,
): Record<string, number> {
  const terms: Record<string, number> = { [`turn at ${station}`]: 1 };
  for (const [name, twice] of Object.entries(arrivals)) terms[name] = twice / 2;
  const held = cell.stations.find((s) => s.name === station)?.kind === 'held';
  for (const [i, leg] of legs.entries()) {
    if (leg.to === station) add(terms, `leg${i}`, -1);
    if (leg.from === station && !held) add(terms, `leg${i}`, -1);
  }
  return terms;
}

/** Robot time at both ends of a leg: the pick where it starts, the place where it ends, all of a held step on arrival. */
function handlingS(cell: Cell, leg: Leg): number {
  const { steps } = cell.routes[leg.route]!;
  const from = steps[leg.fromStep]!;
  const to = steps[leg.toStep]!;
  const held = (name: string): boolean => cell.stations.find((s) => s.name === name)?.kind === 'held';
  const arriveS = held(leg.to) ? to.loadS + to.cycleS + to.unloadS : to.loadS;
  return (held(leg.from) ? 0 : from.unloadS) + arriveS;
}

function eachTrip(
  cell: Cell,
  legs: readonly Leg[],
  stations: readonly string[],
  tell: (name: string, from: string, to: string, timeS: number) => void,
): void {
  const travel = travelLookup(cell);
  const one = cell.robot.hands === 1;
  // With one hand an empty trip leads from where a part was placed to where one is picked.
  const held = new Set(cell.stations.filter((s) => s.kind === 'held').map((s) => s.name));
  const open = (names: readonly string[]): Set<string> => new Set(names.filter((name) => !held.has(name)));
  const starts = one ? open(legs.map((leg) => leg.to)) : new Set(stations);
  const ends = one ? open(legs.map((leg) => leg.from)) : new Set(stations);
  for (const from of stations)
    for (const to of stations) {
      if (from === to || !starts.has(from) || !ends.has(to)) continue;
      const time = travel(from, to);
      if (time === null) continue;
      const timeS = one ? time.emptyS : Math.min(time.emptyS, time.loadedS);
      tell(`trip ${from} ${to}`, from, to, timeS);
    }
}

function bindingRows(program: LinearProgram, at: Readonly<Record<string, number>>): string[] {
  return program.rows.flatMap((row) => {
    if (row.most === undefined || row.most === 0) return [];
    const used = Object.entries(row.terms).reduce(
      (total, [name, value]) => total + value * (at[name] ?? 0),
      0,
    );
    return used >= row.most - 1e-6 * Math.max(1, row.most) ? [row.name] : [];
  });
}

function termsWhere(
  legs: readonly Leg[],
  test: (leg: Leg) => boolean,
  value: number,
): Record<string, number> {
  const terms: Record<string, number> = {};
  for (const [i, leg] of legs.entries()) if (test(leg)) terms[`leg${i}`] = value;
  return terms;
}

function sum(
  a: Readonly<Record<string, number>>,
  b: Readonly<Record<string, number>>,
): Record<string, number> {
  const total = { ...a };
  for (const [name, value] of Object.entries(b)) add(total, name, value);
  return total;
}

function add(terms: Record<string, number>, name: string, value: number): void {
  terms[name] = (terms[name] ?? 0) + value;
}
