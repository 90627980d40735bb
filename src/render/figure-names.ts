/** Figures of a sweep in the words of the shop. */
export const FIRST_FIGURE = 'schedule.partsPerH.total';

export const FIGURES: Readonly<Record<string, string>> = {
  [FIRST_FIGURE]: 'Parts per hour',
  'schedule.periodS': 'Robot cycle, s',
  'schedule.robot.utilizationPct': 'Robot busy, %',
  'size.recommended.machines': 'Best number of machines',
};

export const FIGURES_OF_COSTS: Readonly<Record<string, string>> = {
  'costcase.increment.npv': 'Present value of boxes against a harness',
  'costcase.breakEvenChangeovers.total': 'Changeovers at which boxes pay',
};

const NAMES = { ...FIGURES, ...FIGURES_OF_COSTS, 'schedule.gapPct': 'Gap to the upper limit, %' };

const WEEK = /^shifts\.patterns\.(.+)\.partsPerWeek\.total$/;

/** The path itself where it has no name. */
export function figureName(path: string): string {
  const pattern = WEEK.exec(path)?.[1];
  const names: Readonly<Record<string, string>> = NAMES;
  return pattern === undefined ? (names[path] ?? path) : `Parts per week, ${pattern}`;
}
