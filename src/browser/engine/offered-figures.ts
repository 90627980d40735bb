/** Figures that the page offers to draw against a number. */
import { patternNames } from '../../core/calendar/week-calendar.js';
import type { Cell } from '../../core/model/cell.js';
import { FIGURES, FIGURES_OF_COSTS } from '../../render/figure-names.js';

/** Paths of those that a cell has. */
export function figuresOf({ shifts, costs }: Cell): readonly string[] {
  const weeks = patternNames(shifts).map((pattern) => `shifts.patterns.${pattern}.partsPerWeek.total`);
  return [...Object.keys(FIGURES), ...weeks, ...(costs.length === 0 ? [] : Object.keys(FIGURES_OF_COSTS))];
}
