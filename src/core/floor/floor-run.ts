/**
 * One run of a compiled cell through time. The same cell, setup and replication number give the same result on every
 * machine.
 */
import type { ChangeoverRow } from './changeovers.js';
import type { CompiledCell } from './compiled-cell.js';
import { deadlockText } from './deadlock-text.js';
import { DispatchRobot } from './dispatch/dispatch-robot.js';
import type { OpenWeek } from './open-calendar.js';
import type { OrderPlan } from './order-plan.js';
import { OrderRobot } from './order-robot.js';
import { type FloorRobot, isCallRule, type Program } from './robot.js';
import { ShopFloor, type TraceEvent } from './shop-floor.js';
import { ROBOT_STATES, SLOT_STATES } from './slot-state.js';
import { WAIT_CAUSES } from './waits.js';

export interface FloorSetup {
  readonly program: Program;
  /** Needed where the program follows an order. */
  readonly plan: OrderPlan | null;
  /** null = always open, at full speed. */
  readonly calendar: OpenWeek | null;
  /** Operators where no calendar says so. */
  readonly operators: number;
  readonly seed: number;
  /** Default on; off for a cell that has no chance in it. */
  readonly chance?: boolean;
  /** Before it closes the cell takes no part that would not be out in time; for programs that follow an order. */
  readonly runsOut?: boolean;
  readonly changeovers?: readonly ChangeoverRow[];
  /** Tell why stations wait. */
  readonly causes?: boolean;
  readonly trace?: TraceEvent;
}

export interface ReplicationSetup extends FloorSetup {
  /** Time before counting starts, open seconds. */
  readonly warmupS: number;
  /** Lengths of the shifts to count, open seconds. */
  readonly shiftsS: readonly number[];
}

export interface ReplicationResult {
  readonly replication: number;
  /** Open seconds counted: the length of all shifts. */
  readonly countedS: number;
  /** Why the cell stands for ever, in words; null = it does not. */
  readonly deadlock: string | null;
  /** Good parts by [shift * routes + route]. */
  readonly goodByShift: readonly number[];
  readonly good: readonly number[];
  readonly scrap: readonly number[];
  /** Put out after a longest wait was overrun. */
  readonly late: readonly number[];
  readonly started: readonly number[];
  readonly insideAtStart: number;
  readonly insideAtEnd: number;
  /** Seconds by [station * SLOT_STATES + state], summed over the station's slots. */
  readonly stationS: readonly number[];
  /** Seconds by [station * WAIT_CAUSES + cause]; empty where nobody asked. */
  readonly waitS: readonly number[];
  /** Seconds by robot state. */
  readonly robotS: readonly number[];
  readonly operatorBusyS: number;
  /** Parts that waited longer than their step allows, by operation. */
  readonly overstays: readonly number[];
  readonly randomStops: readonly number[];
  /** Machine finishes plus robot services (a service leaves a station loaded), warm-up included. */
  readonly events: number;
  /** Mean cycle of the order; null for a rule. */
  readonly periodS: number | null;
}

export class FloorRun {
  readonly floor: ShopFloor;
  readonly robot: FloorRobot;
  alive = true;
  private readonly calendar: OpenWeek | null;
  private readonly runsOut: boolean;

  constructor(
    readonly cell: CompiledCell,
    setup: FloorSetup,
    replication: number,
  ) {
    const { calendar, operators, seed, program, plan, chance = true, causes = false } = setup;
    const { trace = null, changeovers = [], runsOut = false } = setup;
    const floor = new ShopFloor(cell, {
      ...{ calendar, operators, seed, replication, trace, chance, causes, changeovers },
    });
    this.floor = floor;
    this.calendar = calendar;
    this.runsOut = runsOut;
    this.robot = robotOf(floor, program, plan, runsOut);
  }

  /** The moment at which so many open seconds have passed. */
  momentOf(openS: number): number {
    return this.calendar === null ? openS : this.calendar.clock.openEnd(0, openS);
  }

  /**
   * Runs all events up to a time, and counts states up to it. At equal times all elements move before the robot looks at
   * the calls.
   *
   * @returns false where the cell stands for ever: the robot can do nothing and no element has an event to come
   */
  to(untilS: number): boolean {
    if (this.alive) this.alive = this.play(untilS);
    this.floor.now = untilS;
    this.robot.clock.settle(untilS);
    this.floor.settle();
    return this.alive;
  }

  private play(untilS: number): boolean {
    const { floor, robot } = this;
    const { clock } = floor;
    const { times } = clock;
    for (;;) {
      const i = clock.first;
      const t = times[i]!;
      const robotAtS = floor.robotAtS;
      if (floor.changed && robot.idle && floor.hours.open && t > floor.now) {
        const acts = robot.decide();
        if (floor.waits !== null) this.lookAtWaits();
        if (acts || this.runsOut || !floor.standsForEver()) continue;
        return false;
      }
      if (robotAtS < t) {
        if (robotAtS > untilS) return true;
        floor.now = robotAtS;
        robot.onTimer();
      } else {
        if (t > untilS || t === Number.POSITIVE_INFINITY) return true;
        floor.now = t;
        floor.onTimer(i);
      }
    }
  }

  private lookAtWaits(): void {
    const { floor, robot } = this;
    const busy = !robot.idle && !robot.resting;
    floor.robotBusy = busy;
    floor.waits!.lookAtAll(floor.hours.openAt(floor.now));
  }

  /** Counts all afresh; parts inside stay where they are. */
  clear(): void {
    this.floor.clearTallies();
    this.robot.clock.time.fill(0);
    this.robot.clearPeriods();
  }

  partsInside(): number {
    let inside = this.robot.partsInHand();
    for (const op of this.floor.slotOp) if (op >= 0) inside++;
    return inside;
  }
}

function robotOf(floor: ShopFloor, program: Program, plan: OrderPlan | null, runsOut: boolean): FloorRobot {
  if (isCallRule(program)) return new DispatchRobot(floor, program);
  if (plan === null) throw new RangeError('to follow a sequence, the floor needs a schedule');
  return new OrderRobot(floor, plan, { passesOver: program === 'order', runsOut });
}

/** Runs a warm-up that is not counted and then a number of shifts, and returns plain tallies. */
export function runReplication(
  cell: CompiledCell,
  setup: ReplicationSetup,
  replication: number,
): ReplicationResult {
  const run = new FloorRun(cell, setup, replication);
  const { floor, robot } = run;
  if (setup.warmupS > 0) run.to(run.momentOf(setup.warmupS));
  const warmEvents = floor.machineFinishes + floor.robotServices;
  const insideAtStart = run.partsInside();
  run.clear();
  const goodByShift: number[] = [];
  const before = new Float64Array(cell.routeCount);
  let endS = setup.warmupS;
  for (const length of setup.shiftsS) {
    endS += length;
    run.to(run.momentOf(endS));
    for (let r = 0; r < cell.routeCount; r++) {
      goodByShift.push(floor.good[r]! - before[r]!);
      before[r] = floor.good[r]!;
    }
  }
  const periodS = robot.periodS();
  return {
    replication,
    countedS: endS - setup.warmupS,
    deadlock: run.alive ? null : deadlockText(floor, robot),
    goodByShift,
    good: [...floor.good],
    scrap: [...floor.scrap],
    late: [...floor.late],
    started: [...floor.started],
    insideAtStart,
    insideAtEnd: run.partsInside(),
    stationS: byStation(cell, floor.slotTime, SLOT_STATES),
    waitS: floor.waits === null ? [] : byStation(cell, floor.waits.timeS, WAIT_CAUSES),
    robotS: [...robot.clock.time].slice(0, ROBOT_STATES),
    operatorBusyS: floor.people.busyS,
    overstays: [...floor.overstays],
    randomStops: [...floor.randomStops],
    events: warmEvents + floor.machineFinishes + floor.robotServices,
    periodS: Number.isNaN(periodS) ? null : periodS,
  };
}

/** Sums by station over its slots. */
function byStation(cell: CompiledCell, bySlot: Float64Array, kinds: number): number[] {
  const sums = new Array<number>(cell.stationCount * kinds).fill(0);
  for (let slot = 0; slot < cell.slotCount; slot++)
    for (let kind = 0; kind < kinds; kind++)
      sums[cell.slotStation[slot]! * kinds + kind]! += bySlot[slot * kinds + kind]!;
  return sums;
}
