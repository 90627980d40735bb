/** What makes the counts of two cells mean different things: other parts, or other hours in the pattern. */
import { patternNames } from '../calendar/week-calendar.js';
import type { Cell } from '../model/cell.js';

interface NamedCell {
  readonly name: string;
  readonly cell: Cell;
}

/**
 * @param pattern that all are held side by side in; null = day and night
 * @returns a sentence for each reason; empty where good parts a shift may be compared
 */
export function incomparable(variants: readonly NamedCell[], pattern: string | null): string[] {
  const [first, ...others] = variants;
  if (first === undefined) return [];
  return [
    ...others.flatMap((other) => partsText(first, other)),
    ...others.flatMap((other) => hoursText(first, other, pattern)),
  ];
}

function partsText(a: NamedCell, b: NamedCell): string[] {
  const [inA, inB] = [a, b].map(({ cell }) => cell.routes.map((r) => r.part)) as [string[], string[]];
  const only = ({ name }: NamedCell, own: readonly string[], other: readonly string[]): string[] => {
    const parts = own.filter((part) => !other.includes(part));
    return parts.length === 0 ? [] : [`only ${name} makes ${parts.join(', ')}`];
  };
  const said = [...only(a, inA, inB), ...only(b, inB, inA)];
  return said.length === 0 ? [] : [`${a.name} and ${b.name} make unlike parts: ${said.join('; ')}.`];
}

function hoursText(a: NamedCell, b: NamedCell, pattern: string | null): string[] {
  const names = `${a.name} and ${b.name}`;
  if (pattern !== null)
    return hoursOf(a.cell, pattern) === hoursOf(b.cell, pattern)
      ? []
      : [`${names} do not work the same hours in the pattern ${pattern}.`];
  const [ofA, ofB] = [a, b].map(({ cell }) => patternNames(cell.shifts).length > 0);
  return ofA || ofB ? [`${names} share no shift pattern.`] : [];
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
