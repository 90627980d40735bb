/** What a reader of a log's result must know before believing it, and what the reading takes for granted, in sentences. */

import type { LogAnalysis } from './log-analysis.js';
import { BUCKET_ERROR } from './log-buckets.js';
import type { LogResult } from './log-result.js';
import { SAMPLE } from './measure.js';
import { READY } from './signals.js';

type Figures = Omit<LogResult, 'assumptions' | 'warnings'>;

/** Share of records left out or lacking from which a log is called damaged. */
const MANY = 0.02;

export function logWarnings(result: Figures): string[] {
  return [
    ...damageText(result),
    ...stepText(result),
    ...aheadText(result),
    ...stationText(result),
    ...partText(result),
  ];
}

function damageText({ damage, records }: Figures): string[] {
  const told = damage.filter((d) => d.kind === 'stray' || d.kind === 'broken line' || d.kind === 'missing');
  const share = told.reduce((sum, d) => sum + d.count, 0) / Math.max(1, records);
  if (share < MANY) return [];
  return [
    `${(100 * share).toFixed(1)}% of the records are broken, out of place or lack their counterpart. The figures are of what is left; look at the log's source before you trust them.`,
  ];
}

function stepText({ gaps, clock }: Figures): string[] {
  const hourly = gaps.filter((g) => Math.abs(g.seconds - 3600) < 120);
  if (hourly.length === 0 || clock === 'seconds') return [];
  return [
    `At line ${hourly[0]!.line} the clock is off by about an hour: it may be the change of the clocks. Log with the zone to be sure.`,
  ];
}

function aheadText({ gaps }: Figures): string[] {
  const ahead = gaps.filter((g) => g.kind === 'clock ahead');
  const minutes = (ahead.reduce((sum, g) => sum + g.seconds, 0) / 60).toFixed(1);
  const [first, ...more] = ahead;
  if (first === undefined) return [];
  const place = more.length === 0 ? 'the log jumps' : `and ${more.length} other places the log jumps`;
  return [
    `At line ${first.line} ${place} ahead in the middle of work, by ${minutes} min in total: the clock was set, records were lost, or the whole cell was stopped without a signal. These minutes are not in the covered hours.`,
  ];
}

function stationText({ stations }: Figures): string[] {
  const lame = stations.filter((s) => s.kind === 'machine' && s.times.cycle === null);
  if (lame.length === 0) return [];
  const names = lame.map((s) => `\`${s.station}\``).join(', ');
  return [`There is no whole cycle of ${names} in the log: it needs a \`start\` and a \`finish\`.`];
}

function partText({ partsCountedBy }: Figures): string[] {
  if (partsCountedBy !== 'nothing') return [];
  return [
    'Parts cannot be counted: the log has no `placed` at an outfeed. Parts per hour are those finished at each station.',
  ];
}

export function logAssumptions(log: LogAnalysis, result: Figures): string[] {
  const { windowS, gapS, bounceS } = log.options;
  return [
    `Records up to ${windowS} s late are put in their place; a silence of more than ${minutes(gapS)} is a gap; edges of one signal closer than ${Math.round(1000 * bounceS)} ms are bounces.`,
    'A time counts only where both its ends were logged without a gap between them. Parts in one station leave it in the order in which they came, part by part where the log names parts.',
    `Quantiles are exact up to ${SAMPLE} values and within ${100 * BUCKET_ERROR}% of themselves beyond; intervals of means come from 32 to 63 batches, so that values in a row may hang together.`,
    ...countedText(result),
    ...readyText(log),
    ...shiftText(result),
  ];
}

function minutes(seconds: number): string {
  return seconds >= 60 ? `${Number((seconds / 60).toFixed(1))} min` : `${seconds} s`;
}

function countedText({ partsCountedBy }: Figures): string[] {
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
