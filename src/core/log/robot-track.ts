/** Follows the robot: its ways from station to station, empty and with a part. */
import { Lacks } from './lacks.js';
import { endsWithin } from './long-silence.js';
import { Measure } from './measure.js';
import { ARRIVE, LEAVE, PICKED, PLACE, PLACED } from './signals.js';
import type { UnderWay } from './waiting-line.js';

export interface WayTimes {
  readonly from: number;
  readonly to: number;
  readonly loaded: boolean;
  /** In an attended shift, where the robot may be slower. */
  readonly attended: boolean;
  readonly times: Measure;
}

/** Ways told apart at most; further ones count in the totals only. */
const MOST_WAYS = 4000;

interface OpenWay extends UnderWay {
  readonly station: number;
  readonly loaded: boolean;
}

export class RobotTrack {
  readonly ways = new Map<number, WayTimes>();
  readonly emptyS = new Measure();
  readonly loadedS = new Measure();
  /** Between a pick and the place that follows it at the same station: turning the hands. */
  readonly index = new Measure();
  /** What is missing is told at the station at which the robot was seen next. */
  readonly lacks = new Map<number, Lacks>();
  seenLeave = 0;
  seenArrive = 0;
  private open: OpenWay | null = null;
  /** The pick that has just ended, and where. */
  private picked: UnderWay | null = null;
  private pickedAt = -1;
  private inHand = 0;
  private metStretch = -1;

  /** @param namesParts true where the log says what the robot carries when it leaves */
  constructor(private readonly namesParts: () => boolean) {}

  add(now: UnderWay, station: number, signal: number, attended: boolean, line: number): void {
    if (signal === PLACE && this.pickedAt === station && this.picked?.stretch === now.stretch)
      this.index.add(now.timeS - this.picked.timeS);
    this.picked = signal === PICKED ? now : null;
    this.pickedAt = station;
    if (signal === PICKED) this.inHand = Math.min(2, this.inHand + 1);
    else if (signal === PLACED) this.inHand = Math.max(0, this.inHand - 1);
    else if (signal === LEAVE) this.leave(now, station, line);
    else if (signal === ARRIVE) this.arrive(now, station, attended, line);
  }

  /** The robot is on a way that would have ended in the silence. */
  isOverdue(silenceS: number, stretch: number): boolean {
    const { open } = this;
    return open?.stretch === stretch && endsWithin(silenceS, open.loaded ? this.loadedS : this.emptyS);
  }

  private leave(now: UnderWay, station: number, line: number): void {
    this.seenLeave++;
    if (this.open !== null)
      this.lackAt(station, this.open.stretch === now.stretch ? 'missing' : 'cut', ARRIVE, line);
    const loaded = this.namesParts() ? now.part >= 0 : this.inHand > 0;
    this.open = { timeS: now.timeS, part: now.part, stretch: now.stretch, station, loaded };
    this.metStretch = now.stretch;
  }

  private arrive(now: UnderWay, station: number, attended: boolean, line: number): void {
    this.seenArrive++;
    const { open } = this;
    this.open = null;
    if (open === null) this.lackAt(station, this.metStretch === now.stretch ? 'missing' : 'cut', LEAVE, line);
    else if (open.stretch !== now.stretch) this.lackAt(station, 'cut', LEAVE, line);
    else this.addWay(open, station, attended, now.timeS - open.timeS);
  }

  private addWay(open: OpenWay, to: number, attended: boolean, seconds: number): void {
    (open.loaded ? this.loadedS : this.emptyS).add(seconds);
    const key = ((open.station * 1024 + to) * 2 + (open.loaded ? 1 : 0)) * 2 + (attended ? 1 : 0);
    let way = this.ways.get(key);
    if (way === undefined) {
      if (this.ways.size === MOST_WAYS) return;
      way = { from: open.station, to, loaded: open.loaded, attended, times: new Measure() };
      this.ways.set(key, way);
    }
    way.times.add(seconds);
  }

  private lackAt(station: number, kind: 'missing' | 'cut', signal: number, line: number): void {
    const lacks = this.lacks.get(station) ?? new Lacks();
    this.lacks.set(station, lacks);
    lacks.note(kind, signal, line);
  }
}
