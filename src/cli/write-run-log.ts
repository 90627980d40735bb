/** Writes one run of the simulation as a log of signals, for `simulate --log`. */
import type { Moment } from '../core/log/log-clock.js';
import type { Cell } from '../core/model/cell.js';
import type { CsvForm } from '../core/model/csv-form.js';
import { preparedJob } from '../core/simulate/simulate-cell.js';
import { resolveOptions, type SimulateOptions } from '../core/simulate/simulation-options.js';
import { writeOutputPieces } from '../files/output-file.js';
import { reasonOf } from '../files/system-reason.js';
import { WriteError } from '../files/write-error.js';
import { visibleText } from '../render/visible-text.js';
import { runLog } from '../workers/run-log.js';
import type { OptionValues } from './command-spec.js';
import type { Io } from './io.js';
import { outputFile } from './outputs.js';
import { UsageError } from './usage-error.js';

export interface LogWritten {
  readonly file: string;
  readonly records: number;
  readonly hours: number;
}

interface LogAsked {
  readonly values: OptionValues;
  readonly io: Io;
  readonly form: CsvForm;
}

/**
 * @returns null where no log is asked for
 * @throws UsageError for a start that is no Monday 00:00, or one without a log
 */
export async function writeRunLog(
  cell: Cell,
  options: SimulateOptions,
  { values, io, form }: LogAsked,
): Promise<LogWritten | null> {
  const file = values.log as string | undefined;
  const start = (values.logStart as Moment | undefined) ?? null;
  if (file === undefined) {
    if (start === null) return null;
    throw new UsageError(
      '`--log-start` says when the log of `--log` begins; name the file with `--log` too.',
    );
  }
  if (start !== null && options.openSpans !== undefined) checkMonday(start);
  const { job } = preparedJob(cell, resolveOptions({ ...options, warmupH: 0 }));
  const to = outputFile(file, io);
  const records = await writeOutputPieces(to, async (path) => {
    const result = await runLog({ job, start, form, path });
    if ('failed' in result) throw new WriteError(to.path, reasonOf(result.failed));
    return result.records;
  });
  return { file: visibleText(file), records, hours: job.shiftsS.reduce((sum, s) => sum + s, 0) / 3600 };
}

function checkMonday({ epochMs, offsetMin }: Moment): void {
  const local = new Date(epochMs + offsetMin * 60_000).toISOString();
  if (new Date(epochMs + offsetMin * 60_000).getUTCDay() === 1 && local.slice(11, 19) === '00:00:00') return;
  throw new UsageError(
    `The log of a shift pattern begins on a Monday at 00:00; \`--log-start\` gives ${local.slice(0, 16).replace('T', ' ')}.`,
  );
}
