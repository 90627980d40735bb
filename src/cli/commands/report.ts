/** `report`: everything about a cell as one page, with its tables beside it. */

import { basename, resolve } from 'node:path';
import { Option } from 'commander';
import type { CellComparison } from '../../core/compare/comparison.js';
import type { CostCaseOutcome } from '../../core/cost/result.js';
import type { Complaint } from '../../core/model/complaint.js';
import { currencyOf } from '../../core/model/cost-value.js';
import type { CsvForm } from '../../core/model/csv-form.js';
import { reportMix } from '../../core/report/report-parts.js';
import { assembleReport, type PartDone, type ReportResults } from '../../core/report/report-results.js';
import type { ScheduleFound } from '../../core/schedule/result.js';
import { cellsStudies } from '../../core/studies/cells-studies.js';
import { studies } from '../../core/studies/studies.js';
import { namedIn } from '../../render/figures-in-locale.js';
import { assumptionGroups, reportWarnings } from '../../render/report-page/closing-blocks.js';
import { renderReportAnswer } from '../../render/report-page/report-answer.js';
import { REPORT_BOOK, REPORT_FILES, reportBook, reportFiles } from '../../render/report-page/report-files.js';
import { type ReportFacts, reportView } from '../../render/report-page/report-view.js';
import { applySettings } from '../../tables/overrides/apply-settings.js';
import { shownTables } from '../../tables/shown-tables.js';
import { type ReportRun, runReport } from '../../workers/run-report.js';
import type { Answer } from '../answer.js';
import { type CommandBody, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { ON_THIS_THREAD, onPool } from '../on-pool.js';
import { csvFormAsked, csvOption, workersOption } from '../option-values.js';
import { writeRun } from '../outputs.js';
import { pageScript } from '../page-script.js';
import { liveProgress } from '../progress.js';
import {
  changesOf,
  checkTwice,
  csvFormIn,
  inputsOf,
  type ReadFolder,
  readFolders,
  tableWarnings,
  wrongAnswer,
} from '../read-folders.js';
import { searched, withSchedule } from '../schedule-outcome.js';
import { PROGRAM, programVersion } from '../version.js';
import { wrongInput } from '../wrong-input.js';

const DEFAULT_OUT = 'reports';

export const reportCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell, then folders to compare it with',
  options: () => [
    new Option(
      '--out <folder>',
      `folder to write into: report.html, the same as report.md, tables as CSV and as a workbook; with a name that ends in .xlsx or .ods, the workbook alone; default ${DEFAULT_OUT}`,
    ),
    csvOption(),
    workersOption(),
  ],
  writes: { option: 'out', kind: 'folder', names: REPORT_FILES, unasked: DEFAULT_OUT },
  examples: ['report my-cell', 'report my-cell --out my-report --set robot.hands=2'],
  run: async (_first, values, io) => {
    const folders = values.folders as readonly string[];
    checkTwice(folders);
    const read = await readFolders(folders, io);
    return wrongAnswer(read) ?? reportAnswer(read, values, io);
  },
};

async function reportAnswer(read: readonly ReadFolder[], values: OptionValues, io: Io): Promise<Answer> {
  const { cell, complaints, inputs, notes, readAs, layers } = read[0]!;
  const tables = Object.keys(layers?.tables ?? {});
  const csvForm = csvFormIn(read);
  const open = { cell: cell!, complaints, inputs, tables, csvForm, notes, readAs };
  const outcome = searched(open.cell, io);
  return withSchedule(outcome, open, async (schedule) => {
    const { grown, done } = await runParts(open.cell, schedule, values, io);
    const wrong = wrongCase(done);
    if (wrong !== null) return wrongInput(wrong, inputsOf(read));
    const mix = await reportMix({ cell: open.cell, schedule }, ON_THIS_THREAD);
    const results = assembleReport(open.cell, schedule, grown, done, await compared(read, values), mix);
    const form = csvFormAsked(values, csvForm);
    const answer = await written(results, factsOf(read, io), form, values, io);
    return { ...answer, inputs: inputsOf(read), named: namedIn(open.cell) };
  });
}

async function runParts(
  cell: ReportResults['cell'],
  schedule: ScheduleFound,
  values: OptionValues,
  io: Io,
): Promise<ReportRun> {
  const progress = liveProgress(io);
  try {
    return await runReport(
      { cell, schedule },
      {
        ...numbersOf(values, { workers: 'workers' }),
        onDone: (done, of) => progress.show(`Working out the report: ${done} of ${of} parts`),
      },
    );
  } finally {
    progress.end();
  }
}

async function compared(read: readonly ReadFolder[], values: OptionValues): Promise<CellComparison | null> {
  if (read.length < 2) return null;
  const variants = read.map(({ name, cell }) => ({
    name,
    cell: cell!,
    dispatch: 'best' as const,
  }));
  return onPool(values, (context) => cellsStudies.compare.run(variants, {}, context));
}

/** Values out of range are mended before anything is written. */
function wrongCase(done: readonly PartDone[]): readonly Complaint[] | null {
  const outcome = done.find(({ job }) => job.part === 'costCase')?.result as CostCaseOutcome | undefined;
  return outcome?.status === 'wrong' ? outcome.complaints : null;
}

function factsOf(read: readonly ReadFolder[], io: Io): ReportFacts {
  const settings = io.settings ?? [];
  const { folder, layers, cell, notes } = read[0]!;
  return {
    name: basename(resolve(io.cwd, folder)),
    currency: currencyOf(cell!),
    tables: shownTables(applySettings(layers!, settings)),
    files: inputsOf(read),
    program: `${PROGRAM} ${programVersion()}`,
    warnings: tableWarnings(read),
    notes,
    changes: changesOf(read, settings),
  };
}

async function written(
  results: ReportResults,
  facts: ReportFacts,
  form: CsvForm,
  values: OptionValues,
  io: Io,
): Promise<Omit<Answer, 'inputs'>> {
  const out = (values.out as string | undefined) ?? DEFAULT_OUT;
  const view = reportView(results, facts);
  const locale = (values.locale as string | undefined) ?? 'en';
  const files = reportFiles(view, pageScript(), { form, locale });
  const book = { name: REPORT_BOOK, content: reportBook(view) };
  const names = await writeRun({ command: 'report', out, files, book }, io);
  return {
    exit: EXIT.done,
    fields: { ...resultFields(results, facts), written: names },
    text: (style) => renderReportAnswer(view, names, style),
    warnings: reportWarnings(view),
    assumptions: [...facts.notes, ...assumptionGroups(view).flatMap(({ texts }) => texts)],
    noticesInFiles: true,
  };
}

/** What the page shows, by command, each as that command gives it. */
function resultFields(results: ReportResults, { changes }: ReportFacts): Record<string, unknown> {
  const { schedule, size, shifts, performance, patterns, simulation, points, jobs, mix } = results;
  const { costCase } = results;
  return {
    schedule: studies.schedule.fields(schedule),
    size: studies.size.fields(size),
    shifts:
      shifts === null ? null : { ...studies.shifts.fields({ ...shifts, performance }), simulated: patterns },
    simulate: studies.simulate.fields(simulation),
    mix: mix === null ? null : studies.mix.fields(mix),
    compare:
      results.comparison === null ? null : { ...cellsStudies.compare.fields(results.comparison), changes },
    costcase: costCase === null ? null : studies.costcase.fields(costCase),
    points: points === null ? null : studies.io.fields(points),
    jobs: jobs === null ? null : studies.jobs.fields(jobs),
  };
}
