/**
 * What an hour of a standing machine is worth, taken from the schedule: contribution is lost only where the machine or
 * the robot is the bottleneck and every part made would be sold.
 */
import type { Cell } from '../model/cell.js';
import { costWord } from '../model/cost-value.js';
import type { ScheduleFound } from '../schedule/result.js';

/** The facts of the schedule that the cost case needs. */
export interface ContributionFacts {
  /** Good and bad parts per hour through each station. */
  readonly partsPerHByStation: Readonly<Record<string, number>>;
  /** Contribution of the good parts that pass a station in an hour. */
  readonly contributionPerMachineHByStation: Readonly<Record<string, number>>;
  readonly bottleneckStations: readonly string[];
  readonly robotIsBottleneck: boolean;
  readonly orderBookFull: boolean;
  /** Sentences that say where each of these comes from. */
  readonly because: readonly string[];
}

/** The robot is the bottleneck when it never waits; up to this share of the period is rounding. */
const ROBOT_IDLE_SHARE = 1e-6;

/**
 * @param cell parts (contribution, good share, demand), routes, shifts and the item order_book_full count
 * @param schedule the best order found
 */
export function lostContribution(
  cell: Pick<Cell, 'parts' | 'shifts' | 'costs' | 'stations'>,
  schedule: ScheduleFound,
): ContributionFacts {
  const machines = new Set(cell.stations.filter((s) => s.kind === 'machine').map((s) => s.name));
  const bottleneckStations = schedule.bottleneck.stations.filter((name) => machines.has(name));
  const robotIsBottleneck = schedule.robot.waitS <= ROBOT_IDLE_SHARE * schedule.periodS;
  const order = orderBook(cell, schedule);
  return {
    ...throughput(cell, schedule),
    bottleneckStations,
    robotIsBottleneck,
    orderBookFull: order.full,
    because: [bottleneckSentence(schedule, bottleneckStations, robotIsBottleneck), order.because],
  };
}

function bottleneckSentence(schedule: ScheduleFound, machines: readonly string[], robot: boolean): string {
  if (robot)
    return `The robot sets the pace (it never waits in the period of ${schedule.periodS.toFixed(1)} s), so a standing machine's parts are lost.`;
  if (machines.length > 0)
    return `${machines.join(' and ')} ${machines.length > 1 ? 'set' : 'sets'} the pace of ${schedule.periodS.toFixed(1)} s, so only there an hour standing loses parts.`;
  return 'Neither a machine nor the robot sets the pace, so a standing machine loses no parts.';
}

/** Parts of each kind that leave a station in an hour: picks, counted once where a part stops there more than once. */
function throughput(
  cell: Pick<Cell, 'parts'>,
  schedule: ScheduleFound,
): Pick<ContributionFacts, 'partsPerHByStation' | 'contributionPerMachineHByStation'> {
  const picks = new Map<string, { station: string; part: string; count: number }>();
  for (const event of schedule.events) {
    if (event.action !== 'pick') continue;
    const key = JSON.stringify([event.station, event.part, event.step]);
    const entry = picks.get(key) ?? { station: event.station, part: event.part, count: 0 };
    picks.set(key, { ...entry, count: entry.count + 1 });
  }
  const most = new Map<string, { station: string; part: string; count: number }>();
  for (const entry of picks.values()) {
    const key = JSON.stringify([entry.station, entry.part]);
    if (entry.count > (most.get(key)?.count ?? 0)) most.set(key, entry);
  }
  const partsPerHByStation: Record<string, number> = {};
  const contributionPerMachineHByStation: Record<string, number> = {};
  for (const { station, part, count } of most.values()) {
    const perH = (count * 3600) / schedule.periodS;
    const row = cell.parts.find((p) => p.part === part);
    const worth = ((row?.contribution ?? 0) * (row?.yieldPct ?? 100)) / 100;
    partsPerHByStation[station] = (partsPerHByStation[station] ?? 0) + perH;
    contributionPerMachineHByStation[station] =
      (contributionPerMachineHByStation[station] ?? 0) + perH * worth;
  }
  return { partsPerHByStation, contributionPerMachineHByStation };
}

function orderBook(
  cell: Pick<Cell, 'parts' | 'shifts' | 'costs'>,
  schedule: ScheduleFound,
): { full: boolean; because: string } {
  const asked = costWord(cell.costs, 'order_book_full');
  if (asked === 'yes') return { full: true, because: 'order_book_full says that every part made is sold.' };
  if (asked === 'no')
    return { full: false, because: 'order_book_full says that more parts would not be sold.' };
  const demands = cell.parts.filter((part) => part.perShift !== null);
  if (demands.length === 0)
    return {
      full: true,
      because:
        'parts.csv gives no demand per shift, so every part made is taken as sold (order_book_full = no changes that).',
    };
  const hours = meanShiftHours(cell.shifts);
  const short = demands.filter((part) => {
    const made = (schedule.partsPerH[part.part] ?? 0) * hours * (part.yieldPct / 100);
    return (part.perShift ?? 0) >= made;
  });
  const shiftText = `in a shift of ${hours.toFixed(2)} working hours`;
  if (short.length > 0)
    return {
      full: true,
      because: `The demand for ${short.map((part) => part.part).join(', ')} reaches what the cell makes ${shiftText}.`,
    };
  return {
    full: false,
    because: `The demand per shift is below what the cell makes ${shiftText}, so a lost hour can be made up.`,
  };
}

/** Working hours of one shift on average, breaks out; 8 where shifts.csv gives none. */
function meanShiftHours(shifts: Cell['shifts']): number {
  if (shifts.length === 0) return 8;
  const minutes = shifts.map(
    (shift) =>
      shift.endMin -
      shift.startMin -
      shift.breaks.reduce((sum, span) => sum + span.endMin - span.startMin, 0),
  );
  return minutes.reduce((sum, value) => sum + value, 0) / shifts.length / 60;
}
