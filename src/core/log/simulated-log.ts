/**
 * Writes a run of the simulation as a log of signals, as a controller would have kept it: `time,station,signal,part`,
 * rising by time. The run starts with an empty cell at the first moment of the pattern's week.
 */
import type { ReplicationResult } from '../floor/floor-run.js';
import { openCalendar } from '../floor/open-calendar.js';
import { type CsvForm, PLAIN_CSV } from '../model/csv-form.js';
import { guarded } from '../model/formula-guard.js';
import { LOG_SIGNALS } from '../model/log-signals.js';
import { type ReplicationJob, runTraced } from '../simulate/replication-job.js';
import { type Moment, offsetText } from './log-clock.js';
import { Names } from './names.js';
import { RecordQueue } from './record-queue.js';

/** Characters gathered before they are written. */
const CHUNK = 1 << 16;
const DAY_MS = 86_400_000;

/**
 * @param start moment of the first Monday 00:00 (without a pattern: of the begin); null = times are seconds after it
 * @param write takes the text piece by piece
 * @param form separator and decimal mark
 * @returns the run's tallies, and the number of records written
 */
export function writeSimulatedLog(
  job: ReplicationJob,
  replication: number,
  start: Moment | null,
  write: (text: string) => void,
  form: CsvForm = PLAIN_CSV,
): { readonly run: ReplicationResult; readonly records: number } {
  const [stations, parts] = [new Names(), new Names()];
  const { separator, decimal } = form;
  const timeText = start === null ? (s: number) => s.toFixed(3).replace('.', decimal) : momentWriter(start);
  let text = `${['time', 'station', 'signal', 'part'].join(separator)}\n`;
  let records = 0;
  const queue = new RecordQueue((timeS, _clockS, station, signal, part) => {
    records++;
    text += `${timeText(timeS)}${separator}${inCsv(stations.list[station]!)}${separator}${LOG_SIGNALS[signal]}${separator}${inCsv(parts.list[part]!)}\n`;
    if (text.length < CHUNK) return;
    write(text);
    text = '';
  });
  const run = runTraced(job, replication, (timeS, what, station, part, nowS) => {
    queue.releaseBefore(nowS);
    queue.add(timeS, 0, stations.numberOf(station), LOG_SIGNALS.indexOf(what), parts.numberOf(part), 0);
  });
  const openS = job.warmupS + job.shiftsS.reduce((sum, s) => sum + s, 0);
  queue.releaseBefore(momentAfter(job, openS) + 1e-9);
  write(text);
  return { run, records };
}

/** A name with a comma or a quotation mark is set in quotation marks; none runs as a formula. */
function inCsv(name: string): string {
  const text = guarded(name);
  return /[",;#\s]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The moment at which so many open hours have passed, in seconds after Monday 00:00. */
function momentAfter({ openSpans }: ReplicationJob, openS: number): number {
  return openSpans === null ? openS : openCalendar(openSpans).clock.openEnd(0, openS);
}

function momentWriter({ epochMs, offsetMin }: Moment): (seconds: number) => string {
  const zone = offsetText(offsetMin);
  const firstMs = epochMs + offsetMin * 60_000;
  let day = Number.NaN;
  let date = '';
  return (seconds) => {
    const ms = firstMs + Math.round(seconds * 1000);
    const now = Math.floor(ms / DAY_MS);
    if (now !== day) {
      day = now;
      date = new Date(day * DAY_MS).toISOString().slice(0, 11);
    }
    return `${date}${timeOfDay(ms - day * DAY_MS)}${zone}`;
  };
}

function timeOfDay(ms: number): string {
  const two = (n: number): string => (n < 10 ? `0${n}` : String(n));
  const second = Math.floor(ms / 1000);
  const minute = Math.floor(second / 60);
  const rest = String(ms - second * 1000).padStart(3, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}:${two(second % 60)}.${rest}`;
}
