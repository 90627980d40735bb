/** `log`: what a log of signals says of cycles, waits, stops and parts. */
import { basename, resolve } from 'node:path';
import { InvalidArgumentError, Option } from 'commander';
import { knownZone } from '../../core/calendar/zoned-week.js';
import { LOG_DEFAULTS, LogAnalysis, type LogContext, type LogOptions } from '../../core/log/log-analysis.js';
import type { Moment } from '../../core/log/log-clock.js';
import { logFacts } from '../../core/log/log-facts.js';
import type { LogResult } from '../../core/log/log-result.js';
import { summarizeLog } from '../../core/log/summarize-log.js';
import type { Cell } from '../../core/model/cell.js';
import type { Complaint } from '../../core/model/complaint.js';
import type { CsvForm } from '../../core/model/csv-form.js';
import { readPieces } from '../../files/read-pieces.js';
import type { InputFile } from '../../files/read-table-file.js';
import type { Encoding } from '../../files/text-decoder.js';
import { renderLog } from '../../render/log.js';
import { type AgainstView, renderAgainst } from '../../render/log-against.js';
import { LOG_BOOK, logBook, logCsv } from '../../render/log-files.js';
import { pieces } from '../../render/text-section.js';
import { plainStyle, type TextStyle } from '../../render/text-style.js';
import { inCsvForm } from '../../tables/in-csv-form.js';
import { LogReader, type LogReading } from '../../tables/log/log-reader.js';
import { pasteText } from '../../tables/overrides/changed-rows.js';
import { LOG_FIGURES_FILE } from '../../tables/table-formats.js';
import type { Answer } from '../answer.js';
import { cellAnswer, type OpenCell } from '../cell-answer.js';
import { type CommandBody, numberOf, type OptionValues } from '../command-spec.js';
import { EXIT } from '../exit-codes.js';
import { holdAgainst } from '../hold-against.js';
import type { Io } from '../io.js';
import { withMeasuredFolder } from '../measured-folder.js';
import { momentOption } from '../moment-option.js';
import { csvFormAsked, csvOption, numberOption } from '../option-values.js';
import { patternOf } from '../pattern-option.js';
import { liveProgress } from '../progress.js';
import { UsageError } from '../usage-error.js';
import { wrongInput } from '../wrong-input.js';

export const logCommand: CommandBody = {
  argument: [
    'log of signals, a CSV file with the columns time,station,signal (and value, part)',
    'folder that holds the tables of the cell: its stations, shifts, and the estimate to hold against',
  ],
  options: () => [
    new Option(
      '--rename <theirs=ours>',
      'a signal or station that the log calls otherwise, such as `cycle_running=start`; may be given several times',
    ).argParser(readRename),
    new Option(
      '--zone <name>',
      'time zone of times without one, and of the shifts, such as Europe/Berlin; default: the zone in which the log begins',
    ),
    momentOption(
      '--start <moment>',
      'for a log in seconds: the moment of second 0, such as 2026-10-19T00:00:00+02:00; without it no shifts are shown',
    ),
    new Option('--pattern <name>', 'shift pattern that was worked; default: the first of shifts.csv'),
    numberOption(
      '--window-s <seconds>',
      `how late a record may be and still be put in its place; default ${LOG_DEFAULTS.windowS}`,
      { words: 'seconds', min: 0, max: 3600 },
    ),
    numberOption(
      '--gap-min <minutes>',
      `silence that counts as a gap of the log; default ${LOG_DEFAULTS.gapS / 60}`,
      { words: 'minutes', min: 0, aboveMin: true, max: 1e6 },
    ),
    numberOption(
      '--bounce-ms <number>',
      `edges of one signal closer than this are bounces; default ${1000 * LOG_DEFAULTS.bounceS}`,
      { words: 'milliseconds', min: 0, max: 60_000 },
    ),
    numberOption('--confidence-pct <percent>', 'confidence of the intervals; default 95', {
      words: 'per cent',
      min: 50,
      max: 99.9999,
    }),
    new Option(
      '--against',
      'hold the estimate of the folder against the log: what is off, what the schedule gives with the measured values, rows to paste',
    ),
    new Option(
      '--out <folder>',
      'write this text and all measured times, as CSV and as a workbook, into this folder, or, where its name ends in .xlsx or .ods, into one workbook; with --against also the rows for the tables, so that it is a cell that builds on the folder',
    ),
    csvOption(),
  ],
  writes: { option: 'out', kind: 'folder', names: [LOG_FIGURES_FILE, LOG_BOOK, 'log.txt'] },
  examples: ['log my-cell/log.csv my-cell', 'log my-cell/log.csv my-cell --against --out my-cell-logged'],
  run: async (file, values, io) => {
    const folder = values.folder as string | undefined;
    checkUse(folder, values);
    if (folder === undefined) return logAnswer(file!, null, values, io);
    return cellAnswer(folder, io, (open) => logAnswer(file!, { folder, open }, values, io));
  },
};

function readRename(
  text: string,
  before: ReadonlyMap<string, string> = new Map(),
): ReadonlyMap<string, string> {
  const at = text.indexOf('=');
  const [theirs, ours] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 1 || theirs === '' || ours === '')
    throw new InvalidArgumentError(
      `found \`${text}\`, expected their name, \`=\` and ours, such as \`cycle_running=start\``,
    );
  return new Map([...before, [theirs, ours]]);
}

function checkUse(folder: string | undefined, values: OptionValues): void {
  for (const name of ['pattern', 'against'] as const)
    if (folder === undefined && values[name] !== undefined)
      throw new UsageError(`\`--${name}\` needs the folder of the cell: name it after the log.`);
}

interface LogOpened {
  readonly result: LogResult;
  readonly analysis: LogAnalysis;
  readonly input: InputFile;
  readonly form: CsvForm;
  readonly assumptions: readonly string[];
}

interface OfCell {
  readonly folder: string;
  readonly open: OpenCell;
}

async function logAnswer(file: string, of: OfCell | null, values: OptionValues, io: Io): Promise<Answer> {
  const opened = await openLog(file, of?.open.cell ?? null, values, io);
  const inputs = of?.open.inputs ?? [];
  if ('complaints' in opened) return wrongInput(opened.complaints, inputs);
  const { assumptions, warnings, ...fields } = opened.result;
  const against = of !== null && values.against === true ? await againstLog(of, opened, values, io) : null;
  const text = (style: TextStyle): string =>
    pieces(renderLog(opened.result, style), against !== null && renderAgainst(against, style));
  const form = csvFormAsked(values, of?.open.csvForm ?? opened.form);
  const answer = {
    exit: EXIT.done,
    fields: { ...fields, ...(against === null ? {} : { against }) },
    text,
    inputs: [opened.input, ...inputs],
    assumptions: [...opened.assumptions, ...assumptions],
    warnings,
  };
  const measured = {
    command: 'log',
    file,
    folder: of?.folder ?? null,
    cellInputs: inputs,
    builds: against !== null,
  } as const;
  const content = () => contentOf(opened.result, against, form, text(plainStyle));
  return withMeasuredFolder(answer, measured, content, values, io);
}

function contentOf(result: LogResult, against: AgainstView | null, form: CsvForm, text: string) {
  const tables = (against?.rows ?? []).map(
    (table) => [table.file, inCsvForm(pasteText(table), form)] as const,
  );
  return {
    tables: Object.fromEntries(tables),
    texts: { [LOG_FIGURES_FILE]: logCsv(result, form), 'log.txt': `\n${text}` },
    book: { name: LOG_BOOK, content: logBook(result) },
  };
}

function againstLog(
  { folder, open }: OfCell,
  { result, analysis }: LogOpened,
  values: OptionValues,
  io: Io,
): Promise<AgainstView> {
  const { cell } = open;
  const pattern = patternOf(cell, values.pattern as string | undefined);
  return holdAgainst({ cell, folder, pattern, result, analysis }, io);
}

async function openLog(
  file: string,
  cell: Cell | null,
  values: OptionValues,
  io: Io,
): Promise<LogOpened | { readonly complaints: readonly Complaint[] }> {
  const analysis = new LogAnalysis(optionsOf(values), contextOf(cell, values));
  const reader = new LogReader(readingOf(file, cell, values), analysis);
  const progress = liveProgress(io);
  let read = 0;
  const pieces = await readPieces(resolve(io.cwd, file), (piece) => {
    read += piece.length;
    progress.show(`Reading the log: ${Math.round(read / 1e6)} MB`);
    return reader.push(piece);
  });
  progress.end();
  if ('code' in pieces) return { complaints: [pieces] };
  const { complaints, clock } = reader.end();
  if (complaints.length > 0 || clock === null) return { complaints };
  const { input, encoding } = pieces;
  const form = reader.csvForm();
  return {
    result: summarizeLog(analysis, clock),
    analysis,
    input,
    form,
    assumptions: encodingText(encoding),
  };
}

function encodingText(encoding: Encoding): string[] {
  if (encoding === 'UTF-8') return [];
  return [
    `The log is not UTF-8, so it was read as ${encoding} (which holds Latin-1); look at the names with letters beyond a to z.`,
  ];
}

/** @throws UsageError where the options contradict each other */
function optionsOf(values: OptionValues): LogOptions {
  const [gapMin, bounceMs, confidencePct] = [
    numberOf(values, 'gapMin'),
    numberOf(values, 'bounceMs'),
    numberOf(values, 'confidencePct'),
  ];
  const options = {
    windowS: numberOf(values, 'windowS') ?? LOG_DEFAULTS.windowS,
    gapS: gapMin === undefined ? LOG_DEFAULTS.gapS : 60 * gapMin,
    bounceS: bounceMs === undefined ? LOG_DEFAULTS.bounceS : bounceMs / 1000,
    confidence: confidencePct === undefined ? LOG_DEFAULTS.confidence : confidencePct / 100,
  };
  if (options.windowS >= options.gapS || options.bounceS >= options.gapS)
    throw new UsageError('`--gap-min` must be longer than `--window-s` and `--bounce-ms`.');
  return options;
}

function contextOf(cell: Cell | null, values: OptionValues): LogContext {
  const zone = zoneOf(values);
  if (cell === null) return { zone };
  const pattern = patternOf(cell, values.pattern as string | undefined);
  return {
    facts: logFacts(cell),
    shifts: cell.shifts.filter((s) => s.pattern === pattern),
    zone,
    slowAttended: cell.robot.attendedSpeedPct < 100,
  };
}

function readingOf(file: string, cell: Cell | null, values: OptionValues): LogReading {
  return {
    file: basename(file),
    renames: (values.rename as ReadonlyMap<string, string> | undefined) ?? new Map(),
    stations: cell?.stations.map((s) => s.name) ?? null,
    zone: zoneOf(values),
    start: (values.start as Moment | undefined) ?? null,
  };
}

/** @throws UsageError for a zone that is not known */
function zoneOf(values: OptionValues): string | null {
  const zone = values.zone as string | undefined;
  if (zone === undefined) return null;
  try {
    return knownZone(zone);
  } catch (error) {
    if (error instanceof RangeError) throw new UsageError(`For \`--zone\`: ${error.message}.`);
    throw error;
  }
}
