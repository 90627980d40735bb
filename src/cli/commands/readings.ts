/** `readings`: stopwatch readings to times with their uncertainty, distributions, and rows for the tables. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { Option } from 'commander';
import type { Cell } from '../../core/model/cell.js';
import type { CsvForm } from '../../core/model/csv-form.js';
import { OUTLIER_RULES, type OutlierRule, outlierRuleText } from '../../core/readings/outliers.js';
import type { StopwatchReading } from '../../core/readings/reading.js';
import { readingsAssumptions, readingsWarnings } from '../../core/readings/remarks.js';
import type { AllowanceBasis } from '../../core/readings/standard-time.js';
import {
  defaultReadingsOptions,
  type ReadingsOptions,
  type ReadingsStudy,
  studyReadings,
} from '../../core/readings/study-readings.js';
import { type CellFolder, readCellFolder } from '../../files/read-cell-folder.js';
import { readNamedFile, type TableFileRead } from '../../files/read-table-file.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { type ReadingsView, renderReadings } from '../../render/readings.js';
import { READINGS_BOOK, readingsBook, readingsCsv } from '../../render/readings-files.js';
import { plainStyle, type TextStyle } from '../../render/text-style.js';
import { csvFormOf } from '../../tables/csv-form-of.js';
import { elementNameText } from '../../tables/element-name-text.js';
import { nameHelp } from '../../tables/nearest-name.js';
import { quantities } from '../../tables/quantities.js';
import { readReadings } from '../../tables/readings-table.js';
import { FIGURES_FILE } from '../../tables/table-formats.js';
import { tableText } from '../../tables/table-text.js';
import { placedInBooks } from '../../workbook/place-in-book.js';
import { workbookKind } from '../../workbook/workbook.js';
import type { Answer } from '../answer.js';
import { type CommandBody, numberOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { withMeasuredFolder } from '../measured-folder.js';
import { csvFormAsked, csvOption, numberOption } from '../option-values.js';
import { UsageError } from '../usage-error.js';
import { wrongInput } from '../wrong-input.js';

export const readingsCommand: CommandBody = {
  argument: [
    'CSV file of stopwatch readings; `init` writes an example, readings.csv',
    'folder of the cell whose names and times they are held against',
  ],
  options: () => [
    numberOption(
      '--accuracy-pct <percent>',
      'how near each mean is to be known, to either side; default 5',
      quantities.perCentAbove0,
    ),
    numberOption('--confidence-pct <percent>', 'how surely; default 95', {
      words: 'per cent',
      min: 50,
      max: 99.99,
    }),
    new Option(
      '--outliers <rule>',
      'rule by which readings are named outliers: mad (far from the median in robust deviations) or fences (far outside the quartiles)',
    )
      .choices([...OUTLIER_RULES])
      .default('mad'),
    new Option('--drop-outliers', 'work out the figures without the outliers; they are named all the same'),
    numberOption('--allowance-pct <percent>', 'allowance for rest and small delays, for the standard time', {
      words: 'per cent',
      min: 0,
      max: 99,
    }),
    new Option(
      '--allowance-of <basis>',
      'what the allowance is a share of: the normal time, or the whole day',
    )
      .choices(['work', 'day'])
      .default('work'),
    new Option('--cell <name>', 'take only the readings of this cell'),
    new Option(
      '--out <folder>',
      'write the rows as tables into this folder, with the text and the figures, as CSV and as a workbook; with a name that ends in .xlsx or .ods, into one workbook; with a cell it becomes a variant of it that runs',
    ),
    csvOption(),
  ],
  writes: { option: 'out', kind: 'folder', names: [FIGURES_FILE, READINGS_BOOK, 'readings.txt'] },
  examples: [
    'readings my-cell/readings.csv',
    'readings my-cell/readings.csv my-cell --accuracy-pct 3 --out my-cell-measured',
  ],
  run: async (file, values, io) => {
    const folder = values.folder as string | undefined;
    const [read, cellFolder] = await Promise.all([
      readingsFile(resolve(io.cwd, file!)),
      folder === undefined ? null : readCellFolder(resolve(io.cwd, folder), io.settings),
    ]);
    const found = read.text === null ? null : readReadings(read.name, read.text);
    const own = [
      ...(read.complaint ? [read.complaint] : []),
      ...(read.complaints ?? []),
      ...(found?.complaints ?? []),
    ];
    const complaints = [...placedInBooks(read.places ?? new Map(), own), ...(cellFolder?.complaints ?? [])];
    const inputs = [...(read.input ? [read.input] : []), ...(cellFolder?.inputs ?? [])];
    if (!found?.readings || cellFolder?.cell === null) return wrongInput(complaints, inputs);
    const readings = ofCell(found.readings, values.cell as string | undefined);
    const warned = complaintLines(complaints);
    const tables = cellFolder?.layers?.tables ?? { [read.name]: read.text! };
    const form = csvFormAsked(values, csvFormOf(Object.values(tables)));
    return readingsAnswer(
      { readings, file: file!, folder: folder ?? null, cellFolder, form, inputs, warned },
      values,
      io,
    );
  },
};

/** A file of readings, or the sheet of that name in a workbook. */
async function readingsFile(path: string): Promise<TableFileRead> {
  const kind = workbookKind(path);
  if (kind === null || !existsSync(path)) return readNamedFile(path);
  const { readBookTable } = await import('../../files/read-book.js');
  return readBookTable(path, kind, 'readings.csv');
}

/** @throws UsageError for a cell that no reading names */
function ofCell(
  readings: readonly StopwatchReading[],
  asked: string | undefined,
): readonly StopwatchReading[] {
  if (asked === undefined) return readings;
  const own = readings.filter((r) => r.cell === asked);
  if (own.length > 0) return own;
  const names = [...new Set(readings.map((r) => r.cell))].filter((name) => name !== '');
  const help = nameHelp(asked, names, 'cells') ?? 'The column `cell` is empty.';
  throw new UsageError(`No reading is of a cell \`${asked}\`. ${help}`);
}

interface Task {
  readonly readings: readonly StopwatchReading[];
  readonly file: string;
  readonly folder: string | null;
  readonly cellFolder: CellFolder | null;
  readonly form: CsvForm;
  readonly inputs: Answer['inputs'];
  readonly warned: readonly string[];
}

async function readingsAnswer(task: Task, values: OptionValues, io: Io): Promise<Answer> {
  const cell = task.cellFolder?.cell ?? null;
  const options = optionsOf(values);
  const study = studyReadings(task.readings, cell, options);
  const view = { study, options, folder: task.folder };
  const { elements, foreignOnly, totals, tables } = study;
  const answer = {
    exit: EXIT.done,
    fields: {
      accuracyPct: options.accuracyPct,
      confidencePct: options.confidencePct,
      outlierRule: { name: options.outlierRule, text: outlierRuleText[options.outlierRule] },
      outliersDropped: options.dropOutliers,
      totals,
      elements,
      foreignOnly,
      tables,
    },
    text: (style: TextStyle) => renderReadings(view, style),
    inputs: task.inputs,
    assumptions: [...(task.cellFolder?.notes ?? []), ...readingsAssumptions(study, options)],
    warnings: [...task.warned, ...readingsWarnings(study, options), ...nameWarnings(study, cell)],
  };
  const { file, folder, cellFolder, form } = task;
  const measured = {
    command: 'readings',
    file,
    folder,
    cellInputs: cellFolder?.inputs ?? [],
    builds: folder !== null,
  } as const;
  return withMeasuredFolder(answer, measured, () => contentOf(view, form), values, io);
}

function optionsOf(values: OptionValues): ReadingsOptions {
  const pct = numberOf(values, 'allowancePct');
  return {
    accuracyPct: numberOf(values, 'accuracyPct') ?? defaultReadingsOptions.accuracyPct,
    confidencePct: numberOf(values, 'confidencePct') ?? defaultReadingsOptions.confidencePct,
    outlierRule: values.outliers as OutlierRule,
    dropOutliers: values.dropOutliers === true,
    allowance: pct === undefined ? null : { pct, basis: values.allowanceOf as AllowanceBasis },
  };
}

function nameWarnings({ elements }: ReadingsStudy, cell: Cell | null): string[] {
  return elements.flatMap(({ element, nameProblem }) =>
    nameProblem === null ? [] : [`${element}: ${elementNameText(nameProblem, cell)}`],
  );
}

function contentOf(view: ReadingsView, form: CsvForm) {
  const tables = Object.fromEntries(
    view.study.tables.map(({ file, header, rows }) => [file, tableText([header, ...rows], form)]),
  );
  const texts = {
    [FIGURES_FILE]: readingsCsv(view.study, form),
    'readings.txt': `\n${renderReadings(view, plainStyle)}`,
  };
  const warnings = readingsWarnings(view.study, view.options);
  return { tables, texts, book: { name: READINGS_BOOK, content: readingsBook(view, warnings) } };
}
