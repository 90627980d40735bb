/** What a comparison recommends, in sentences, and whether the difference is clear. */

import { amountText } from '../model/amount-text.js';
import { listText } from '../model/list-text.js';
import type { CellComparison, ComparedCell, ComparedPair } from './comparison.js';

/** Digits after the point of parts a shift. */
const DIGITS = 1;

interface ComparisonTerms {
  /** Simulated; null = day and night. */
  readonly pattern: string | null;
  /** Why counts of parts cannot be compared. */
  readonly reasons: readonly string[];
  /** Of all cells; null where they do not share one. */
  readonly currency: string | null;
}

export function recommendation(
  cells: readonly ComparedCell[],
  differences: readonly ComparedPair[],
  best: CellComparison['best'],
  { pattern, reasons, currency }: ComparisonTerms,
): { clear: boolean; recommendation: string } {
  const lost = cells.filter((c) => !('order' in c.schedule));
  const lostText = lost.length === 0 ? '' : ` There is no sequence for ${listText(lost.map((c) => c.name))}.`;
  if (reasons.length > 0)
    return { clear: false, recommendation: `${byMoneyOnly(cells, best, reasons, currency)}${lostText}` };
  const first = cells.find((c) => c.name === best.bySimulatedParts);
  if (!first) return { clear: false, recommendation: `None of the cells has a sequence.` };
  const rivals = cells.filter((c) => c !== first && c.simulated !== null);
  if (rivals.length === 0)
    return { clear: true, recommendation: `Only ${first.name} can be run.${lostText}` };
  const close = rivals.filter((rival) => !pairOf(differences, first, rival).clear);
  const more = `${contributionText(cells, first, best, currency)}${lostText}`;
  if (close.length > 0)
    return {
      clear: false,
      recommendation: `No clear difference in good parts a shift: ${first.name} makes ${close.map((rival) => intervalText(differences, first, rival)).join('; ')}. ${adviceText(differences, first, close)}${more}${patternText(first, close, pattern, false)}`,
    };
  const next = rivals.reduce((a, b) => (mean(b) > mean(a) ? b : a));
  return {
    clear: true,
    recommendation: `${first.name} makes the most good parts a shift: ${intervalText(differences, first, next)}.${more}${patternText(first, rivals, pattern, true)}`,
  };
}

/** The pattern in which a cell earns most a week; null where that is not known. */
export function bestWeek({ shifts }: ComparedCell): { pattern: string; earned: number } | null {
  const weeks = (shifts?.patterns ?? []).flatMap(({ pattern, contributionPerWeek: earned }) =>
    earned === null ? [] : [{ pattern, earned }],
  );
  return weeks.length === 0 ? null : weeks.reduce((a, b) => (b.earned > a.earned ? b : a));
}

/** @example 'Highest margin a week at constant times: a (8,461 EUR, two shifts), then b (4,237 EUR, day).' */
function highestMargin(cells: readonly ComparedCell[], currency: string): string {
  const ranked = cells
    .flatMap((cell) => {
      const week = bestWeek(cell);
      return week === null ? [] : [{ name: cell.name, ...week }];
    })
    .sort((a, b) => b.earned - a.earned)
    .slice(0, 2)
    .map(({ name, pattern, earned }) => `${name} (${amountText(earned, currency)}, ${pattern})`);
  return `Highest margin a week at constant times: ${ranked.join(', then ')}`;
}

function byMoneyOnly(
  cells: readonly ComparedCell[],
  { byContribution }: CellComparison['best'],
  reasons: readonly string[],
  currency: string | null,
): string {
  const why = `${reasons.join(' ')} Good parts are not compared.`;
  return byContribution === null
    ? `${why} To compare by money, give every part a contribution, every cell its shifts and all the same currency.`
    : `${highestMargin(cells, currency ?? '')}. ${why}`;
}

/** Gains of less than this share are no gain worth a sentence. */
const TOLD_PCT = 0.5;

function contributionText(
  cells: readonly ComparedCell[],
  first: ComparedCell,
  { byContribution }: CellComparison['best'],
  currency: string | null,
): string {
  const leader = cells.find(({ name }) => name === byContribution);
  const earned = (cell: ComparedCell): number => bestWeek(cell)?.earned ?? Number.NEGATIVE_INFINITY;
  const isAhead =
    leader !== undefined && earned(leader) > earned(first) + (TOLD_PCT / 100) * Math.abs(earned(first));
  return isAhead ? ` ${highestMargin(cells, currency ?? '')}; weigh both.` : '';
}

function adviceText(
  differences: readonly ComparedPair[],
  first: ComparedCell,
  close: readonly ComparedCell[],
): string {
  const areAlike = close.every((rival) => isSame(pairOf(differences, first, rival)));
  const isOpen = close.some((rival) => /sequence/.test(aloneText(pairOf(differences, first, rival))));
  const more = isOpen ? 'search longer (`schedule --time-limit`)' : 'run more replications';
  return `Choose by cost or effort, or ${areAlike ? 'look where they differ' : more}.`;
}

function isSame({ partsPerShift: { mean: middle, ciLow, ciHigh } }: ComparedPair): boolean {
  return middle === 0 && ciLow === 0 && ciHigh === 0;
}

/**
 * Patterns that were not simulated, such as those with hours in which nobody is there, where the weeks without chance
 * say otherwise: the largest such difference.
 *
 * @param isClear the first is clearly ahead where it was simulated: then only patterns in which another one is count
 */
function patternText(
  first: ComparedCell,
  rivals: readonly ComparedCell[],
  simulated: string | null,
  isClear: boolean,
): string {
  const partsIn = (cell: ComparedCell, pattern: string): number | undefined =>
    cell.shifts?.patterns.find((p) => p.pattern === pattern)?.partsPerWeek.total;
  const gains = (first.shifts?.patterns ?? [])
    .filter(({ pattern }) => pattern !== simulated)
    .flatMap(({ pattern }) =>
      rivals.flatMap((rival) => {
        const [of, than] = [partsIn(first, pattern), partsIn(rival, pattern)];
        if (of === undefined || than === undefined || Math.min(of, than) <= 0) return [];
        const [more, less] = of >= than ? [first, rival] : [rival, first];
        return [{ pattern, more, less, gainPct: 100 * (Math.max(of, than) / Math.min(of, than) - 1) }];
      }),
    )
    .filter(({ gainPct, more }) => gainPct > TOLD_PCT && !(isClear && more === first))
    .sort((a, b) => b.gainPct - a.gainPct);
  const [top] = gains;
  return top === undefined
    ? ''
    : ` In the pattern ${top.pattern}, at constant times, ${top.more.name} makes ${top.gainPct.toFixed(DIGITS)}% more good parts a week than ${top.less.name}; \`compare --pattern\` simulates that one.`;
}

function mean(cell: ComparedCell): number {
  return cell.simulated?.partsPerShift.total?.mean ?? Number.NEGATIVE_INFINITY;
}

function pairOf(differences: readonly ComparedPair[], x: ComparedCell, y: ComparedCell): ComparedPair {
  return differences.find((d) => (d.a === x.name && d.b === y.name) || (d.a === y.name && d.b === x.name))!;
}

/** Why a pair is not clear though its interval leaves out 0. */
function aloneText({ clear, openPerShift, partsPerShift: { ciLow, ciHigh } }: ComparedPair): string {
  const leavesOutZero = ciLow !== null && ciHigh !== null && (ciLow > 0 || ciHigh < 0);
  if (!leavesOutZero || clear) return '';
  if (openPerShift === null) return '; no limit is known of what a better sequence could add to the other';
  return Math.max(ciLow, -ciHigh) > openPerShift
    ? ' by itself, not clear with all pairs held together'
    : `; a better sequence, not found, could add up to ${openPerShift.toFixed(DIGITS)} to the other`;
}

/** @example '4.2 more than small (3.1 to 5.3)' */
function intervalText(
  differences: readonly ComparedPair[],
  first: ComparedCell,
  other: ComparedCell,
): string {
  const pair = pairOf(differences, first, other);
  if (isSame(pair)) return `the same as ${other.name} in every run`;
  const { mean: middle, ciLow, ciHigh } = pair.partsPerShift;
  const turned = pair.a !== first.name;
  const amount = turned ? -middle : middle;
  const [low, high] = turned ? [ciHigh, ciLow] : [ciLow, ciHigh];
  const bounds =
    low === null || high === null
      ? ' (one run only, so no interval)'
      : ` (${(turned ? -low : low).toFixed(DIGITS)} to ${(turned ? -high : high).toFixed(DIGITS)}${aloneText(pair)})`;
  return `${amount.toFixed(DIGITS)} more than ${other.name}${bounds}`;
}
