/** What makes the counts of cells mean different things: other parts, or other hours in the pattern. */
import { patternNames } from '../calendar/week-calendar.js';
import type { Cell } from '../model/cell.js';
import { firstFew } from '../model/first-few.js';

interface NamedCell {
  readonly name: string;
  readonly cell: Cell;
}

/** Parts named of each cell. */
const MOST_PARTS = 3;

/**
 * @param variants two or more
 * @param pattern that all are held side by side in; null = day and night
 * @returns a sentence for each reason; empty where good parts a shift may be compared
 */
export function incomparable(variants: readonly NamedCell[], pattern: string | null): string[] {
  return [...partsText(variants), ...hoursText(variants, pattern)];
}

function partsText(variants: readonly NamedCell[]): string[] {
  const made = variants.map(({ cell }) => cell.routes.map(({ part }) => part));
  const said = variants.flatMap(({ name }, i) => {
    const own = made[i]!.filter((part) => !made.every((parts) => parts.includes(part)));
    return own.length === 0 ? [] : [`${firstFew(own, MOST_PARTS)} (${name})`];
  });
  return said.length === 0 ? [] : [`Parts that not every cell makes: ${said.join('; ')}.`];
}

function hoursText(variants: readonly NamedCell[], pattern: string | null): string[] {
  if (pattern === null)
    return variants.some(({ cell }) => patternNames(cell.shifts).length > 0)
      ? ['The cells share no shift pattern.']
      : [];
  const hours = variants.map(({ cell }) => hoursOf(cell, pattern));
  const others = variants.filter((_, i) => hours[i] !== hours[0]).map(({ name }) => name);
  return others.length === 0
    ? []
    : [`Other hours in the pattern ${pattern} than ${variants[0]!.name}: ${others.join(', ')}.`];
}

/** When the pattern's shifts are, and who is there. */
function hoursOf({ shifts }: Cell, pattern: string): string {
  const rows = shifts
    .filter((row) => row.pattern === pattern)
    .map(({ days, startMin, endMin, breaks, attended, operators }) =>
      JSON.stringify([days, startMin, endMin, breaks, attended, operators]),
    );
  return rows.sort().join();
}
