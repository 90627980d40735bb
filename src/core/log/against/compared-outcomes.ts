/** What follows from the inputs, as the schedule gives it and as it came about. */
import type { Cell } from '../../model/cell.js';
import type { ScheduleFound, StationShare } from '../../schedule/result.js';
import type { ShiftYield } from '../../shifts/shift-yield.js';
import type { LogResult } from '../log-result.js';
import type { ComparedOutcome, Expected } from './compared.js';

export function comparedOutcomes(
  cell: Cell,
  log: LogResult,
  { schedule, week }: Expected,
): ComparedOutcome[] {
  return [
    ...rateOutcome(log, schedule),
    ...(week === null ? [] : shiftOutcomes(cell, log, schedule, week)),
    ...schedule.stations.flatMap((station) => stationOutcomes(log, schedule, station)),
    ...robotOutcome(log, schedule),
  ];
}

/** Below this an estimate is 0, but for rounding. */
const LEAST = 1e-9;

function outcome(
  figure: string,
  unit: string,
  estimate: number,
  measured: number,
  interval: { readonly ciLow: number | null; readonly ciHigh: number | null } | null,
): ComparedOutcome {
  return {
    figure,
    unit,
    estimate,
    measured,
    ciLow: interval?.ciLow ?? null,
    ciHigh: interval?.ciHigh ?? null,
    offPct: estimate > LEAST ? 100 * (measured / estimate - 1) : null,
  };
}

function rateOutcome({ partsPerH, partsPerHInterval, partsCountedBy }: LogResult, schedule: ScheduleFound) {
  if (partsCountedBy === 'nothing') return [];
  return [outcome('parts made', 'an hour', schedule.partsPerH.total!, partsPerH.total!, partsPerHInterval)];
}

/** The log counts all parts, the shifts' yield the good ones, so the estimate is taken with the scrap. */
function shiftOutcomes(
  cell: Cell,
  log: LogResult,
  schedule: ScheduleFound,
  week: ShiftYield,
): ComparedOutcome[] {
  const withScrap = 1 / goodShare(cell, schedule);
  return log.shiftMeans.flatMap((mean) => {
    const expected = week.byShift.find((s) => s.shift === mean.shift);
    if (expected === undefined) return [];
    return [
      outcome(`parts made in ${mean.shift}`, 'a shift', expected.partsPerShift * withScrap, mean.mean, mean),
    ];
  });
}

function goodShare(cell: Cell, { partsPerH }: ScheduleFound): number {
  let [good, all] = [0, 0];
  for (const [part, rate] of Object.entries(partsPerH)) {
    if (part === 'total') continue;
    const pct = cell.parts.find((p) => p.part === part)?.yieldPct ?? 100;
    good += (rate * pct) / 100;
    all += rate;
  }
  return good > 0 ? good / all : 1;
}

function stationOutcomes(log: LogResult, schedule: ScheduleFound, share: StationShare): ComparedOutcome[] {
  const own = log.stations.find((s) => s.station === share.station);
  if (own === undefined || own.times.cycle === null) return [];
  const picks = schedule.events.filter((e) => e.action === 'pick' && e.station === share.station).length;
  const { waitRobot } = own.times;
  const wait =
    waitRobot === null || picks === 0
      ? []
      : [
          outcome(
            `${share.station} blocked`,
            's a part',
            share.waitRobotS / picks,
            waitRobot.mean,
            waitRobot,
          ),
        ];
  if (own.shares === null) return wait;
  const { processingS, stoppedS, pausedS, waitRobotS, handlingS, restS } = own.shares;
  const all = processingS + stoppedS + pausedS + waitRobotS + handlingS + restS;
  if (!(all > 0)) return wait;
  return [
    ...wait,
    outcome(
      `${share.station} working`,
      '% of the time',
      share.utilizationPct,
      (100 * processingS) / all,
      null,
    ),
  ];
}

function robotOutcome({ robot }: LogResult, schedule: ScheduleFound): ComparedOutcome[] {
  if (robot === null || robot.travelEmptyS === null) return [];
  return [outcome('robot busy', '% of the time', schedule.robot.utilizationPct, robot.busyPct, null)];
}
