// The log of a simulated cell, as text, and what reading it gives.
import { LOG_DEFAULTS, LogAnalysis, type LogOptions } from '../../src/core/log/log-analysis.js';
import type { Moment } from '../../src/core/log/log-clock.js';
import { logFacts } from '../../src/core/log/log-facts.js';
import type { LogResult } from '../../src/core/log/log-result.js';
import { writeSimulatedLog } from '../../src/core/log/simulated-log.js';
import { summarizeLog } from '../../src/core/log/summarize-log.js';
import type { Cell } from '../../src/core/model/cell.js';
import { preparedJob } from '../../src/core/simulate/simulate-cell.js';
import { resolveOptions, type SimulateOptions } from '../../src/core/simulate/simulation-options.js';
import { LogReader, type LogReading } from '../../src/tables/log/log-reader.js';

export function simulatedLog(cell: Cell, options: SimulateOptions, start: Moment | null = null): string {
  const { job } = preparedJob(cell, resolveOptions({ warmupH: 0, losses: false, ...options }));
  let text = '';
  writeSimulatedLog(job, 0, start, (piece) => {
    text += piece;
  });
  return text;
}

export interface ReadLog {
  readonly result: LogResult;
  readonly analysis: LogAnalysis;
}

export const PLAIN_READING: LogReading = {
  file: 'run.csv',
  renames: new Map(),
  stations: null,
  zone: null,
  start: null,
};

/** Reads a text in pieces of a length that lies across lines. */
export function readLog(
  text: string,
  cell: Cell | null = null,
  options: Partial<LogOptions> = {},
  pattern: string | null = null,
  pieceLength = 4099,
): ReadLog {
  const shifts = cell === null ? [] : cell.shifts.filter((s) => s.pattern === pattern);
  const context = cell === null ? {} : { facts: logFacts(cell), shifts };
  const analysis = new LogAnalysis({ ...LOG_DEFAULTS, ...options }, context);
  const stations = cell === null ? null : cell.stations.map((s) => s.name);
  const reader = new LogReader({ ...PLAIN_READING, stations }, analysis);
  for (let at = 0; at < text.length; at += pieceLength) reader.push(text.slice(at, at + pieceLength));
  const { complaints, clock } = reader.end();
  if (clock === null || complaints.length > 0) throw new Error(JSON.stringify(complaints, null, 1));
  return { result: summarizeLog(analysis, clock), analysis };
}

/** Rows of the log with a header, from rows such as `10,mill,start`. */
export function logOf(rows: readonly string[], header = 'time,station,signal'): string {
  return `${header}\n${rows.join('\n')}\n`;
}
