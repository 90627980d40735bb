/** The common way of commands on a folder: read the cell, or end with its complaints. */
import { resolve } from 'node:path';
import type { Cell } from '../core/model/cell.js';
import type { Complaint } from '../core/model/complaint.js';
import { currencyOf } from '../core/model/cost-value.js';
import type { CsvForm } from '../core/model/csv-form.js';
import { readCellFolder } from '../files/read-cell-folder.js';
import type { InputFile } from '../files/read-table-file.js';
import { complaintLines } from '../render/complaint-lines.js';
import { namedIn } from '../render/figures-in-locale.js';
import type { ReadAs } from '../tables/complaint-list.js';
import { csvFormOf } from '../tables/csv-form-of.js';
import type { Answer, AnswerTables } from './answer.js';
import type { Io } from './io.js';
import { wrongInput } from './wrong-input.js';

export interface OpenCell {
  readonly cell: Cell;
  readonly complaints: readonly Complaint[];
  readonly inputs: readonly InputFile[];
  /** Names of the tables that the cell has, in its folder, workbook or base, such as `signals.csv`. */
  readonly tables: readonly string[];
  /** In which form they are written; a workbook has none of its own. */
  readonly csvForm: CsvForm;
  /** What was changed for this run, and which folders it builds on. */
  readonly notes: readonly string[];
  /** What was read as something else than it says. */
  readonly readAs: readonly ReadAs[];
}

/** What a command says of a cell; what goes with every such answer is added where it does not say otherwise. */
export interface CellAnswer extends Omit<Answer, 'inputs' | 'tables'> {
  readonly inputs?: Answer['inputs'];
  readonly tables?: () => Pick<AnswerTables, 'sentences' | 'tables'>;
  /** Beside those of the tables, which are told here unless the answer brings complaints of its own. */
  readonly warnings?: readonly string[];
}

/** Runs `work` on the cell of a folder; with an error in its tables nothing is computed and all complaints are told. */
export async function cellAnswer(
  folder: string,
  io: Io,
  work: (open: OpenCell) => CellAnswer | Promise<CellAnswer>,
): Promise<Answer> {
  const { cell, complaints, inputs, notes, readAs, layers } = await readCellFolder(
    resolve(io.cwd, folder),
    io.settings,
  );
  if (cell === null) return wrongInput(complaints, inputs);
  const tables = Object.keys(layers?.tables ?? {});
  const csvForm = csvFormOf(Object.values(layers?.tables ?? {}));
  const open: OpenCell = { cell, complaints, inputs, tables, csvForm, notes, readAs };
  const { tables: found, ...answer } = await work(open);
  const told = answer.complaints === undefined ? complaintLines(complaints) : [];
  return {
    named: namedIn(cell),
    inputs,
    ...answer,
    ...(found ? { tables: () => ({ ...found(), form: csvForm, currency: currencyOf(cell) }) } : {}),
    warnings: [...told, ...(answer.warnings ?? [])],
    notes: notes.length,
    assumptions: [...notes, ...(answer.assumptions ?? [])],
  };
}

export interface HandsChoice {
  readonly cell: Cell;
  readonly assumptions: readonly string[];
}

/** The cell with the number of hands of the command line, and what is to be said about it. */
export function withHands(cell: Cell, hands: number | undefined): HandsChoice {
  if (hands === undefined || hands === cell.robot.hands) return { cell, assumptions: [] };
  const robot = { ...cell.robot, hands: hands === 2 ? (2 as const) : (1 as const) };
  const index = hands === 2 ? `, which turn in ${robot.indexS} s (index_s of robot.csv)` : '';
  return {
    cell: { ...cell, robot },
    assumptions: [
      `${hands === 1 ? 'Single' : 'Dual'} gripper${index}, as the command line says; robot.csv has hands ${cell.robot.hands}.`,
    ],
  };
}
