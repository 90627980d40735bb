/**
 * What could be changed, held against the week as it is: parts and money a week, and how sure that is. A rate an hour is
 * carried over to the week in its proportion; what a change costs to buy is in none of them but the boxes.
 */
import { isAsked } from '../calendar/asked-amounts.js';
import { YEAR_WEEKS } from '../calendar/year.js';
import type { PatternComparison } from '../compare/compare-patterns.js';
import type { CellComparison } from '../compare/comparison.js';
import type { CostCaseFound, CostCaseTooLittle } from '../cost/result.js';
import type { Cell } from '../model/cell.js';
import { chanceText } from '../model/chance-text.js';
import { runningCostPerH } from '../model/contribution.js';
import { leadingPattern } from '../model/leading-pattern.js';
import { planInWords } from '../model/plan-words.js';
import { watchedWay } from '../model/watched-way.js';
import type { ScheduleFound } from '../schedule/result.js';
import type { ShiftPatterns } from '../shifts/shift-patterns.js';
import type { ShiftYield } from '../shifts/shift-yield.js';
import type { SizeStudy } from '../size/size-study.js';

export interface WeekOption {
  readonly what: string;
  /** Good parts more (less below 0); null where it is not known. */
  readonly partsPerWeek: number | null;
  /** Contribution after labour and running costs more; null where parts.csv gives none. */
  readonly moneyPerWeek: number | null;
  readonly sure: string;
}

export interface WeekOptions {
  /** The week that all are held against: the pattern with the most contribution, or the most parts. */
  readonly base: ShiftYield;
  readonly options: readonly WeekOption[];
}

interface Results {
  readonly cell: Cell;
  readonly schedule: ScheduleFound;
  readonly size: Pick<SizeStudy, 'rows'>;
  readonly shifts: ShiftPatterns | null;
  readonly patterns: PatternComparison | null;
  readonly comparison: CellComparison | null;
  readonly costCase: CostCaseFound | CostCaseTooLittle | null;
}

/** @returns null where there are no shifts and so no week */
export function weekOptions(results: Results): WeekOptions | null {
  const base = results.shifts === null ? undefined : leadingPattern(results.shifts);
  if (base === undefined) return null;
  return {
    base,
    options: [
      ...changes(results, base),
      ...otherPatterns(results, base),
      ...moreMachines(results, base),
      ...layouts(results, base),
      ...boxes(results),
    ],
  };
}

const found = (proven: boolean): string => (proven ? 'proven best sequence' : 'best sequence found');

/** What-ifs of the schedule that gain something. */
function changes({ cell, schedule }: Results, base: ShiftYield): WeekOption[] {
  const earned =
    base.contributionPerWeek === null
      ? null
      : base.contributionPerWeek + base.labourCostPerWeek + runningCostPerH(cell) * base.hoursPerWeek;
  const byMoney = schedule.rateBoundPerH.goal?.of === 'contribution' && !cell.parts.some(isAsked);
  return schedule.whatIf
    .filter(({ goalGainPct }) => goalGainPct > 0)
    .map(({ change, gainPerH, goalGainPct, proven }) => ({
      what: change,
      partsPerWeek: carriedOver(gainPerH, schedule.partsPerH.total!, base),
      moneyPerWeek: earned === null || !byMoney ? null : (earned * goalGainPct) / 100,
      sure: `${found(proven)}, carried over from its hour`,
    }));
}

function carriedOver(gainPerH: number, ratePerH: number, { partsPerWeek }: ShiftYield): number | null {
  return ratePerH > 0 ? (partsPerWeek.total! * gainPerH) / ratePerH : null;
}

function otherPatterns({ shifts, patterns }: Results, base: ShiftYield): WeekOption[] {
  return shifts!.patterns
    .filter((week) => week !== base)
    .map((week) => {
      const pair = patterns?.differences.find(
        ({ a, b }) => [a, b].includes(week.pattern) && [a, b].includes(base.pattern),
      );
      const clear =
        pair === undefined
          ? ''
          : pair.clear
            ? '; clear with downtime and variation too'
            : '; no clear difference with downtime and variation';
      return {
        what: `pattern ${week.pattern}, ${week.unattendedH > 0 ? `${Math.round(week.unattendedH)} h unattended` : 'attended'}`,
        partsPerWeek: week.partsPerWeek.total! - base.partsPerWeek.total!,
        moneyPerWeek:
          week.contributionPerWeek === null || base.contributionPerWeek === null
            ? null
            : week.contributionPerWeek - base.contributionPerWeek,
        sure: `its own week${clear}`,
      };
    });
}

/** The next machine after those that the cell has. */
function moreMachines({ cell, size, schedule }: Results, base: ShiftYield): WeekOption[] {
  const count = cell.stations.filter(({ kind }) => kind === 'machine').length;
  const [now, next] = [count, count + 1].map((n) => size.rows.find(({ machines }) => machines === n));
  const added = next?.machineNames.at(-1);
  if (now === undefined || next === undefined || added === undefined) return [];
  return [
    {
      what: `one more machine like ${added.replace(/#\d+$/, '')}`,
      partsPerWeek: carriedOver(next.partsPerH - now.partsPerH, schedule.partsPerH.total!, base),
      moneyPerWeek:
        next.contributionPerH === null || now.contributionPerH === null || cell.parts.some(isAsked)
          ? null
          : (next.contributionPerH - now.contributionPerH) * base.hoursPerWeek,
      sure: `${found(next.proven)}, carried over from its hour`,
    },
  ];
}

/** Other folders against the first. */
function layouts({ comparison }: Results, base: ShiftYield): WeekOption[] {
  if (comparison === null) return [];
  const first = comparison.cells[0]?.name;
  return comparison.differences
    .filter(({ a, b }) => a === first || b === first)
    .map(({ a, b, partsPerShift, clear }) => ({
      what: `layout ${a === first ? b : a}`,
      partsPerWeek: (a === first ? -1 : 1) * partsPerShift.mean * base.shiftsPerWeek,
      moneyPerWeek: null,
      sure: clear ? 'simulated, clear difference' : 'simulated, no clear difference',
    }));
}

/** The recommended boxes, else boxes everywhere: their price is in the money. */
function boxes({ costCase }: Pick<Results, 'costCase'>): WeekOption[] {
  if (costCase?.status !== 'found' || costCase.plannedChangeovers === 0) return [];
  const { basis, horizonYears } = costCase;
  const { way, increment, risk } = watchedWay(costCase);
  if (increment === null) return [];
  const pays =
    risk.items.length === 0
      ? 'no item has a low and a high'
      : `pays in ${chanceText(risk.probabilityPays)} of the trials`;
  return [
    {
      what: planInWords(way),
      partsPerWeek: null,
      moneyPerWeek: increment.annualEquivalent / YEAR_WEEKS,
      sure: `${pays}; price spread over ${horizonYears} years, ${basis}`,
    },
  ];
}
