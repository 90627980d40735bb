/** What the reading of a log takes for granted, in sentences. */
import type { LogAnalysis } from './log-analysis.js';
import { BUCKET_ERROR } from './log-buckets.js';
import type { LogResult } from './log-result.js';
import { SAMPLE } from './measure.js';
import { READY } from './signals.js';

type Figures = Omit<LogResult, 'assumptions' | 'warnings'>;

export function logAssumptions(log: LogAnalysis, result: Figures): string[] {
  const { windowS, gapS, bounceS } = log.options;
  return [
    `Records up to ${windowS} s late are put in their place; a silence of more than ${minutes(gapS)} is a gap; edges of one signal closer than ${Math.round(1000 * bounceS)} ms are bounces.`,
    'A time counts only where both its ends were logged without a gap between them. Parts in one station leave it in the order in which they came, part by part where the log names parts.',
    `Quantiles are exact up to ${SAMPLE} values and within ${100 * BUCKET_ERROR}% of themselves beyond; intervals of means come from 32 to 63 batches, so that values in a row may hang together.`,
    ...partText(result),
    ...readyText(log),
    ...shiftText(result),
  ];
}

function minutes(seconds: number): string {
  return seconds >= 60 ? `${Number((seconds / 60).toFixed(1))} min` : `${seconds} s`;
}

function partText({ partsCountedBy }: Figures): string[] {
  if (partsCountedBy === 'placed')
    return ['A part counts as made when the robot has put it down at an outfeed; scrap is not separated.'];
  if (partsCountedBy === 'finish')
    return [
      'The log has no parts put down at an outfeed, so a part counts as made when its last work is finished.',
    ];
  return [];
}

/** Only where the door takes time, or nobody says whether it does. */
function readyText({ tracks, facts, stations }: LogAnalysis): string[] {
  const lacking = tracks.some(
    (t, i) =>
      t !== undefined &&
      t.wait.n > 0 &&
      t.seen[READY] === 0 &&
      facts.stations.get(stations.list[i]!)?.readyS !== 0,
  );
  if (!lacking) return [];
  return [
    facts.stations.size > 0
      ? 'Where the log has no `ready`, the wait for the robot begins ready_s of stations.csv after the finish.'
      : 'Where the log has no `ready`, the wait for the robot begins with the finish, so it holds the opening of the door.',
  ];
}

function shiftText({ shifts }: Figures): string[] {
  if (shifts.length === 0) return [];
  return [
    'Means by shift are of whole shifts; one of which more than a quarter of an hour lies outside the log is left out.',
  ];
}
