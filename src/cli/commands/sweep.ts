/** `sweep`: any figure against one or two inputs, on all cores, whole or in parts. */
import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import { InvalidArgumentError, Option } from 'commander';
import { DEFAULT_JOB_NODES } from '../../core/jobs/plan-jobs.js';
import type { Cell } from '../../core/model/cell.js';
import type { CsvForm } from '../../core/model/csv-form.js';
import { cellFigures, DEFAULT_FIGURES, FIGURE_RESULTS, isFigurePath } from '../../core/sweep/cell-figures.js';
import { MOST_POINTS, readAxis, type SweepAxis } from '../../core/sweep/sweep-axis.js';
import { pointCount, type Shard, sweepPoints } from '../../core/sweep/sweep-points.js';
import { withoutEffect } from '../../core/sweep/without-effect.js';
import { type OutputFile, writeOutputBook, writeOutputFile } from '../../files/output-file.js';
import { readCellFolder } from '../../files/read-cell-folder.js';
import { complaintLines } from '../../render/complaint-lines.js';
import { renderSweep, type SweepTable, sweepBook, sweepCsv } from '../../render/sweep.js';
import { visibleText } from '../../render/visible-text.js';
import { highsSolver } from '../../solver/highs-solver.js';
import { csvFormOf } from '../../tables/csv-form-of.js';
import { nearestName } from '../../tables/nearest-name.js';
import { inspectLayers } from '../../tables/overrides/inspect-layers.js';
import type { PointResult } from '../../tables/overrides/point-figures.js';
import { pointSettings, sweptCosts } from '../../tables/overrides/point-settings.js';
import { workbookKind } from '../../workbook/workbook.js';
import { workbookBytes } from '../../workbook/write-workbook.js';
import { runSweep } from '../../workers/run-sweep.js';
import type { Answer } from '../answer.js';
import { type CommandBody, numberOf, numbersOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import type { Io } from '../io.js';
import { mergeSweeps } from '../merge-sweeps.js';
import { csvFormAsked, csvOption, numberOption, workersOption } from '../option-values.js';
import { outputFile } from '../outputs.js';
import { liveProgress } from '../progress.js';
import { UsageError } from '../usage-error.js';
import { programVersion } from '../version.js';
import { wrongInput } from '../wrong-input.js';

const AXES = 2;

export const sweepCommand: CommandBody = {
  argument: 'folder that holds the tables of the cell; not needed for --merge',
  options: () => [
    sweepOption(),
    new Option(
      '--figure <path>',
      `figure to work out, a path into the result of ${FIGURE_RESULTS.join(', ')}; may be given several times (default: ${DEFAULT_FIGURES.join(', ')}); figures of jobs, of simulations and of simulated rows or patterns may take seconds at each point`,
    ).argParser((text: string, before: readonly string[] = []) => [...before, text]),
    new Option(
      '--out <file>',
      'write all points into this file, as CSV or, where its name ends in .xlsx or .ods, as a workbook; Ctrl-C ends the sweep and writes the points that are done',
    ),
    csvOption(),
    new Option('--part <i/n>', 'work out only part i of n of the points, such as `3/16`').argParser(
      readShard,
    ),
    new Option('--merge <files...>', 'put the files of all parts together, CSV or workbooks, into --out'),
    workersOption(),
    numberOption(
      '--nodes <number>',
      'steps that the search may take at each point; default: as many as the command of the figure takes',
      { words: 'steps', min: 1, max: 1e9, whole: true },
    ),
  ],
  writes: { option: 'out', kind: 'file' },
  examples: [
    'sweep my-cell --sweep stations.mill_1.ready_s=0:20:5',
    'sweep my-cell --sweep robot.hands=1,2 --sweep stations.mill_1.ready_s=0:20:10 --out sweep.csv',
  ],
  run: async (folder, values, io) => {
    const merge = values.merge as string[] | undefined;
    if (merge !== undefined) return mergeAnswer(folder, merge, values, io);
    const axes = (values.sweep ?? []) as readonly SweepAxis[];
    checkUse(folder, axes);
    return sweepFolder(folder!, axes, values, io);
  },
};

function sweepOption(): Option {
  return new Option(
    '--sweep <path=values>',
    'input to change and its values, first:last:step or a list, such as `routes.<part>.<step>.cycle_s=180:300:20` or `robot.hands=1,2` (decimal commas: `0,5:2:0,5` or `"0,5;1;1,5"`); one or two inputs',
  ).argParser((text: string, before: readonly SweepAxis[] = []) => {
    const reading = readAxis(text);
    if (!reading.ok) throw new InvalidArgumentError(reading.fault);
    return [...before, reading.axis];
  });
}

function readShard(text: string): Shard {
  const [, part, of] = /^(\d{1,6})\/(\d{1,6})$/.exec(text) ?? [];
  const shard = { part: Number(part), of: Number(of) };
  if (shard.part >= 1 && shard.part <= shard.of) return shard;
  throw new InvalidArgumentError(
    `found \`${text}\`, expected a part and their number, such as \`1/4\` to \`4/4\``,
  );
}

function checkUse(folder: string | undefined, axes: readonly SweepAxis[]): void {
  if (folder === undefined)
    throw new UsageError(
      `A sweep needs a folder of tables. An example: \`roundsman ${sweepCommand.examples[0]}\`.`,
    );
  if (axes.length === 0)
    throw new UsageError(
      `Say with \`--sweep\` what to change. An example: \`roundsman ${sweepCommand.examples[0]}\`.`,
    );
  if (axes.length > AXES)
    throw new UsageError(`One or two inputs can be swept at once, ${axes.length} are given.`);
  if (axes.length === AXES && axes[0]!.path === axes[1]!.path)
    throw new UsageError(`The input \`${axes[0]!.path}\` is given twice; give each once.`);
  const points = pointCount(axes);
  if (points > MOST_POINTS)
    throw new UsageError(
      `This makes ${points} points, at most ${MOST_POINTS} are worked out; take larger steps.`,
    );
}

async function sweepFolder(
  folder: string,
  axes: readonly SweepAxis[],
  values: OptionValues,
  io: Io,
): Promise<Answer> {
  const settings = io.settings ?? [];
  const { cell, complaints, inputs, layers } = await readCellFolder(resolve(io.cwd, folder), settings);
  if (cell === null || layers === null) return wrongInput(complaints, inputs);
  const ends = endsOf(axes, settings).map((all) => inspectLayers(layers, all));
  const atEnds = ends.find((end) => end.cell === null);
  if (atEnds) return wrongInput(atEnds.complaints, inputs);
  const figures = (values.figure as string[] | undefined) ?? DEFAULT_FIGURES;
  const nodes = numberOf(values, 'nodes') ?? null;
  const progress = liveProgress(io);
  progress.show('Checking the figures …');
  const refused = await checkFigures(cell, figures, nodes).finally(progress.end);
  if (refused.length > 0) return wrongInput(refused, inputs);
  const shard = values.part as Shard | undefined;
  const points = sweepPoints(axes, shard);
  const paths = axes.map((axis) => axis.path);
  const task = { layers, settings, paths, figures, nodes, points };
  const stop = new AbortController();
  const takeBack = io.onInterrupt?.(() => stop.abort());
  const results = await runSweep(task, {
    onDone: (done) => progress.show(`${done} of ${points.length} points …`),
    ...numbersOf(values, { workers: 'workers' }),
    ...(takeBack === undefined ? {} : { signal: stop.signal }),
  }).finally(() => {
    progress.end();
    takeBack?.();
  });
  const stopped = results.length < points.length;
  const faulty = results.find((r) => r.status === null);
  if (faulty) return wrongInput(faulty.complaints, inputs);
  const mark = markOf([programVersion(), layers.tables, settings, axes, figures, nodes]);
  const table = tableOf(axes, figures, results, mark);
  const out = values.out as string | undefined;
  const form = csvFormAsked(values, csvFormOf(Object.values(layers.tables)));
  if (out !== undefined) await writeSweep(table, form, outputFile(out, io));
  const written = out === undefined ? '' : `\nWritten: ${visibleText(out)}.\n`;
  const reason = `The sweep was stopped: ${results.length} of ${points.length} points are done.`;
  return {
    exit: stopped ? EXIT.limitReached : EXIT.done,
    bestSoFar: stopped && results.length > 0,
    fields: {
      ...(stopped ? { status: 'stopped', reason } : {}),
      sweeps: axes,
      figures,
      points: table.points,
      ...(shard === undefined ? {} : { shard }),
      mark,
      rows: table.rows.map((row) => ({
        point: row.number,
        values: row.values,
        status: row.status,
        figures: row.figures,
      })),
      ...(out === undefined ? {} : { out }),
    },
    text: (style) =>
      stopped && results.length === 0 ? `${reason}\n` : `${renderSweep(table, style)}${written}`,
    inputs,
    assumptions: [
      ...inspectLayers(layers, settings).notes,
      ...sweptCosts(paths).map(
        (item) =>
          `The low and high of ${item} are left out, since the sweep sets its value; doubt about the other items stays.`,
      ),
      nodes === null
        ? 'At each point the search for the best sequence has the limits of the commands.'
        : `At each point the search for the best sequence takes at most ${nodes} steps; the commands take more, so their figures may differ.`,
      ...(figures.some((path) => path.startsWith('jobs.'))
        ? [
            `At each point the jobs are planned anew, as \`jobs\` does it; the search for each goal takes at most ${DEFAULT_JOB_NODES} steps.`,
          ]
        : []),
    ],
    warnings: [
      ...complaintLines(complaints),
      ...withoutEffect(paths, table.rows, cell),
      ...(stopped ? [reason] : []),
    ],
  };
}

async function writeSweep(table: SweepTable, form: CsvForm, to: OutputFile): Promise<void> {
  const kind = workbookKind(to.shown);
  if (kind === null) await writeOutputFile(to, sweepCsv(table, form));
  else await writeOutputBook(to, await workbookBytes(sweepBook(table), kind));
}

/** The first and the last value of each input: what a column refuses mostly shows there. */
function endsOf(axes: readonly SweepAxis[], settings: readonly string[]): string[][] {
  const paths = axes.map((axis) => axis.path);
  return [0, -1].map((end) =>
    pointSettings(
      paths,
      axes.map(({ values }) => values.at(end)!),
      settings,
    ),
  );
}

/** Names of figures are told wrong before the work starts. */
async function checkFigures(
  cell: Cell,
  figures: readonly string[],
  nodes: number | null,
): Promise<PointResult['complaints']> {
  const strange = figures.find((path) => !isFigurePath(path));
  if (strange !== undefined)
    throw new UsageError(
      `\`${strange}\` is no figure that can be swept: a path begins with ${FIGURE_RESULTS.map((n) => `\`${n}.\``).join(', ')} and goes on with the names of the result that \`--json\` prints; times of the run itself are left out.`,
    );
  const { picks, complaints, missing } = await cellFigures(cell, figures, {
    nodes,
    mixedSolver: highsSolver,
  });
  if (complaints.length > 0) return complaints;
  for (const [i, pick] of picks.entries()) {
    if (pick.ok) continue;
    const path = figures[i]!;
    const why = missing[path.split('.')[0]!];
    throw new UsageError(
      why === undefined ? figureFault(path, pick) : `\`${path}\` cannot be worked out. ${why}`,
    );
  }
  return [];
}

function figureFault(
  path: string,
  { followed, names }: { followed: string; names: readonly string[] },
): string {
  if (names.length === 0) return `\`${path}\` goes on after \`${followed}\`, which is one figure.`;
  const rest = path.slice(followed.length + 1);
  const near = rest === '' ? null : nearestName(rest.split('.')[0]!, names);
  const help = near === null ? `There are: ${names.slice(0, 20).join(', ')}.` : `Did you mean \`${near}\`?`;
  return rest === ''
    ? `\`${path}\` is not one figure; go on with one of: ${names.slice(0, 20).join(', ')}.`
    : `There is no \`${rest}\` in \`${followed}\`. ${help}`;
}

function markOf(parts: unknown): string {
  return createHash('sha256').update(JSON.stringify(parts)).digest('hex');
}

function tableOf(
  axes: readonly SweepAxis[],
  figures: readonly string[],
  results: readonly PointResult[],
  mark: string,
): SweepTable {
  return {
    paths: axes.map((axis) => axis.path),
    figures,
    points: pointCount(axes),
    mark,
    rows: results.map(({ number, values, status, figures: f }) => ({
      number,
      values,
      status: status!,
      figures: f,
    })),
  };
}

async function mergeAnswer(
  folder: string | undefined,
  files: readonly string[],
  values: OptionValues,
  io: Io,
): Promise<Answer> {
  const out = values.out as string | undefined;
  if (folder !== undefined || values.sweep !== undefined)
    throw new UsageError('`--merge` takes the files of the parts and `--out`, no folder and no `--sweep`.');
  const option = files.find((file) => file.startsWith('-'));
  if (option !== undefined)
    throw new UsageError(`\`--merge\` needs the files of the parts after it, found \`${option}\`.`);
  if (out === undefined) throw new UsageError('Say with `--out` into which file the parts are put together.');
  const { table, form } = await mergeSweeps(io.cwd, files);
  const { points } = table;
  await writeSweep(table, csvFormAsked(values, form), outputFile(out, io, files));
  return {
    exit: EXIT.done,
    fields: { merged: files, points, out },
    text: () => `${points} points of ${files.length} files. Written: ${visibleText(out)}.\n`,
    inputs: [],
  };
}
