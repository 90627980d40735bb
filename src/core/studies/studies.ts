/**
 * The studies of a cell by name: every question that can be asked of one, with its options. Commands, sweep, report, the
 * library and a page ask here, so that one question has one answer whoever asks it.
 */
import { patternNames } from '../calendar/week-calendar.js';
import { comparePatterns, type PatternComparison } from '../compare/compare-patterns.js';
import type { CostCaseOptions } from '../cost/cost-case.js';
import type { CostCaseOutcome } from '../cost/result.js';
import { type PointsResult, points } from '../io/points.js';
import { jobsByCase, jobsLacking } from '../jobs/case-ways.js';
import type { WeeklyJobOptions, WeeklyJobs } from '../jobs/weekly-jobs.js';
import { type MixOptions, type ProductMix, productMix } from '../mix/product-mix.js';
import type { Cell } from '../model/cell.js';
import { type PatternPerformance, patternPerformance } from '../performance/pattern-performance.js';
import { bestSchedule, type ScheduleOptions } from '../schedule/best-schedule.js';
import type { ScheduleOutcome } from '../schedule/result.js';
import { type SetupOrderOptions, type SetupOrders, setupOrders } from '../setups/setup-orders.js';
import { type ShiftPatternOptions, type ShiftPatterns, shiftPatterns } from '../shifts/shift-patterns.js';
import { type ProgramStudyOptions, type SimulateStudy, studyPrograms } from '../simulate/study-programs.js';
import type { SizeOptions } from '../size/grown-cell.js';
import type { IdenticalMachines } from '../size/identical-machines.js';
import { sizeSearch } from '../size/size-search.js';
import { type RowSimulation, type SizeStudy, sizeStudy } from '../size/size-study.js';
import { cellCase } from '../standing/cell-case.js';
import { type Fields, plainFields, scheduleFields, simulationFields } from './study-fields.js';
import { type StudyContext, type StudyInputs, sequenceOf } from './study-inputs.js';

export interface ShiftStudy extends ShiftPatterns {
  readonly performance: readonly PatternPerformance[];
}

export interface SimulateStudyOptions extends ProgramStudyOptions {
  /** null = day and night. */
  readonly pattern: string | null;
}

export interface SizeStudyOptions extends Omit<SizeOptions, 'cell' | 'identical'> {
  /** Figures of one machine, of which the cell is made up; null = the cell's machines are its own. */
  readonly figures: IdenticalMachines | null;
  /** How each row is simulated; null = not at all. */
  readonly simulation: RowSimulation | null;
  /** Nodes of each search; null = as many as `size` takes. */
  readonly nodes: number | null;
}

export interface CostStudyOptions extends CostCaseOptions {
  /** Pattern of the week that the floor's part of the case runs; default the first of shifts.csv. */
  readonly pattern?: string;
  /** Leave out what does not move the decision (see cellCase); default false. */
  readonly decisionOnly?: boolean;
}

/** Options and result of each study. */
export interface StudyTypes {
  readonly schedule: [ScheduleOptions, ScheduleOutcome];
  readonly shifts: [ShiftPatternOptions, ShiftStudy];
  /** The shift patterns simulated. */
  readonly patterns: [Parameters<typeof comparePatterns>[2], PatternComparison];
  readonly size: [SizeStudyOptions, SizeStudy];
  readonly simulate: [SimulateStudyOptions, SimulateStudy];
  readonly mix: [MixOptions, ProductMix];
  readonly costcase: [CostStudyOptions, CostCaseOutcome];
  readonly io: [object, PointsResult];
  readonly jobs: [Partial<WeeklyJobOptions>, WeeklyJobs];
  readonly setups: [SetupOrderOptions, SetupOrders];
}

export type StudyName = keyof StudyTypes;

export interface Study<Options extends object, Result extends object> {
  /** The options where nothing is asked; what is not among them is as the engine's own options say. */
  readonly defaults: (cell: Cell) => Options;
  /** What the tables lack for it, in words; null where it can be worked out. */
  readonly lacking: (cell: Cell) => string | null;
  readonly run: (inputs: StudyInputs, options: Options, context: StudyContext) => Result | Promise<Result>;
  /** The result as `--json` prints it, without the lists of assumptions and warnings. */
  readonly fields: (result: Result) => Fields;
}

/** Machines that are tried where only the figures of one are given, and no number. */
export const MOST_BY_FIGURES = 8;

type Studies = { readonly [Name in StudyName]: Study<StudyTypes[Name][0], StudyTypes[Name][1]> };

const noDefaults = (): object => ({});
const nothingLacking = (): null => null;
const noShifts = ({ shifts }: Cell): string | null => (shifts.length > 0 ? null : 'shifts.csv has no shift.');

export const studies: Studies = {
  schedule: {
    defaults: () => ({ whatIf: true }),
    lacking: nothingLacking,
    run: ({ cell }, options) => bestSchedule(cell, options),
    fields: scheduleFields,
  },
  shifts: {
    defaults: () => ({ program: 'best' }),
    lacking: noShifts,
    run: (inputs, options, { onProgress }) => {
      const weeks = shiftPatterns(inputs.cell, sequenceOf(inputs), options, onProgress);
      return { ...weeks, performance: weeks.patterns.map((week) => patternPerformance(inputs.cell, week)) };
    },
    fields: plainFields,
  },
  patterns: {
    defaults: () => ({ program: 'best' }),
    lacking: noShifts,
    run: (inputs, options, context) => comparePatterns(inputs.cell, sequenceOf(inputs), options, context),
    fields: plainFields,
  },
  size: {
    defaults: () => ({ order: 'best', figures: null, simulation: {}, nodes: null }),
    lacking: nothingLacking,
    run: ({ cell }, { simulation, nodes, figures, ...sizing }, context) =>
      sizeStudy(
        figures === null
          ? { ...sizing, cell }
          : { maxMachines: MOST_BY_FIGURES, ...sizing, identical: figures },
        nodes === null
          ? sizeSearch(figures === null ? cell : null)
          : (one) => bestSchedule(one, { nodeLimit: nodes, improvements: false }),
        simulation,
        context,
      ),
    fields: plainFields,
  },
  simulate: {
    defaults: ({ shifts }) => ({ pattern: patternNames(shifts)[0] ?? null }),
    lacking: nothingLacking,
    run: ({ cell, schedule }, { pattern, ...options }, context) =>
      studyPrograms(cell, schedule, pattern, options, context),
    fields: simulationFields,
  },
  mix: {
    defaults: noDefaults,
    lacking: nothingLacking,
    run: async ({ cell }, options, { mixedSolver, onProgress }) =>
      productMix(cell, await mixedSolver(), options, onProgress),
    fields: plainFields,
  },
  costcase: {
    defaults: noDefaults,
    lacking: nothingLacking,
    run: (inputs, { pattern, decisionOnly = false, ...options }, { onProgress }) => {
      const standing = {
        ...(pattern === undefined ? {} : { pattern }),
        ...(onProgress === undefined ? {} : { onProgress }),
      };
      return cellCase(inputs.cell, sequenceOf(inputs), decisionOnly, standing, options);
    },
    fields: plainFields,
  },
  io: {
    defaults: noDefaults,
    lacking: ({ signals }) => (signals.length > 0 ? null : 'signals.csv has no signal to count.'),
    run: ({ cell }) => points(cell),
    fields: plainFields,
  },
  jobs: {
    defaults: noDefaults,
    lacking: (cell) => jobsLacking(cell),
    run: async ({ cell, schedule }, options, { mixedSolver, onProgress }) =>
      jobsByCase(cell, schedule, await mixedSolver(), options, onProgress),
    fields: plainFields,
  },
  setups: {
    defaults: noDefaults,
    lacking: ({ setups }) => (setups.length > 0 ? null : 'setups.csv has no row to put in order.'),
    run: ({ cell }, options) => setupOrders(cell, options),
    fields: plainFields,
  },
};

/**
 * Answers one question about a cell.
 *
 * @param asked the options that are not the defaults
 * @throws RangeError where the study needs a sequence and there is none, or an option is out of its range
 */
export async function runStudy<Name extends StudyName>(
  name: Name,
  inputs: StudyInputs,
  asked: Partial<StudyTypes[Name][0]>,
  context: StudyContext,
): Promise<StudyTypes[Name][1]> {
  const study: Study<StudyTypes[Name][0], StudyTypes[Name][1]> = studies[name];
  return study.run(inputs, { ...study.defaults(inputs.cell), ...asked }, context);
}
