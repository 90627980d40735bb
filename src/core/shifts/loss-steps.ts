/**
 * The causes that keep a week below its ceiling, in the order in which they are switched on. Each loss is the
 * difference of two runs, so a cause that hides behind an earlier one shows what it costs on top.
 */
import type { Cell, PlannedStop } from '../model/cell.js';
import type { OrderPlan } from './order-plan.js';
import type { RunConditions } from './run-order.js';
import type { WeekCalendar } from './week-calendar.js';
import { type ClockRules, workClock } from './work-clock.js';

/** One cause, and the conditions that hold once it and all before it are switched on. */
export interface LossStep {
  readonly cause: string;
  readonly conditions: RunConditions;
}

export interface StepInputs {
  readonly cell: Cell;
  readonly plan: OrderPlan;
  readonly calendar: WeekCalendar;
  readonly hasBreaks: boolean;
  readonly atEnd: RunConditions['atEnd'];
}

interface Switches extends ClockRules {
  readonly stops: readonly PlannedStop[];
  readonly racks: readonly number[];
}

/** The steps that apply to a cell and a pattern; there is always the first. */
export function lossSteps(inputs: StepInputs): LossStep[] {
  const { cell, plan, calendar, atEnd } = inputs;
  const stops = cell.stops.filter((s) => plan.events.some((e) => e.station === s.station));
  const racks = rackSizes(cell, plan);
  const hasRacks = racks.some((r) => Number.isFinite(r));
  const waiting = stops.some((s) => s.operator);
  let on: Switches = {
    attendedSpeedPct: 100,
    operator: 'always',
    stops: [],
    racks: racks.map(() => Number.POSITIVE_INFINITY),
  };
  const steps: LossStep[] = [];
  const step = (cause: string, more: Partial<Switches>): void => {
    on = { ...on, ...more };
    steps.push({
      cause,
      conditions: { clock: workClock(calendar, on), stops: on.stops, racks: on.racks, atEnd },
    });
  };
  step(atEnd === 'run out' ? 'run-out and start-up of each working span' : 'shift ends and restarts', {});
  if (cell.robot.attendedSpeedPct < 100 && calendar.attendedH > 0)
    step('reduced speed in attended hours', { attendedSpeedPct: cell.robot.attendedSpeedPct });
  if (stops.length > 0) step('planned stops', { stops });
  if (waiting && calendar.unattendedH > 0)
    step('planned stops that wait for attended hours', { operator: 'no breaks' });
  if (hasRacks) step('racks empty or full', { operator: 'no breaks', racks });
  if (inputs.hasBreaks) step('operator in a break', { operator: 'attended' });
  return steps;
}

/** Racks that hold a stated number of parts; Infinity elsewhere. */
function rackSizes(cell: Cell, plan: OrderPlan): number[] {
  return plan.stations.map((name) => {
    const station = cell.stations.find((s) => s.name === name);
    const isRack = station?.kind === 'infeed' || station?.kind === 'outfeed';
    return isRack ? (station.capacityParts ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
  });
}
