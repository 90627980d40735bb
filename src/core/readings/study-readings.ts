/** Readings of a stopwatch, element by element: how long, how sure, how much it scatters, what changed meanwhile. */
import type { Cell } from '../model/cell.js';
import { chooseFit, type FitChoice } from './fit/choose-fit.js';
import { type ForeignElements, foreignElements } from './foreign-elements.js';
import { type GroupFigures, groupComparison } from './group-comparison.js';
import { type OutlierLimits, type OutlierRule, outlierLimits } from './outliers.js';
import { pooledScatter, type Scatter } from './pooled-scatter.js';
import type { StopwatchReading } from './reading.js';
import { readingsByNormal, readingsByStudent, twoSidedZ } from './readings-needed.js';
import { type ReadyTable, readyRows } from './ready-rows.js';
import { type SessionTrend, sessionTrend } from './session-trend.js';
import { type AllowanceBasis, normalTime, standardTime } from './standard-time.js';
import { type Summary, summary } from './summary.js';
import { type TableTime, tableTime } from './table-time.js';
import { type NameProblem, readElementName, type TimedElement } from './timed-element.js';
import { untimedAlternatives } from './untimed-alternatives.js';

export interface ReadingsOptions {
  /** How near the mean is to be known, per cent of it to either side. */
  readonly accuracyPct: number;
  readonly confidencePct: number;
  readonly outlierRule: OutlierRule;
  /** Figures without the named outliers; they are told all the same. */
  readonly dropOutliers: boolean;
  /** Allowance for the standard time; null where none is wanted. */
  readonly allowance: { readonly pct: number; readonly basis: AllowanceBasis } | null;
}

export const defaultReadingsOptions: ReadingsOptions = {
  accuracyPct: 5,
  confidencePct: 95,
  outlierRule: 'mad',
  dropOutliers: false,
  allowance: null,
};

export interface OutlierReading {
  readonly seconds: number;
  /** Line of the file; null where the readings came from elsewhere. */
  readonly line: number | null;
  readonly note: string;
}

export interface ElementStudy extends Summary {
  readonly element: string;
  /** What the name says; null where it has another form or names what the cell does not have. */
  readonly timed: TimedElement | null;
  readonly nameProblem: NameProblem | null;
  /** Normal time: each reading times its rating. */
  readonly normal: Summary;
  /** True where a rating is not 100. */
  readonly isRated: boolean;
  /** Mean normal time with the allowance; null where none is given. */
  readonly standardS: number | null;
  readonly outlierLimits: OutlierLimits | null;
  readonly outliers: readonly OutlierReading[];
  /** The figures without the outliers (or with them, where they are left out above); null where there is none. */
  readonly otherWay: Summary | null;
  /** (z s / (k mean))^2, rounded up; null with one reading. */
  readonly neededN: number | null;
  /** The same by Student's t, which allows for the deviation being an estimate; null with one reading. */
  readonly neededNByStudent: number | null;
  /** Readings still to be taken by Student's t; null with one reading. */
  readonly moreN: number | null;
  readonly foreign: ForeignElements | null;
  readonly trend: SessionTrend | null;
  readonly groups: readonly GroupFigures[];
  /** Of the normal times, in seconds. */
  readonly fit: FitChoice;
  /** What the tables of the cell have; null where no cell is given or its names do not fit. */
  readonly table: (Pick<TableTime, 'tableS' | 'problem'> & { readonly isOutside: boolean }) | null;
}

export interface ReadingsStudy {
  readonly elements: readonly ElementStudy[];
  /** Elements of which only foreign occurrences were written down. */
  readonly foreignOnly: readonly { readonly element: string; readonly foreign: ForeignElements }[];
  readonly totals: {
    readonly readings: number;
    readonly regular: number;
    readonly foreign: number;
    readonly observedS: number;
    /** Share of the observed time that went into foreign elements. */
    readonly foreignPct: number;
  };
  readonly scatters: readonly Scatter[];
  /** What the rows take for granted, in sentences. */
  readonly notes: readonly string[];
  /** Rows for the tables of the cell. */
  readonly tables: readonly ReadyTable[];
}

/** Observers or cells that are compared; with more of them nothing is. */
export const MOST_GROUPS = 12;

/**
 * @param readings in the order in which they were taken, one or more
 * @param cell the cell whose names and times they are held against; null for none
 * @throws RangeError for a reading that is not above 0
 */
export function studyReadings(
  readings: readonly StopwatchReading[],
  cell: Cell | null,
  options: ReadingsOptions = defaultReadingsOptions,
): ReadingsStudy {
  const byElement = groupedBy(readings, (r) => r.element);
  const studied = [...byElement].flatMap(([element, own]) =>
    own.some((r) => !r.foreign) ? [studyElement(element, own, cell, options)] : [],
  );
  const elements = studied.map((s) => s.study);
  const sources = studied.flatMap(({ study, values, time }) =>
    study.timed === null || time?.problem ? [] : [{ study, values, time, timed: study.timed }],
  );
  const scatters = pooledScatter(
    sources.map(({ study, values, timed }) => ({ element: study.element, timed, values, fit: study.fit })),
  );
  const measured = sources.map(({ study, time, timed }) => ({
    timed,
    meanS: study.normal.mean,
    sdS: study.normal.sd,
    steps: time?.steps ?? [],
  }));
  return {
    elements,
    foreignOnly: [...byElement].flatMap(([element, own]) =>
      own.every((r) => r.foreign) ? [{ element, foreign: foreignElements(own)! }] : [],
    ),
    totals: totalsOf(readings),
    scatters,
    notes: untimedAlternatives(measured),
    tables: readyRows(measured, scatters, cell),
  };
}

function groupedBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}

interface Studied {
  readonly study: ElementStudy;
  /** Normal times in the order of reading. */
  readonly values: readonly number[];
  readonly time: TableTime | null;
}

function studyElement(
  element: string,
  all: readonly StopwatchReading[],
  cell: Cell | null,
  options: ReadingsOptions,
): Studied {
  const confidence = options.confidencePct / 100;
  const regular = all.filter((r) => !r.foreign);
  const limits = outlierLimits(regular.map(normalOf), options.outlierRule);
  const isOut = (r: StopwatchReading): boolean =>
    limits !== null && (normalOf(r) < limits.low || normalOf(r) > limits.high);
  const kept = regular.filter((r) => !isOut(r));
  const [used, other] = options.dropOutliers ? [kept, regular] : [regular, kept];
  const values = used.map(normalOf);
  const figures = summary(
    used.map((r) => r.seconds),
    confidence,
  );
  const normal = summary(values, confidence);
  const { timed, problem: nameProblem } = readElementName(element, cell);
  const time = cell === null || timed === null ? null : tableTime(cell, timed);
  const study: ElementStudy = {
    element,
    ...figures,
    timed,
    nameProblem,
    normal,
    isRated: used.some((r) => r.ratingPct !== 100),
    standardS: options.allowance && standardTime(normal.mean, options.allowance.pct, options.allowance.basis),
    outlierLimits: limits,
    outliers: regular
      .filter(isOut)
      .map((r) => ({ seconds: r.seconds, line: r.at?.line ?? null, note: r.note })),
    otherWay:
      kept.length === regular.length
        ? null
        : summary(
            other.map((r) => r.seconds),
            confidence,
          ),
    ...needed(figures, options),
    foreign: foreignElements(all),
    trend: sessionTrend(values, confidence),
    groups: [...compared(used, 'observer', confidence), ...compared(used, 'cell', confidence)],
    fit: chooseFit(values),
    table: time && { tableS: time.tableS, problem: time.problem, isOutside: isOutside(time.tableS, normal) },
  };
  return { study, values, time };
}

function normalOf(reading: StopwatchReading): number {
  return normalTime(reading.seconds, reading.ratingPct);
}

function needed(
  { n, mean, sd }: Summary,
  options: ReadingsOptions,
): Pick<ElementStudy, 'neededN' | 'neededNByStudent' | 'moreN'> {
  if (sd === null) return { neededN: null, neededNByStudent: null, moreN: null };
  const byNormal = readingsByNormal(mean, sd, twoSidedZ(options.confidencePct), options.accuracyPct);
  const byStudent = readingsByStudent(mean, sd, options);
  return {
    neededN: Math.max(1, Math.ceil(byNormal)),
    neededNByStudent: byStudent,
    moreN: Math.max(0, byStudent - n),
  };
}

function compared(
  readings: readonly StopwatchReading[],
  by: 'observer' | 'cell',
  confidence: number,
): GroupFigures[] {
  const names = new Set(readings.map((r) => r[by]));
  return names.size > MOST_GROUPS ? [] : groupComparison(readings, by, normalOf, confidence);
}

function isOutside(tableS: number | null, { ciLow, ciHigh }: Summary): boolean {
  if (tableS === null || ciLow === null || ciHigh === null) return false;
  return tableS < ciLow || tableS > ciHigh;
}

function totalsOf(readings: readonly StopwatchReading[]): ReadingsStudy['totals'] {
  let [observedS, foreignS, foreign] = [0, 0, 0];
  for (const reading of readings) {
    observedS += reading.seconds;
    if (!reading.foreign) continue;
    foreignS += reading.seconds;
    foreign++;
  }
  return {
    readings: readings.length,
    regular: readings.length - foreign,
    foreign,
    observedS,
    foreignPct: observedS > 0 ? (100 * foreignS) / observedS : 0,
  };
}
