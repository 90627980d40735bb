/**
 * One replication: runs a compiled cell through a warm-up that is not counted and then through a number of shifts, and
 * returns plain tallies. The same cell, options and replication number give the same result on every machine: V8's
 * logarithm and exponential are its own port of fdlibm, not the processor's.
 */
import type { OpenCalendar } from './calendar.js';
import type { CompiledCell } from './compiled-cell.js';
import { deadlockText } from './deadlock-text.js';
import { DispatchRobot, type DispatchRule } from './dispatch-robot.js';
import type { OrderPlan } from './order-plan.js';
import { OrderRobot } from './order-robot.js';
import type { Robot } from './robot.js';
import { ShopFloor, type TraceEvent } from './shop-floor.js';
import { SLOT_STATES } from './slot-state.js';

export interface ReplicationSetup {
  readonly dispatch: DispatchRule | OrderPlan;
  readonly calendar: OpenCalendar | null;
  readonly operators: number;
  readonly seed: number;
  /** Time before counting starts, seconds of the open clock. */
  readonly warmupS: number;
  /** Lengths of the shifts to count, seconds of the open clock. */
  readonly shiftsS: readonly number[];
  readonly trace?: TraceEvent;
}

export interface ReplicationResult {
  readonly replication: number;
  /** Seconds counted: the length of all shifts. */
  readonly countedS: number;
  /** Why the cell stands for ever, in words; null = it does not. */
  readonly deadlock: string | null;
  /** Good parts by [shift * routes + route]. */
  readonly goodByShift: readonly number[];
  readonly good: readonly number[];
  readonly scrap: readonly number[];
  readonly started: readonly number[];
  readonly insideAtStart: number;
  readonly insideAtEnd: number;
  /** Seconds by [station * SLOT_STATES + state], summed over the station's slots. */
  readonly stationS: readonly number[];
  /** Seconds by robot state. */
  readonly robotS: readonly number[];
  readonly operatorBusyS: number;
  /** Parts that waited longer than their step allows, by operation. */
  readonly overstays: readonly number[];
  readonly randomStops: readonly number[];
  /** Machine finishes plus robot services (a service leaves a station loaded), warm-up included. */
  readonly events: number;
  readonly finishes: number;
  /** Mean period of the fixed order; null for a rule. */
  readonly periodS: number | null;
}

export function runReplication(
  cell: CompiledCell,
  setup: ReplicationSetup,
  replication: number,
): ReplicationResult {
  const { calendar, operators, seed } = setup;
  const floor = new ShopFloor(cell, { calendar, operators, seed, replication, trace: setup.trace ?? null });
  const slow = calendar !== null;
  const robot: Robot =
    typeof setup.dispatch === 'string'
      ? new DispatchRobot(floor, setup.dispatch, slow)
      : new OrderRobot(floor, setup.dispatch, slow);
  let running = setup.warmupS <= 0 || runUntil(floor, robot, setup.warmupS);
  const warmEvents = floor.machineFinishes + floor.robotServices;
  const insideAtStart = partsInside(floor, robot);
  clear(floor, robot);
  const goodByShift: number[] = [];
  const before = new Float64Array(cell.routeCount);
  const startS = floor.now;
  let endS = startS;
  for (const length of setup.shiftsS) {
    endS += length;
    if (running) running = runUntil(floor, robot, endS);
    else standUntil(floor, robot, endS);
    for (let r = 0; r < cell.routeCount; r++) {
      goodByShift.push(floor.good[r]! - before[r]!);
      before[r] = floor.good[r]!;
    }
  }
  return {
    replication,
    countedS: endS - startS,
    deadlock: running ? null : deadlockText(floor, robot),
    goodByShift,
    good: [...floor.good],
    scrap: [...floor.scrap],
    started: [...floor.started],
    insideAtStart,
    insideAtEnd: partsInside(floor, robot),
    stationS: stationTimes(floor),
    robotS: [...robot.clock.time],
    operatorBusyS: floor.operatorBusyS,
    overstays: [...floor.overstays],
    randomStops: [...floor.randomStops],
    events: warmEvents + floor.machineFinishes + floor.robotServices,
    finishes: floor.machineFinishes,
    periodS: Number.isNaN(robot.periodS()) ? null : robot.periodS(),
  };
}

/**
 * Runs all events up to a time, and counts states up to it. At equal times all elements move before the robot looks at
 * the calls.
 *
 * @returns false where the cell stands for ever: the robot can do nothing and no element has an event to come
 */
export function runUntil(floor: ShopFloor, robot: Robot, untilS: number): boolean {
  const { clock } = floor;
  const { times } = clock;
  let alive = true;
  for (;;) {
    const i = clock.first;
    const t = times[i]!;
    const robotAtS = floor.robotAtS;
    if (floor.changed && robot.idle && t > floor.now) {
      if (robot.decide() || !floor.standsForEver()) continue;
      alive = false;
      break;
    }
    if (robotAtS < t) {
      if (robotAtS > untilS) break;
      floor.now = robotAtS;
      robot.onTimer();
    } else {
      if (t > untilS) break;
      floor.now = t;
      floor.onTimer(i);
    }
  }
  standUntil(floor, robot, untilS);
  return alive;
}

/** Counts all states up to a time before which nothing happens. */
function standUntil(floor: ShopFloor, robot: Robot, untilS: number): void {
  floor.now = untilS;
  robot.clock.settle(untilS);
  floor.settle();
}

function clear(floor: ShopFloor, robot: Robot): void {
  floor.clearTallies();
  robot.clock.time.fill(0);
  robot.clearPeriods();
}

function partsInside(floor: ShopFloor, robot: Robot): number {
  let inside = robot.partsInHand();
  for (const op of floor.slotOp) if (op >= 0) inside++;
  return inside;
}

function stationTimes(floor: ShopFloor): number[] {
  const sums = new Array<number>(floor.cell.stationCount * SLOT_STATES).fill(0);
  for (let slot = 0; slot < floor.cell.slotCount; slot++)
    for (let state = 0; state < SLOT_STATES; state++)
      sums[floor.cell.slotStation[slot]! * SLOT_STATES + state]! +=
        floor.slotTime[slot * SLOT_STATES + state]!;
  return sums;
}
