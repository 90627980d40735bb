/** What a station does through a round, one thing after another: its stretches laid over each other and put in order. */
import type { ScheduleFound } from '../core/schedule/result.js';
import { type StationStretch, stationStretches, stretchAt } from './station-stretches.js';

const TOLERANCE_S = 1e-6;

/**
 * @returns stretches in order that do not overlap; each begins within the round and may end in the next one; between
 *   them the station is empty
 */
export function stationTimeline(schedule: ScheduleFound, station: string): StationStretch[] {
  const { periodS } = schedule;
  const stretches = stationStretches(schedule, station);
  const cuts = cutTimes(stretches, periodS);
  const pieces = cuts.map((startS, k) => {
    const endS = k + 1 < cuts.length ? cuts[k + 1]! : cuts[0]! + periodS;
    const what = stretchAt(stretches, (startS + endS) / 2, periodS);
    return what && { ...what, startS, endS };
  });
  return merged(pieces, periodS);
}

/** Where stretches begin or end, within the round, ascending. */
function cutTimes(stretches: readonly StationStretch[], periodS: number): number[] {
  const within = (timeS: number) => ((timeS % periodS) + periodS) % periodS;
  const times = stretches.flatMap((s) => [within(s.startS), within(s.endS)]).sort((a, b) => a - b);
  return times.filter(
    (time, k) => (k === 0 || time - times[k - 1]! > TOLERANCE_S) && periodS - time > TOLERANCE_S,
  );
}

/** Pieces of one stretch put together again, over the end of the round too. */
function merged(pieces: readonly (StationStretch | null)[], periodS: number): StationStretch[] {
  const whole: StationStretch[] = [];
  for (const piece of pieces) {
    const last = whole.at(-1);
    if (piece === null) continue;
    if (last && isNext(last, piece)) whole[whole.length - 1] = { ...last, endS: piece.endS };
    else whole.push(piece);
  }
  const [first, last] = [whole[0], whole.at(-1)];
  if (!first || !last || first === last) return whole;
  const again = { ...first, startS: first.startS + periodS, endS: first.endS + periodS };
  return isNext(last, again) ? [...whole.slice(1, -1), { ...last, endS: again.endS }] : whole;
}

function isNext(before: StationStretch, after: StationStretch): boolean {
  return (
    before.state === after.state &&
    before.part === after.part &&
    Math.abs(after.startS - before.endS) <= TOLERANCE_S
  );
}
