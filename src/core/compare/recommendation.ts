/** What a comparison recommends, in sentences, and whether the difference is clear. */
import type { CellComparison, ComparedCell, ComparedPair } from './comparison.js';

/** Digits after the point of parts a shift. */
const DIGITS = 1;

export function recommendation(
  cells: readonly ComparedCell[],
  differences: readonly ComparedPair[],
  best: CellComparison['best'],
): { clear: boolean; recommendation: string } {
  const lost = cells.filter((c) => !('order' in c.schedule));
  const lostText = lost.length === 0 ? '' : ` There is no sequence for ${names(lost)}.`;
  const first = cells.find((c) => c.name === best.bySimulatedParts);
  if (!first) return { clear: false, recommendation: `None of the cells has a sequence.` };
  const rivals = cells.filter((c) => c !== first && c.simulated !== null);
  if (rivals.length === 0)
    return { clear: true, recommendation: `Only ${first.name} can be run.${lostText}` };
  const close = rivals.filter((rival) => !pairOf(differences, first, rival).clear);
  const contribution =
    best.byContribution !== null && best.byContribution !== first.name
      ? ` By contribution a week without chance ${best.byContribution} is first, so weigh both.`
      : '';
  if (close.length > 0)
    return {
      clear: false,
      recommendation: `There is no clear difference between ${names([first, ...close])} in good parts a shift: ${close.map((rival) => intervalText(differences, first, rival)).join('; ')}. Choose by cost or effort, or run more replications.${contribution}${lostText}`,
    };
  const next = rivals.reduce((a, b) => (mean(b) > mean(a) ? b : a));
  return {
    clear: true,
    recommendation: `${first.name} makes the most good parts a shift: ${intervalText(differences, first, next)}.${contribution}${lostText}`,
  };
}

function names(cells: readonly ComparedCell[]): string {
  const list = cells.map((c) => c.name);
  return list.length < 2 ? list.join('') : `${list.slice(0, -1).join(', ')} and ${list.at(-1)}`;
}

function mean(cell: ComparedCell): number {
  return cell.simulated?.partsPerShift.total?.mean ?? Number.NEGATIVE_INFINITY;
}

function pairOf(differences: readonly ComparedPair[], x: ComparedCell, y: ComparedCell): ComparedPair {
  return differences.find((d) => (d.a === x.name && d.b === y.name) || (d.a === y.name && d.b === x.name))!;
}

/** @example '4.2 more than small (3.1 to 5.3)' */
function intervalText(
  differences: readonly ComparedPair[],
  first: ComparedCell,
  other: ComparedCell,
): string {
  const pair = pairOf(differences, first, other);
  const { mean: middle, ciLow, ciHigh } = pair.partsPerShift;
  const turned = pair.a !== first.name;
  const amount = turned ? -middle : middle;
  const [low, high] = turned ? [ciHigh, ciLow] : [ciLow, ciHigh];
  const bounds =
    low === null || high === null
      ? ' (one run only, so no interval)'
      : ` (${(turned ? -low : low).toFixed(DIGITS)} to ${(turned ? -high : high).toFixed(DIGITS)})`;
  return `${amount.toFixed(DIGITS)} more than ${other.name}${bounds}`;
}
