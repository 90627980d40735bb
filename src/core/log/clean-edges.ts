/**
 * Takes duplicates, repeats and bouncing signals out of records whose times rise.
 *
 * A rise of one signal at one station that follows the rise before, or its fall, too soon is a bounce; so is a fall that
 * follows a fall too soon. A signal that is logged by its value counts only where the value changes; where both its sides
 * say something, the value must stand for the bounce time, which also keeps out pulses shorter than that.
 */
import type { Damage } from './damage.js';
import type { TakeRecord } from './record-queue.js';
import { CODE_MASK, FINISH, isTwoSided, LOW, levelOf, READY, WITH_VALUE } from './signals.js';

const SIGNALS = CODE_MASK + 1;
const UNKNOWN = 2;

interface Standing {
  readonly timeS: number;
  readonly clockS: number;
  readonly station: number;
  /** Whose value it is, and what its change says. */
  readonly level: number;
  readonly signal: number;
  readonly part: number;
  readonly line: number;
}

export class CleanEdges {
  private lastS = new Float64Array(0);
  private lastPart = new Int32Array(0);
  private level = new Uint8Array(0);
  private levelS = new Float64Array(0);
  /** Last fall of a signal of which only the rise says something. */
  private fallS = new Float64Array(0);
  /** Values that have not stood long enough yet, in the order in which they came. */
  private standing: Standing[] = [];
  private dueS = Number.POSITIVE_INFINITY;

  /**
   * @param bounceS edges of one signal closer than this are bounces, seconds
   * @param holdsSeveral stations where two parts may finish at nearly the same time
   * @param take takes the clean records; one with a value comes up to bounceS late, with its own time
   */
  constructor(
    private readonly bounceS: number,
    private readonly holdsSeveral: (station: number) => boolean,
    private readonly damage: Damage,
    private readonly take: TakeRecord,
  ) {}

  readonly add: TakeRecord = (timeS, clockS, station, code, part, line) => {
    if (timeS >= this.dueS) this.takeStanding(timeS - this.bounceS);
    const signal = code & CODE_MASK;
    const key = station * SIGNALS + signal;
    if (key >= this.lastS.length) this.grow(key);
    if (code >= WITH_VALUE && !this.changes(timeS, station, code, line)) return;
    if (code >= WITH_VALUE && isTwoSided(levelOf(code)))
      this.addStanding({ timeS, clockS, station, level: levelOf(code), signal, part, line });
    else if (this.isNew(timeS, station, key, part, line))
      this.take(timeS, clockS, station, signal, part, line);
  };

  /** True for a change of the value that says something. */
  private changes(timeS: number, station: number, code: number, line: number): boolean {
    const signal = levelOf(code);
    const key = station * SIGNALS + signal;
    const value = code & LOW ? 0 : 1;
    const before = this.level[key]!;
    const sameTime = this.levelS[key] === timeS;
    this.level[key] = value;
    this.levelS[key] = timeS;
    if (before === value) this.damage.note(sameTime ? 'duplicate' : 'repeat', line);
    else if (value === 0 && (before === UNKNOWN || !isTwoSided(signal))) this.fall(timeS, key, line);
    else return true;
    return false;
  }

  /** A fall that says nothing; it is kept in mind, because contacts that open bounce as well. */
  private fall(timeS: number, key: number, line: number): void {
    const isBounce = timeS - this.fallS[key]! < this.bounceS;
    this.damage.note(isBounce ? 'bounce' : 'drop', line);
    this.fallS[key] = timeS;
  }

  private isNew(timeS: number, station: number, key: number, part: number, line: number): boolean {
    const sinceS = timeS - this.lastS[key]!;
    const isTwice = sinceS === 0 && this.lastPart[key] === part;
    const isTooSoon = (sinceS > 0 && sinceS < this.bounceS) || timeS - this.fallS[key]! < this.bounceS;
    if (isTwice || (isTooSoon && !this.maySlip(station, key))) {
      this.damage.note(isTwice ? 'duplicate' : 'bounce', line);
      return false;
    }
    this.lastS[key] = timeS;
    this.lastPart[key] = part;
    return true;
  }

  private maySlip(station: number, key: number): boolean {
    const signal = key % SIGNALS;
    return (signal === FINISH || signal === READY) && this.holdsSeveral(station);
  }

  /** A value that turns back before it has stood long enough is taken back. */
  private addStanding(record: Standing): void {
    const at = this.standing.findIndex((s) => s.station === record.station && s.level === record.level);
    const before = this.standing[at];
    if (before === undefined) {
      this.standing.push(record);
      this.dueS = Math.min(this.dueS, record.timeS + this.bounceS);
      return;
    }
    this.standing.splice(at, 1);
    this.damage.note('bounce', before.line);
    this.damage.note('bounce', record.line);
  }

  /** Hands on the values that have stood since a time. */
  private takeStanding(sinceS: number): void {
    const due = this.standing.filter((s) => s.timeS <= sinceS);
    this.standing = this.standing.filter((s) => s.timeS > sinceS);
    this.dueS = Math.min(Number.POSITIVE_INFINITY, ...this.standing.map((s) => s.timeS + this.bounceS));
    for (const s of due) this.take(s.timeS, s.clockS, s.station, s.signal, s.part, s.line);
  }

  /** Hands on what still stands: at the end, and at a gap. */
  flush(): void {
    this.takeStanding(Number.POSITIVE_INFINITY);
  }

  private grow(key: number): void {
    const size = Math.max(2 * this.lastS.length, SIGNALS * 64, key + SIGNALS);
    this.lastS = widened(new Float64Array(size).fill(Number.NEGATIVE_INFINITY), this.lastS);
    this.levelS = widened(new Float64Array(size).fill(Number.NaN), this.levelS);
    this.fallS = widened(new Float64Array(size).fill(Number.NEGATIVE_INFINITY), this.fallS);
    this.lastPart = widened(new Int32Array(size).fill(-2), this.lastPart);
    this.level = widened(new Uint8Array(size).fill(UNKNOWN), this.level);
  }
}

function widened<T extends Float64Array | Int32Array | Uint8Array>(wide: T, narrow: T): T {
  wide.set(narrow);
  return wide;
}
