/** The questions about several cells at once, by name; those about one cell are in studies.ts. */
import { type ComparedVariant, type CompareOptions, compareCells } from '../compare/compare-cells.js';
import type { CellComparison, ComparedCell } from '../compare/comparison.js';
import {
  type InvestOptions,
  type InvestOutcome,
  type InvestVariant,
  investCells,
} from '../compare/invest-cells.js';
import { studies } from './studies.js';
import { type Fields, plainFields } from './study-fields.js';
import type { StudyContext } from './study-inputs.js';

/** Cells asked about, options and result of each study. */
export interface CellsStudyTypes {
  readonly compare: [ComparedVariant, CompareOptions, CellComparison];
  /** The first is the cell that is there. */
  readonly invest: [InvestVariant, InvestOptions, InvestOutcome];
}

export type CellsStudyName = keyof CellsStudyTypes;

export interface CellsStudy<Asked, Options extends object, Result extends object> {
  readonly run: (cells: readonly Asked[], options: Options, context: StudyContext) => Promise<Result>;
  /** The result as `--json` prints it, without the lists of assumptions and warnings. */
  readonly fields: (result: Result) => Fields;
}

type CellsStudies = {
  readonly [Name in CellsStudyName]: CellsStudy<
    CellsStudyTypes[Name][0],
    CellsStudyTypes[Name][1],
    CellsStudyTypes[Name][2]
  >;
};

export const cellsStudies: CellsStudies = {
  compare: {
    run: compareCells,
    fields: ({ cells, ...comparison }) => ({ cells: cells.map(cellFields), ...plainFields(comparison) }),
  },
  invest: {
    run: investCells,
    fields: (outcome) =>
      outcome.status === 'found'
        ? { ...plainFields(outcome.investments), programs: outcome.programs }
        : { ...outcome },
  },
};

function cellFields({ name, dispatch, schedule, shifts, simulated }: ComparedCell): Fields {
  return {
    folder: name,
    dispatch,
    schedule:
      'order' in schedule ? { ...studies.schedule.fields(schedule), warnings: schedule.warnings } : schedule,
    shifts: shifts === null ? null : { patterns: shifts.patterns, best: shifts.best },
    simulated,
  };
}
