/**
 * Reads the text of a log piece by piece and hands its records to an analysis. Memory stays fixed: nothing is kept but
 * the piece of a line at the end of a piece, the names, and the first complaints of each kind.
 */
import type { LogAnalysis } from '../../core/log/log-analysis.js';
import type { LogClock, Moment } from '../../core/log/log-clock.js';
import { recordCode } from '../../core/log/signals.js';
import type { Complaint } from '../../core/model/complaint.js';
import { CSV_FORMS, type CsvForm } from '../../core/model/csv-form.js';
import { unguarded } from '../../core/model/formula-guard.js';
import { LOG_SIGNALS } from '../../core/model/log-signals.js';
import { type ComplaintList, complaintList, type Fault } from '../complaint-list.js';
import { scanRecord, spanText } from '../field-spans.js';
import { inBackticks } from '../in-backticks.js';
import { tableLimits } from '../limits.js';
import { nameHelp, nearestName } from '../nearest-name.js';
import { LocalOffset } from './local-offset.js';
import { logColumns, TIME_ALLOWED } from './log-columns.js';
import { type LogHeader, readLogHeader } from './log-header.js';
import { LogTimeReader } from './read-log-time.js';

export interface LogReading {
  /** Name by which complaints call the file. */
  readonly file: string;
  /** Our name for a station or signal that the log calls otherwise. */
  readonly renames: ReadonlyMap<string, string>;
  /** Stations of the cell; null where no cell is given, so that any name is one. */
  readonly stations: readonly string[] | null;
  /** Zone of times that are written without one. */
  readonly zone: string | null;
  /** Moment of second 0, where the log is written in seconds. */
  readonly start: Moment | null;
}

export interface LogRead {
  readonly complaints: readonly Complaint[];
  /** null where there is no record to go by. */
  readonly clock: LogClock | null;
}

/** Longest line that is read. */
const LONGEST_LINE = 10_000;
/** Share of lines that may be broken before the log is refused. */
const BROKEN_SHARE = 0.1;
/** Records further back than this are no late ones where the clock shows an hour twice. */
const RUNS_BACK_S = 60;
const DAY_S = 86_400;
const UNKNOWN = -1;
const BROKEN = -2;

/** A piece of text that holds one line or many. */
interface Fields {
  text: string;
  /** Where each field of the line begins and ends. */
  readonly starts: number[];
  readonly ends: number[];
  count: number;
}

export class LogReader {
  private rest = '';
  private skipping = false;
  private lineNumber = 0;
  private lines = 0;
  private broken = 0;
  private header: LogHeader | null = null;
  private refused = false;
  /** What is broken is told with the result, and there is enough of it to go by. */
  private isSound = false;
  private readonly list: ComplaintList = complaintList();
  private readonly times = new LogTimeReader();
  private readonly local: LocalOffset | null;
  private readonly fields: Fields = { text: '', starts: [], ends: [], count: 0 };
  private lineIn = '';
  private lineStart = 0;
  private lineEnd = 0;
  private markIn = '';
  private nextMark = -1;
  private readonly signals = new Map<string, number>();
  private readonly stations = new Map<string, number>();
  private readonly parts = new Map<string, number>();
  private readonly known: ReadonlySet<string> | null;
  private form: LogClock['form'] | null = null;
  private baseDay = 0;
  private offsetMin = 0;
  /** The zone in which the record before was written, minutes east of UTC. */
  private writtenMin = 0;
  private digits = 0;

  /** @throws RangeError where the zone is not known */
  constructor(
    private readonly reading: LogReading,
    private readonly log: LogAnalysis,
  ) {
    this.local = reading.zone === null ? null : new LocalOffset(reading.zone);
    this.known = reading.stations === null ? null : new Set(reading.stations);
  }

  /** Takes the next piece of the text. @returns false where the log is refused and the rest need not be read */
  push(piece: string): boolean {
    if (this.header === null && piece.includes('\0')) this.refuse(NO_TEXT);
    if (this.refused) return false;
    const text = this.rest === '' ? piece : this.rest + piece;
    let from = 0;
    for (let end = text.indexOf('\n'); end >= 0 && !this.refused; end = text.indexOf('\n', from)) {
      this.takeLine(text, from, end);
      from = end + 1;
    }
    this.rest = text.slice(from);
    if (this.rest.length > LONGEST_LINE) this.cutLongLine();
    return !this.refused;
  }

  /** A line without end is counted once and passed over. */
  private cutLongLine(): void {
    this.takeLine(this.rest, 0, this.rest.length);
    this.skipping = true;
    this.rest = '';
  }

  /** In which form tables go that are written beside this log. */
  csvForm(): CsvForm {
    return CSV_FORMS[this.header?.delimiter === ';' ? 'semicolon-comma' : 'comma-point'];
  }

  /** To be called once after the last piece; ends the analysis, too. */
  end(): LogRead {
    if (this.rest !== '' && !this.refused) this.takeLine(this.rest, 0, this.rest.length);
    this.log.end();
    if (!this.refused) this.judge();
    return { complaints: this.isSound ? [] : this.list.sorted(), clock: this.clock() };
  }

  private clock(): LogClock | null {
    if (this.form === null) return null;
    return {
      form: this.form,
      baseS: this.form === 'seconds' ? 0 : this.baseDay * DAY_S,
      offsetMin: this.offsetMin,
      resolutionS: 10 ** -this.digits,
    };
  }

  // ---- lines --------------------------------------------------------------------------------------------------

  private takeLine(text: string, start: number, lineEnd: number): void {
    if (this.skipping) {
      this.skipping = false;
      return;
    }
    this.lineNumber++;
    const end = lineEnd > start && text.charCodeAt(lineEnd - 1) === 13 ? lineEnd - 1 : lineEnd;
    if (end === start) return;
    const first = text.charCodeAt(start);
    if ((first < 48 || first > 57) && isIdle(text, start, end)) return;
    if (this.header === null) {
      this.takeHeader(text.slice(start, end));
      return;
    }
    this.lines++;
    this.lineIn = text;
    this.lineStart = start;
    this.lineEnd = end;
    if (this.split(text, start, end)) this.takeRecord(this.header);
  }

  private takeHeader(line: string): void {
    this.header = readLogHeader(this.list, this.reading.file, line, this.lineNumber);
    this.refused = this.header === null;
  }

  /** Finds the fields of a line; false where it is broken. */
  private split(text: string, start: number, end: number): boolean {
    if (this.hasMark(text, start, end)) return this.splitQuoted(text.slice(start, end));
    const { fields } = this;
    const { delimiter } = this.header!;
    fields.text = text;
    let count = 0;
    let from = start;
    for (;;) {
      const to = text.indexOf(delimiter, from);
      if (to < 0 || to >= end) break;
      fields.starts[count] = from;
      fields.ends[count++] = to;
      from = to + 1;
    }
    fields.starts[count] = from;
    fields.ends[count++] = end;
    fields.count = count;
    for (let i = 0; i < count; i++) this.trim(i);
    return true;
  }

  /** Looks for the next quotation mark only when the last one found is passed: most logs have none. */
  private hasMark(text: string, start: number, end: number): boolean {
    if (this.markIn !== text || (this.nextMark < start && this.nextMark >= 0)) {
      this.markIn = text;
      this.nextMark = text.indexOf('"', start);
    }
    return this.nextMark >= 0 && this.nextMark < end;
  }

  private trim(i: number): void {
    const { text, starts, ends } = this.fields;
    while (starts[i]! < ends[i]! && text.charCodeAt(starts[i]!) <= 32) starts[i]!++;
    while (starts[i]! < ends[i]! && text.charCodeAt(ends[i]! - 1) <= 32) ends[i]!--;
  }

  /** A line with quotation marks: split exactly, its values put one after the other. */
  private splitQuoted(line: string): boolean {
    const scan = scanRecord(line, this.header!.delimiter);
    if (scan.state !== 'whole')
      return this.breakLine('quotation mark', {
        code: 'TAB09',
        text: 'a quotation mark is not closed, or text follows the closing one',
        help: null,
      });
    const { fields } = this;
    let text = '';
    for (const [i, span] of scan.spans.entries()) {
      fields.starts[i] = text.length;
      text += spanText(line, span).trim();
      fields.ends[i] = text.length;
    }
    fields.text = text;
    fields.count = scan.spans.length;
    return true;
  }

  /** A value of the line; empty where the column is not there. */
  private value(column: number): string {
    const { text, starts, ends, count } = this.fields;
    return column < 0 || column >= count ? '' : text.slice(starts[column]!, ends[column]!);
  }

  // ---- records ------------------------------------------------------------------------------------------------

  private takeRecord(header: LogHeader): void {
    const { fields, times } = this;
    if (this.hasSurplus(header.width)) return;
    const at = header.time;
    if (at >= fields.count || !times.read(fields.text, fields.starts[at]!, fields.ends[at]!)) {
      this.breakLine('time', timeFault(this.value(at)));
      return;
    }
    const signal = this.signalOf(this.value(header.signal));
    if (signal === BROKEN) return;
    const station = this.stationOf(this.value(header.station));
    if (station === BROKEN) return;
    const value = this.valueOf(this.value(header.value));
    if (value === undefined) return;
    const clockS = this.clockTime();
    if (clockS === null) return;
    if (signal === UNKNOWN || station === UNKNOWN) {
      this.noteUnknown(signal, header);
      return;
    }
    const part = this.partOf(this.value(header.part));
    if (part === BROKEN) return;
    this.log.add(clockS, station, recordCode(signal, value), part, this.lineNumber);
  }

  private hasSurplus(width: number): boolean {
    for (let i = width; i < this.fields.count; i++)
      if (this.value(i) !== '') return !this.breakLine('columns', tooMany(this.fields.count, width));
    return false;
  }

  private noteUnknown(signal: number, header: LogHeader): void {
    const isSignal = signal === UNKNOWN;
    const name = this.value(isSignal ? header.signal : header.station);
    this.log.damage.note(isSignal ? 'unknown signal' : 'unknown station', this.lineNumber, name);
  }

  /** Seconds of the log's clock; null where the time is written in another way than those before. */
  private clockTime(): number | null {
    const { times } = this;
    const form = times.form === 'local' && this.local !== null ? 'zoned' : times.form;
    if (this.form === null) this.begin(form);
    if (form !== this.form) {
      this.breakLine('time in another form', otherForm(this.value(this.header!.time)));
      return null;
    }
    if (times.digits > this.digits) this.digits = times.digits;
    const wallS = (times.day - this.baseDay) * DAY_S + times.seconds;
    if (form !== 'zoned') return wallS;
    if (times.form === 'local') return wallS - 60 * this.localOffset(wallS);
    if (times.offsetMin !== this.writtenMin) this.changeZone(wallS);
    return wallS - 60 * times.offsetMin;
  }

  /** The change of the clocks in the zone that was named is no damage. */
  private changeZone(wallS: number): void {
    this.writtenMin = this.times.offsetMin;
    if (this.local === null || this.localOffset(wallS) !== this.writtenMin)
      this.log.damage.note('other zone', this.lineNumber);
  }

  private begin(form: LogClock['form']): void {
    const { times } = this;
    this.form = form;
    this.baseDay = times.day;
    this.offsetMin = times.form === form ? times.offsetMin : this.localOffset(times.seconds);
    this.writtenMin = this.offsetMin;
    const { start } = this.reading;
    if (form === 'seconds')
      this.log.begin(start === null ? null : start.epochMs / 1000, start?.offsetMin ?? 0);
    else this.log.begin(this.baseDay * DAY_S, this.offsetMin);
  }

  private localOffset(wallS: number): number {
    const baseS = this.baseDay * DAY_S;
    return this.local!.at(baseS + wallS, baseS + this.log.line.lastS - RUNS_BACK_S);
  }

  private signalOf(name: string): number {
    return this.signals.get(name) ?? this.newName(this.signals, name, 'signal');
  }

  private stationOf(name: string): number {
    return this.stations.get(name) ?? this.newName(this.stations, name, 'station');
  }

  private partOf(name: string): number {
    if (name === '' || name === '-') return -1;
    return this.parts.get(name) ?? this.newName(this.parts, name, 'part');
  }

  /** Looks at a name that comes for the first time; broken ones are not kept, so that each line tells of it. */
  private newName(names: Map<string, number>, name: string, column: 'signal' | 'station' | 'part'): number {
    if (name === '' || name === '-') {
      this.breakLine(column, { code: 'VAL01', text: `a needed value is missing: the ${column}`, help: null });
      return BROKEN;
    }
    const plain = unguarded(name);
    const ours = this.reading.renames.get(plain) ?? plain;
    const number = column === 'signal' ? signalNumber(ours) : this.numberOf(ours, column);
    if (number === BROKEN) return BROKEN;
    if (names.size < 10_000) names.set(name, number);
    return number;
  }

  private numberOf(name: string, column: 'station' | 'part'): number {
    if (column === 'station' && this.known !== null)
      return this.known.has(name) ? this.log.stations.numberOf(name) : UNKNOWN;
    const reading = logColumns[column].read(name, { decimalComma: false });
    if (!reading.ok) {
      this.breakLine(column, reading.fault);
      return BROKEN;
    }
    const names = column === 'station' ? this.log.stations : this.log.parts;
    const most = column === 'station' ? tableLimits.stations : tableLimits.parts;
    if (names.find(name) < 0 && names.list.length === most) {
      const text = `found ${inBackticks(name)}, but the log names ${most} ${column}s already; more are not read`;
      this.breakLine(column, { code: 'LOG03', text, help: null });
      return BROKEN;
    }
    return names.numberOf(name);
  }

  /** undefined where the value is none. */
  private valueOf(text: string): 0 | 1 | null | undefined {
    const value = VALUES.get(text.toLowerCase());
    if (value !== undefined) return value;
    this.breakLine('value', {
      code: 'VAL05',
      text: `found ${inBackticks(text)}, expected \`1\` for a rise, \`0\` for a drop, or nothing`,
      help: null,
    });
    return undefined;
  }

  // ---- complaints ---------------------------------------------------------------------------------------------

  /** Notes a line that cannot be read. @returns false, so that callers can end with it */
  private breakLine(what: string, fault: Fault): false {
    this.broken++;
    this.log.damage.note('broken line', this.lineNumber, what);
    const column = Object.hasOwn(logColumns, what.split(' ')[0]!) ? what.split(' ')[0]! : null;
    const excerpt = (): Complaint['excerpt'] => this.excerptOf(column);
    const place = { file: this.reading.file, line: this.lineNumber, column, order: 0, excerpt };
    this.list.add(fault.code, place, () => fault);
    return false;
  }

  /** The line with the field of a column marked; all of it where that is not there. */
  private excerptOf(column: string | null): Complaint['excerpt'] {
    const { lineText: text } = this;
    const { spans } = scanRecord(text, this.header!.delimiter);
    const span = column === null ? undefined : spans[this.header![column as keyof typeof logColumns]];
    return { text, start: span?.start ?? 0, end: span?.end ?? text.length };
  }

  /** The line under the reader's eye. */
  private get lineText(): string {
    return this.lineIn.slice(this.lineStart, Math.min(this.lineEnd, this.lineStart + LONGEST_LINE));
  }

  private refuse(fault: Fault): void {
    const place = { file: this.reading.file, line: null, column: null, order: -1, excerpt: () => null };
    this.list.add(fault.code, place, () => fault);
    this.refused = true;
  }

  /** Refuses a log of which too little can be used; otherwise what is broken is told with the result. */
  private judge(): void {
    if (this.header === null)
      this.refuse({
        code: 'TAB06',
        text: 'the log is empty, expected a header row',
        help: 'Begin with `time,station,signal`.',
      });
    else if (this.log.records === 0) this.refuse(this.nothingUsable());
    else if (this.broken > BROKEN_SHARE * this.lines)
      this.refuse({
        code: 'LOG01',
        text: `${this.broken} of ${this.lines} lines cannot be read, at most ${100 * BROKEN_SHARE}% may be broken`,
        help: 'Correct the kinds of fault shown; each often has one cause.',
      });
    else this.isSound = true;
  }

  private nothingUsable(): Fault {
    const names = [...this.signals].filter(([, number]) => number === UNKNOWN).map(([name]) => name);
    if (names.length > 0)
      return {
        code: 'LOG02',
        text: `no line carries a signal that is known here; found ${names.slice(0, 10).map(inBackticks).join(', ')}`,
        help: `Say what they mean, such as \`--rename ${names[0]}=${nearestName(names[0]!, LOG_SIGNALS) ?? 'start'}\`. Known signals: ${LOG_SIGNALS.join(', ')}.`,
      };
    const strange = [...this.stations].filter(([, number]) => number === UNKNOWN).map(([name]) => name);
    if (strange.length > 0)
      return {
        code: 'LOG02',
        text: `no line names a station of the cell; found ${strange.slice(0, 10).map(inBackticks).join(', ')}`,
        help: nameHelp(strange[0]!, this.reading.stations ?? [], 'stations'),
      };
    return { code: 'LOG02', text: 'the log has no line that can be used', help: null };
  }
}

const VALUES: ReadonlyMap<string, 0 | 1 | null> = new Map(
  Object.entries({
    '': null,
    '-': null,
    '1': 1,
    '0': 0,
    '1.0': 1,
    '0.0': 0,
    true: 1,
    false: 0,
    on: 1,
    off: 0,
  } as const),
);

const NO_TEXT: Fault = {
  code: 'TAB04',
  text: 'the file is not a text table: it holds NUL characters',
  help: 'Save the log as CSV in UTF-8.',
};

function signalNumber(name: string): number {
  return (LOG_SIGNALS as readonly string[]).indexOf(name);
}

/** Blank lines, lines of separators alone, and comments. */
function isIdle(text: string, start: number, end: number): boolean {
  const line = text.slice(start, end).trim();
  return line === '' || line.startsWith('#') || line.startsWith('"#') || /^[\s,;]*$/.test(line);
}

function tooMany(count: number, width: number): Fault {
  const text = `found ${count} values, expected ${width}`;
  return { code: 'TAB13', text, help: 'Look for a delimiter too many, such as a decimal comma.' };
}

function timeFault(text: string): Fault {
  const help = /^\d{4}-\d\d-\d\d$/.test(text)
    ? 'A date alone is not enough; write the time of day as well.'
    : null;
  return { code: 'LOG04', text: `found ${inBackticks(text)} as a time, expected ${TIME_ALLOWED}`, help };
}

function otherForm(text: string): Fault {
  return {
    code: 'LOG05',
    text: `found ${inBackticks(text)}, which is written in another form than the times before it`,
    help: 'Give every time its zone, or none; with `--zone` those without one are read in that zone.',
  };
}
