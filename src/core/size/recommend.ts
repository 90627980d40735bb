/** Which number of machines to choose, why, and how close the next one is. */
import type { SizeRow } from './size-row.js';

/** What the choice goes by: money where it is given, else waiting. */
export type SizeMeasure = 'contribution per hour' | 'cost per part' | 'waiting for the robot';

export interface NextBest {
  readonly machines: number;
  /** How far it falls short, in per cent of the best; 0 = a tie. */
  readonly shortPct: number;
  readonly text: string;
}

export interface Recommendation {
  readonly machines: number;
  readonly measure: SizeMeasure;
  readonly reason: string;
  /** Largest number of machines, all in use, that wait no more than the stated share; null where no row has one. */
  readonly largestUnderWait: number | null;
  /** null where there is one row only, or where the choice goes by waiting. */
  readonly nextBest: NextBest | null;
}

/**
 * @param rows at least one, by rising number of machines
 * @param maxWaitPct stated share of machine time that may be spent waiting for the robot
 * @throws RangeError where there are no rows
 */
export function recommend(rows: readonly SizeRow[], maxWaitPct: number): Recommendation {
  const measure = measureOf(rows);
  const largestUnderWait = rows.filter((r) => keepsWaiting(r, maxWaitPct)).at(-1)?.machines ?? null;
  if (measure === 'waiting for the robot') return byWaiting(rows, largestUnderWait, maxWaitPct);
  const ranked = [...rows].sort((a, b) => worth(b, measure) - worth(a, measure) || a.machines - b.machines);
  const best = bestRow(rows, measure);
  const next = ranked.find((r) => r !== best) ?? null;
  return {
    machines: best.machines,
    measure,
    reason: reasonText(best, measure),
    largestUnderWait,
    nextBest: next === null ? null : nextBestOf(best, next, measure),
  };
}

/** All machines are used, and wait no more than the stated share; one that stands would only thin the share out. */
export function keepsWaiting(row: SizeRow, maxWaitPct: number): boolean {
  return row.waitRobotPct <= maxWaitPct + 1e-9 && row.machinesUsed === row.machines;
}

/** The row with the best figure; of rows that differ by rounding only, the one with fewer machines. */
export function bestRow(rows: readonly SizeRow[], measure: SizeMeasure): SizeRow {
  const first = rows[0];
  if (!first) throw new RangeError('there is no row to choose from');
  return rows.reduce((best, row) => {
    const gain = worth(row, measure) - worth(best, measure);
    return gain > 1e-9 * Math.max(1e-12, Math.abs(worth(best, measure))) ? row : best;
  }, first);
}

/** Money is the measure where every row has it. */
export function measureOf(rows: readonly SizeRow[]): SizeMeasure {
  if (rows.every((r) => r.contributionPerH !== null)) return 'contribution per hour';
  return rows.every((r) => r.costPerPart !== null) ? 'cost per part' : 'waiting for the robot';
}

function worth(row: SizeRow, measure: SizeMeasure): number {
  if (measure === 'contribution per hour') return row.contributionPerH!;
  if (measure === 'cost per part') return -row.costPerPart!;
  return row.partsPerH;
}

function reasonText(best: SizeRow, measure: SizeMeasure): string {
  const count = countText(best.machines);
  return measure === 'contribution per hour'
    ? `${count} the most contribution: ${best.contributionPerH!.toFixed(2)} an hour after the costs of robot, stations and people.`
    : `${count} the lowest cost per part: ${best.costPerPart!.toFixed(4)}. No contribution is given, so the choice goes by cost.`;
}

function nextBestOf(best: SizeRow, next: SizeRow, measure: SizeMeasure): NextBest {
  const gap = worth(best, measure) - worth(next, measure);
  const shortPct = (100 * Math.max(0, gap)) / Math.max(1e-12, Math.abs(worth(best, measure)));
  const figure =
    measure === 'contribution per hour'
      ? `${next.contributionPerH!.toFixed(2)} an hour`
      : `${next.costPerPart!.toFixed(4)} a part`;
  const text = `${next.machines === 1 ? 'One machine comes' : `${next.machines} machines come`} next with ${figure}, ${shortPct.toFixed(1)}% behind.`;
  return { machines: next.machines, shortPct, text };
}

function byWaiting(rows: readonly SizeRow[], largest: number | null, maxWaitPct: number): Recommendation {
  const machines = largest ?? rows[0]!.machines;
  const reason =
    largest === null
      ? `Even ${machines === 1 ? 'one machine waits' : `${machines} machines wait`} for the robot for more than ${maxWaitPct}% of the time. No costs or contribution are given, so the choice goes by waiting.`
      : `${machines === 1 ? 'One machine is' : `${machines} machines are`} the most at which waiting for the robot stays within ${maxWaitPct}%. No costs or contribution are given, so the choice goes by waiting.`;
  return { machines, measure: 'waiting for the robot', reason, largestUnderWait: largest, nextBest: null };
}

function countText(machines: number): string {
  return machines === 1 ? 'One machine earns' : `${machines} machines earn`;
}
