// Speed of reading a log of a million rows, against csv-parse alone on the same text in the same run, and the memory
// that a log of ten times the length takes. The answers are checked: both must see every row, and the cycles found must
// be those of the cell that was simulated. Needs dist/ (npm run build).
import { parse } from 'csv-parse/sync';
import { LogAnalysis } from '../../../dist/core/log/log-analysis.js';
import { logFacts } from '../../../dist/core/log/log-facts.js';
import { writeSimulatedLog } from '../../../dist/core/log/simulated-log.js';
import { summarizeLog } from '../../../dist/core/log/summarize-log.js';
import { preparedJob } from '../../../dist/core/simulate/simulate-cell.js';
import { resolveOptions } from '../../../dist/core/simulate/simulation-options.js';
import { LogReader } from '../../../dist/tables/log/log-reader.js';
import { shopOfSix } from '../simulate/cells.mjs';

const ROWS = 1_000_000;
const CYCLE_S = 240;
const PASSES = 3;
const START = { epochMs: Date.UTC(2026, 9, 18, 22), offsetMin: 120 };

/** Pieces of a log of about so many hours, with moments as times. */
function logPieces(cell, hours) {
  const { job } = preparedJob(cell, resolveOptions({ program: 'first', hours, warmupH: 0, seed: 3 }));
  const pieces = [];
  const { records } = writeSimulatedLog(job, 0, START, (text) => pieces.push(text));
  return { pieces, records };
}

function readLog(cell, pieces, times = 1) {
  const log = new LogAnalysis(undefined, { facts: logFacts(cell) });
  const stations = cell.stations.map((s) => s.name);
  const reader = new LogReader({ file: 'log', renames: new Map(), stations, zone: null, start: null }, log);
  for (let i = 0; i < times; i++)
    for (const [at, piece] of pieces.entries())
      reader.push(i > 0 && at === 0 ? piece.slice(piece.indexOf('\n') + 1) : piece);
  const { clock } = reader.end();
  return summarizeLog(log, clock);
}

function secondsOf(work) {
  let best = Number.POSITIVE_INFINITY;
  for (let pass = 0; pass < PASSES; pass++) {
    const startMs = performance.now();
    work();
    best = Math.min(best, (performance.now() - startMs) / 1000);
  }
  return best;
}

function check(result, records) {
  if (result.records !== records) throw new Error(`${result.records} records read, ${records} written`);
  for (const { station, times } of result.stations) {
    if (!station.startsWith('machine')) continue;
    const { ciLow, ciHigh } = times.cycle;
    const slack = ciHigh - ciLow;
    if (CYCLE_S < ciLow - slack || CYCLE_S > ciHigh + slack)
      throw new Error(`cycles of ${station} from ${ciLow} to ${ciHigh}, expected ${CYCLE_S}`);
  }
}

function memoryAfter(work) {
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const kept = work();
  globalThis.gc?.();
  return { kept, megabytes: (process.memoryUsage().heapUsed - before) / 1e6 };
}

const cell = { ...shopOfSix(), setups: [] };
const sample = logPieces(cell, 24);
const { pieces, records } = logPieces(cell, Math.ceil((24 * ROWS) / sample.records));
check(readLog(cell, pieces), records);
const own = secondsOf(() => readLog(cell, pieces));
const text = pieces.join('');
if (parse(text).length !== records + 1) throw new Error('csv-parse sees another number of rows');
const bytes = Buffer.from(text);
const other = secondsOf(() => parse(bytes));
const perSecond = (seconds) => `${(records / seconds / 1e6).toFixed(2)} million rows a second`;
console.log(
  `${records} rows of ${(bytes.length / records).toFixed(0)} bytes, read and analysed: ${own.toFixed(2)} s, ${perSecond(own)}`,
);
console.log(
  `csv-parse alone, rows only: ${other.toFixed(2)} s, ${perSecond(other)}; ratio ${(other / own).toFixed(1)}`,
);
const short = memoryAfter(() => readLog(cell, pieces));
const long = memoryAfter(() => readLog(cell, pieces, 10));
if (long.kept.records !== 10 * records) throw new Error('rows of the long log are missing');
console.log(
  `Memory kept after ${records} rows ${short.megabytes.toFixed(1)} MB, after ${10 * records} rows ${long.megabytes.toFixed(1)} MB${globalThis.gc ? '' : ' (run node with --expose-gc for exact figures)'}`,
);
