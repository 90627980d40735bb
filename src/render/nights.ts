/** Each unattended shift in words: what it makes, how long it runs, what ends it, and what would add parts. */
import type { Night, NightChange } from '../core/shifts/nights.js';
import { numberText } from './numbers.js';

/** All that is known of it. */
export function nightText(night: Night): string {
  const each = `${night.shift} (unattended, ${night.perWeek} a week, ${numberText(night.hours, 1)} h): ${numberText(night.parts, 1)} good parts each`;
  const money = night.contribution === null ? '' : `, contribution ${numberText(night.contribution)}`;
  if (night.endedBy === null) return `${each}${money}; runs through to the end.`;
  const steps = night.changes.map(
    ({ change, partsPerWeek }, i) => `${i === 0 ? '' : 'and '}${change} +${numberText(partsPerWeek, 1)}`,
  );
  const more =
    steps.length === 0
      ? 'No more rack, spare tool or earlier stop adds parts.'
      : `More parts a week, each with those before it: ${steps.join('; ')}.`;
  return `${each}${money}; last part out after ${numberText(night.runsH, 1)} h on average; first to stop: ${endText(night)}. ${more}`;
}

/** The parts, what ends it, and the step that brings most with those that it needs before it. */
export function shortNightText(pattern: string, night: Night): string {
  const each = `${pattern}, ${night.shift} (unattended): ${numberText(night.parts, 1)} good parts each`;
  if (night.endedBy === null) return `${each}; runs through to the end.`;
  const steps = worthwhile(night.changes);
  const more =
    steps.length === 0
      ? 'No more rack, spare tool or earlier stop adds parts'
      : `With ${steps.map(({ change }) => change).join(' and ')}: +${numberText(steps.at(-1)!.partsPerWeek)} parts a week`;
  return `${each} until ${endText(night)}. ${more}.`;
}

/** Up to the step that adds most to those before it. */
function worthwhile(changes: readonly NightChange[]): readonly NightChange[] {
  const added = changes.map(({ partsPerWeek }, i) => partsPerWeek - (changes[i - 1]?.partsPerWeek ?? 0));
  return changes.slice(0, added.indexOf(Math.max(...added)) + 1);
}

/** What stops it first, and when; for a night that something ends. */
export function endText({ endedBy, from }: Night): string {
  const { cause, station, stop } = endedBy!;
  const what =
    cause === 'waits for operator'
      ? `"${stop}" at ${station} comes due`
      : `the rack at ${station} is ${cause === 'rack empty' ? 'empty' : 'full'}`;
  return `${what} (${from})`;
}
