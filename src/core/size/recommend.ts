/**
 * Which number of machines to choose, why, and how close the next one is. Machines that the cell has already are never
 * advised away: the question is then what one robot makes of them, and for how many more there is room.
 */
import { listText } from '../model/list-text.js';
import { originalOf } from './copied-machine.js';
import type { SizeRow } from './size-row.js';

/** What the choice goes by: money where it is given and tells the rows apart, else waiting. */
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
  /**
   * Largest number of machines, all in use, that wait for the busy robot no more than the stated share; null where no
   * row has one.
   */
  readonly largestUnderWait: number | null;
  /** null where there is one row only, or where the choice goes by waiting. */
  readonly nextBest: NextBest | null;
}

export interface ChoiceTerms {
  /** Stated share of machine time that may be spent waiting for the busy robot. */
  readonly maxWaitPct: number;
  /** Machines that the cell has already, 0 where none is there yet. */
  readonly owned: number;
  /** Name of the money, or empty. */
  readonly currency: string;
}

/**
 * @param rows at least one, by rising number of machines
 * @throws RangeError where there are no rows
 */
export function recommendMachines(rows: readonly SizeRow[], terms: ChoiceTerms): Recommendation {
  const { maxWaitPct, owned, currency } = terms;
  const choice = choiceOf(rows, maxWaitPct, owned);
  const measure = measureOf(choice);
  const largestUnderWait = rows.filter((r) => keepsWaiting(r, maxWaitPct)).at(-1)?.machines ?? null;
  const best = bestRow(choice, measure, maxWaitPct);
  const next =
    measure === 'waiting for the robot'
      ? undefined
      : [...choice]
          .sort((a, b) => worth(b, measure) - worth(a, measure) || a.machines - b.machines)
          .find((r) => r !== best);
  return {
    machines: best.machines,
    measure,
    reason: owned > 0 ? servedText(rows, choice[0]!, best, measure, terms) : reasonText(best, measure, terms),
    largestUnderWait,
    nextBest: next === undefined ? null : nextBestOf(best, next, measure, currency),
  };
}

/** Rows that may be chosen: none with fewer machines than are there, and only those with more that the robot keeps up with. */
export function choiceOf(rows: readonly SizeRow[], maxWaitPct: number, owned: number): readonly SizeRow[] {
  if (owned === 0) return rows;
  const open = rows.filter(
    (row) => row.machines === owned || (row.machines > owned && keepsWaiting(row, maxWaitPct)),
  );
  return open.length > 0 ? open : rows.slice(-1);
}

/** All machines are used, and wait no more than the stated share; one that stands would only thin the share out. */
export function keepsWaiting(row: SizeRow, maxWaitPct: number): boolean {
  return row.waitBusyPct <= maxWaitPct + 1e-9 && row.machinesUsed === row.machines;
}

/** The row with the best figure; of rows that differ by rounding only, the one with fewer machines. */
export function bestRow(rows: readonly SizeRow[], measure: SizeMeasure, maxWaitPct: number): SizeRow {
  const first = rows[0];
  if (!first) throw new RangeError('there is no row to choose from');
  if (measure === 'waiting for the robot')
    return rows.filter((row) => keepsWaiting(row, maxWaitPct)).at(-1) ?? first;
  return rows.reduce((best, row) => {
    const gain = worth(row, measure) - worth(best, measure);
    return gain > 1e-9 * Math.max(1e-12, Math.abs(worth(best, measure))) ? row : best;
  }, first);
}

/** Money is the measure where every row has it; costs per part only tell rows apart that make the same mix of parts. */
export function measureOf(rows: readonly SizeRow[]): SizeMeasure {
  if (rows.every((r) => r.contributionPerH !== null)) return 'contribution per hour';
  const costs = rows.every((r) => r.costPerPart !== null);
  return costs && rows.every((r) => sameMix(r, rows[0]!)) ? 'cost per part' : 'waiting for the robot';
}

function sameMix(a: SizeRow, b: SizeRow): boolean {
  const parts = Object.keys({ ...a.partsPerHByPart, ...b.partsPerHByPart });
  return parts.every((part) => {
    const [x, y] = [a, b].map((row) => (row.partsPerHByPart[part] ?? 0) / row.partsPerH);
    return Math.abs(x! - y!) < 1e-6;
  });
}

function worth(row: SizeRow, measure: SizeMeasure): number {
  if (measure === 'contribution per hour') return row.contributionPerH!;
  if (measure === 'cost per part') return -row.costPerPart!;
  return row.partsPerH;
}

/** What one robot makes of the machines that are there, what limits it, and for how many more there is room. */
function servedText(
  rows: readonly SizeRow[],
  own: SizeRow,
  best: SizeRow,
  measure: SizeMeasure,
  terms: ChoiceTerms,
): string {
  const refused = refusedRow(rows, best, measure, terms.maxWaitPct);
  const texts = [
    ownText(own),
    limitText(own, terms.maxWaitPct),
    roomText(rows, own, best, refused, measure, terms),
    ...(refused === undefined ? [] : [refusedText(own, refused, terms)]),
  ];
  return texts.filter((text) => text !== '').join(' ');
}

/** Of the rows with more machines that earn more, the best one: it was left out as the machines wait for the robot too long. */
function refusedRow(
  rows: readonly SizeRow[],
  best: SizeRow,
  measure: SizeMeasure,
  maxWaitPct: number,
): SizeRow | undefined {
  if (measure !== 'contribution per hour') return undefined;
  const more = rows.filter((row) => row.machines > best.machines && row.contributionPerH !== null);
  const top = bestRow([best, ...more], measure, maxWaitPct);
  return top === best || keepsWaiting(top, maxWaitPct) ? undefined : top;
}

function refusedText(own: SizeRow, refused: SizeRow, { maxWaitPct, currency }: ChoiceTerms): string {
  const { waitBusyPct, machines, machinesUsed } = refused;
  const why =
    waitBusyPct > maxWaitPct + 1e-9
      ? `the machines would wait ${tooLongText(waitBusyPct, maxWaitPct)}`
      : `it would use ${machinesUsed} of the ${machines} machines`;
  return `With ${kindsText(own, refused)} the margin would be higher, ${earnedText(refused, currency)}, but ${why}.`;
}

function tooLongText(waitBusyPct: number, maxWaitPct: number): string {
  return `for the busy robot ${waitBusyPct.toFixed(1)}% of the time, more than the highest acceptable ${maxWaitPct}%`;
}

function ownText(own: SizeRow): string {
  const { machines, machinesUsed, partsPerH, robotUtilizationPct } = own;
  const all = machines === 1 ? 'the machine' : machines === 2 ? 'both machines' : `all ${machines} machines`;
  const which = machinesUsed === machines ? all : `${machinesUsed} of the ${machines} machines`;
  return `One robot serves ${which}: ${partsPerH.toFixed(1)} parts an hour, robot busy ${robotUtilizationPct.toFixed(0)}%.`;
}

function limitText({ limitedBy, machineNames, waitBusyPct }: SizeRow, maxWaitPct: number): string {
  const waits =
    waitBusyPct > maxWaitPct + 1e-9 ? ` The machines wait ${tooLongText(waitBusyPct, maxWaitPct)}.` : '';
  if (limitedBy.includes('robot')) return `The robot is the limit.${waits}`;
  const all = limitedBy.length > 0 && machineNames.every((name) => limitedBy.includes(name));
  const what = all || limitedBy.length === 0 ? "the machines' own time" : listText(limitedBy);
  return `The limit is ${what}, not the robot.${waits}`;
}

function roomText(
  rows: readonly SizeRow[],
  own: SizeRow,
  best: SizeRow,
  refused: SizeRow | undefined,
  measure: SizeMeasure,
  { maxWaitPct, currency }: ChoiceTerms,
): string {
  if (best !== own) {
    const money =
      measure === 'contribution per hour'
        ? `, margin ${earnedText(best, currency)} instead of ${own.contributionPerH!.toFixed(2)}`
        : '';
    const end = best === rows.at(-1) ? ' More were not tried.' : '';
    return `Room for ${kindsText(own, best)}: ${best.partsPerH.toFixed(1)} parts an hour${money}.${end}`;
  }
  const more = rows[rows.indexOf(own) + 1];
  if (more === undefined) return 'No further machine would add anything, or none was tried.';
  const kind = kindsText(own, more);
  if (more === refused) return '';
  if (!keepsWaiting(more, maxWaitPct))
    return `With ${kind} the machines would wait for the busy robot ${more.waitBusyPct.toFixed(1)}% of the time.`;
  return `With ${kind} the ${measure === 'cost per part' ? 'cost of a part' : 'margin'} would be no better.`;
}

/** The machines that a row has more, by kind: `one more like mill and two more like saw`. */
function kindsText(own: SizeRow, row: SizeRow): string {
  const counts = new Map<string, number>();
  for (const name of row.machineNames.filter((n) => !own.machineNames.includes(n)))
    counts.set(originalOf(name), (counts.get(originalOf(name)) ?? 0) + 1);
  return listText([...counts].map(([kind, n]) => `${n === 1 ? 'one' : n} more like ${kind}`));
}

/** @example '194.06 EUR an hour' */
export function earnedText({ contributionPerH }: SizeRow, currency: string): string {
  return `${contributionPerH!.toFixed(2)}${named(currency)} an hour`;
}

/** @example named('EUR') // ' EUR' */
export function named(currency: string): string {
  return currency === '' ? '' : ` ${currency}`;
}

function reasonText(best: SizeRow, measure: SizeMeasure, { maxWaitPct, currency }: ChoiceTerms): string {
  const { machines } = best;
  const earns = machines === 1 ? 'One machine earns' : `${machines} machines earn`;
  if (measure === 'contribution per hour')
    return `${earns} the highest margin: ${earnedText(best, currency)} after the costs of robot, stations and people.`;
  if (measure === 'cost per part')
    return `${machines === 1 ? 'One machine has' : `${machines} machines have`} the lowest cost per part: ${best.costPerPart!.toFixed(4)}${named(currency)}. No contribution is given, so the choice goes by cost.`;
  const text = keepsWaiting(best, maxWaitPct)
    ? `${machines === 1 ? 'One machine is' : `${machines} machines are`} the most at which waiting for the busy robot stays within ${maxWaitPct}%.`
    : `Even ${machines === 1 ? 'one machine waits' : `${machines} machines wait`} for the busy robot for more than ${maxWaitPct}% of the time.`;
  return `${text} No costs or contribution that separate the rows are given, so the choice goes by waiting.`;
}

function nextBestOf(best: SizeRow, next: SizeRow, measure: SizeMeasure, currency: string): NextBest {
  const gap = worth(best, measure) - worth(next, measure);
  const shortPct = (100 * Math.max(0, gap)) / Math.max(1e-12, Math.abs(worth(best, measure)));
  const figure =
    measure === 'contribution per hour'
      ? earnedText(next, currency)
      : `${next.costPerPart!.toFixed(4)}${named(currency)} a part`;
  const text = `${next.machines === 1 ? 'One machine comes' : `${next.machines} machines come`} next with ${figure}, ${shortPct.toFixed(1)}% behind.`;
  return { machines: next.machines, shortPct, text };
}
