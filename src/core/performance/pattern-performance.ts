/**
 * A shift pattern's week in the terms of takt and effectiveness: takt of each demanded part over the open hours, and
 * the cell's effectiveness against its own steady rate (the bottleneck is the cell, so performance and availability
 * losses come from the waterfall as one figure).
 */
import { askedPerWeek } from '../calendar/asked-amounts.js';
import type { Cell } from '../model/cell.js';
import type { ShiftYield } from '../shifts/shift-yield.js';
import { taktTimeMin } from './takt-time.js';

export interface PartTakt {
  readonly part: string;
  /** Seconds in which one good part must come out to meet the demand. */
  readonly taktS: number;
  /** Open seconds for each good part made. null = none is made. */
  readonly actualS: number | null;
  readonly isMet: boolean;
}

export interface PatternPerformance {
  readonly pattern: string;
  /** Good parts of the week over those that the steady rate gives in the open hours, 0 to 100; null without parts. */
  readonly effectivenessPct: number | null;
  /** Good share of the parts made, 0 to 100. */
  readonly qualityPct: number | null;
  /** One for each part with a demand. */
  readonly takt: readonly PartTakt[];
}

export function patternPerformance(cell: Cell, week: ShiftYield): PatternPerformance {
  const ceiling = week.ceilingPerWeek.total ?? 0;
  const good = week.partsPerWeek.total ?? 0;
  const scrap = week.losses.find((l) => l.cause === 'scrap')?.partsPerWeek ?? 0;
  return {
    pattern: week.pattern,
    effectivenessPct: ceiling > 0 ? (100 * good) / ceiling : null,
    qualityPct: good + scrap > 0 ? (100 * good) / (good + scrap) : null,
    takt: cell.parts.flatMap((p) => {
      const wanted = askedPerWeek(p, week.shiftsPerWeek) ?? 0;
      return wanted > 0 ? [partTakt(p.part, wanted, week)] : [];
    }),
  };
}

function partTakt(part: string, wanted: number, week: ShiftYield): PartTakt {
  const made = week.partsPerWeek[part] ?? 0;
  return {
    part,
    taktS: 60 * taktTimeMin(week.hoursPerWeek * 60, wanted),
    actualS: made > 0 ? (week.hoursPerWeek * 3600) / made : null,
    isMet: made >= wanted - 1e-9 * Math.max(1, wanted),
  };
}
