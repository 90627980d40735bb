/** What a reader of a log's result must know before believing it, in sentences. */
import type { LogResult } from './log-result.js';

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
